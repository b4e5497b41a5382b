// A small view of an invented instrument: three strings, five frets, one checkpoint of heights, one of words, one rated.

import type { Answer, Catalogue, Line, Neck, StoredEntry, VisitView } from "../../src/api/types";

let seq = 0;
export function reading(what: string, at: object, value: string, more: object = {}): StoredEntry {
  seq += 1;
  const id = `r${seq}`;
  return {
    id,
    path: "/readings",
    value: { id, what, at, value, ...more },
    saw: 0,
    seq,
    device: "d1",
    at: "2026-11-25T14:07:31+01:00",
    place: seq,
  };
}

export const neck: Neck = {
  width: 1000,
  height: 100,
  left: false,
  fretted: true,
  times_wider: 3,
  frets: [0, 1, 2, 3, 4, 5].map((fret) => {
    const x = 40 + 900 * (1 - 2 ** (-fret / 12)) * 3.9;
    return { fret, x1: x, y1: 20, x2: x, y2: 80 };
  }),
  strings: [1, 2, 3].map((string) => ({
    string,
    note: "E4",
    x1: 40,
    y1: 20 + 15 * string,
    x2: 960,
    y2: 10 + 20 * string,
    thick: 1,
  })),
  edge: [
    { x: 40, y: 20 },
    { x: 920, y: 14 },
    { x: 920, y: 86 },
    { x: 40, y: 80 },
  ],
};

const answer = (checkpoint: string, state: Answer["state"], lines: Line[] = [], because?: string): Answer => ({
  checkpoint,
  section: "setup",
  question: "",
  in_scope: true,
  state,
  lines,
  ...(because ? { because } : {}),
});

export const line = (at: object, more: Partial<Line> = {}): Line => ({
  at,
  observable: "string height",
  found: { value: 1.7, unit: "mm", u: 0.029, text: "1.70 ± 0.03 mm" },
  standing: "usual",
  stage: "arrival",
  limit: "1.3 to 2.2 mm",
  ...more,
});

export function view(more: Partial<VisitView> = {}, answers: Answer[] = []): VisitView {
  const heights = [1, 2, 3].map((string) => ({ at: { string, fret: 5 }, observable: "string height" }));
  return {
    schema: "fallaway/visit/1",
    id: "00000000000000b1",
    dossier: "d",
    title: "Ostrel Heron",
    opened: "",
    seq: 9,
    entries: [],
    conflicts: [],
    instrument: { strings: 3, frets: 5, fretted: true, left: false, notes: ["E4", "B3", "G3"] },
    neck,
    minutes: { total: 10, left: 10 },
    next: null,
    checkpoints: [
      { id: "seat", in_scope: true, done: true, minutes: 1, places: [{ at: {}, observable: "" }] },
      { id: "heights", in_scope: true, done: false, minutes: 2, places: heights },
      { id: "cavity", in_scope: true, done: false, minutes: 2, places: [{ at: {}, observable: "" }] },
      {
        id: "tap",
        in_scope: true,
        done: false,
        minutes: 1,
        places: [1, 2, 3].map((string) => ({ at: { string }, observable: "nut tap" })),
      },
      { id: "weight", in_scope: false, done: false, minutes: 1, places: [{ at: {}, observable: "weight" }] },
    ],
    assessment: {
      schema: "",
      version: "",
      demo: true,
      instrument: "",
      verdict: "cannot tell yet",
      scope: "quick look",
      hands: "look only",
      procedure: "",
      reasons: [],
      complaints: [],
      findings: [],
      claims: [],
      card: [],
      changes: [],
      price: null,
      neck: null,
      strings: { total: { text: "" }, strings: [], left_out: [] },
      intonation: null,
      not_looked_at: [],
      not_judged: [],
      assumed: [],
      next: [],
      cautions: [],
      answers: [answer("cavity", "not allowed", [], "look only: opens a cavity"), ...answers],
    },
    ...more,
  };
}

export const judged = answer;

export const catalogue = {
  procedure: {
    sections: [],
    checkpoints: [
      { id: "seat", anchors: ["loose", "poor", "fair", "fully bedded"], disturbs: "slackens strings" },
      { id: "heights" },
      { id: "cavity", disturbs: "opens a cavity" },
      { id: "tap", disturbs: "nothing" },
    ],
  },
} as unknown as Catalogue;
