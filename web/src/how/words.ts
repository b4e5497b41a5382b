// What a checkpoint of the procedure says, in the lines the page prints.

import type { ProcedureCheckpoint, Severity } from "../api/types";

/** One short step a line; a full stop inside a figure ("0.03 mm") ends nothing. */
export function stepsOf(how: string): string[] {
  return how.split(/(?<=[.?])\s+(?=[A-Z0-9])/).filter((step) => step !== "");
}

const lower: Record<string, Severity> = { critical: "major", major: "minor", minor: "note", note: "note" };

export interface Step {
  /** 3 best to 0 worst, as it is written down. */
  step: number;
  says: string;
  /** What it amounts to; "passes" for the two best. */
  counts: string;
}

/** The anchored sentences, best on top. */
export function anchorSteps(checkpoint: Pick<ProcedureCheckpoint, "anchors" | "severity">): Step[] {
  const counts = [checkpoint.severity, lower[checkpoint.severity] ?? "note", "passes", "passes"];
  return (checkpoint.anchors ?? [])
    .map((says, step) => ({ step, says, counts: counts[step] ?? "" }))
    .reverse();
}

/** Answers in words, the right ones first, then by how heavy they weigh. `known` are all words the reading takes. */
export function wordLines(checkpoint: Pick<ProcedureCheckpoint, "words">, known: readonly string[]): { word: string; counts: string }[] {
  const faults = checkpoint.words ?? [];
  if (faults.length === 0) return [];
  const right = known.filter((word) => word !== "not tried" && !faults.some((fault) => fault.word === word));
  const weights = ["note", "minor", "major", "critical"];
  const ordered = [...faults].sort((a, b) => weights.indexOf(a.severity ?? "note") - weights.indexOf(b.severity ?? "note"));
  return [...right.map((word) => ({ word, counts: "passes" })), ...ordered.map((fault) => ({ word: fault.word, counts: fault.severity ?? "" }))];
}

type End = string | { bass?: string; treble?: string } | undefined;

/** "1.3 mm bass to 1.0 mm treble", or the one figure for all strings. */
function endWords(end: End): string {
  if (end === undefined || typeof end === "string") return end ?? "";
  return [end.bass && `${end.bass} bass`, end.treble && `${end.treble} treble`].filter(Boolean).join(" to ");
}

export interface LimitLine {
  /** Which instruments it holds for; "" for all that are left. */
  when: string;
  range: string;
  source: string;
  /** Decided at 95 in 100 and not by "usual". */
  strict: boolean;
}

interface WrittenLimit {
  low?: End;
  high?: End;
  high_major?: End;
  strict?: boolean;
  source?: string;
  when?: Record<string, unknown>;
}

/** In the order of the procedure: of several the first one that fits the instrument counts. */
export function limitLines(limits: readonly object[] | undefined): LimitLine[] {
  return ((limits ?? []) as WrittenLimit[]).map((limit) => ({
    when: whenWords(limit.when),
    range: rangeWords(limit),
    source: limit.source ?? "",
    strict: limit.strict === true,
  }));
}

function rangeWords(limit: WrittenLimit): string {
  const low = endWords(limit.low);
  const high = endWords(limit.high);
  const parts: string[] = [];
  if (low !== "") parts.push(`not below ${low}`);
  if (high !== "") parts.push(`not above ${high}`);
  if (limit.high_major !== undefined) parts.push(`major above ${endWords(limit.high_major)}`);
  return parts.join(", ").replace(/(^|\s)-(?=\d)/g, "$1\u2212");
}

const facts: Record<string, (value: unknown) => string> = {
  kinds: (value) => list(value).map((kind) => (kind === "electric bass" ? "bass" : "guitar")).join(" or "),
  fretted: (value) => (value === false ? "without frets" : "with frets"),
  strings_min: (value) => `${String(value)} strings and more`,
  battery: (value) => (value === false ? "without a battery" : "with a battery"),
  zero_fret: (value) => (value === false ? "without a zero fret" : "with a zero fret"),
};

const list = (value: unknown): string[] => (Array.isArray(value) ? value.map(String) : [String(value)]);

export function whenWords(when: Record<string, unknown> | undefined): string {
  return Object.entries(when ?? {})
    .map(([fact, value]) => facts[fact]?.(value) ?? `${fact.replace(/_/g, " ")} ${list(value).join(" or ")}`)
    .join(", ");
}

/** What must be known before a checkpoint that changes the instrument is done. */
export function cautionsFor(disturbs: string | undefined): string[] {
  switch (disturbs) {
    case "slackens strings":
      return ["Slackens strings. Wire ends fly: eye protection. Let all strings down together, a little each.",
        "Tune and let it settle before anything else is read."];
    case "turns a screw":
      return ["Turns a screw. Write down first where it stands.",
        "Never by force: an eighth of a turn, tune, read. Stop at the first creak."];
    case "opens a cavity":
      return ["Opens a cavity. Only when the owner allows it; photograph first, keep each screw by its hole.",
        "Never open what is joined to the mains."];
    default:
      return [];
  }
}
