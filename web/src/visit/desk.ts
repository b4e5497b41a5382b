// What the hand is at on this device: the checkpoint, the place, what is typed, the stage, the tool. One for each open
// visit. What is stored goes through visit_state; nothing here survives the visit but what settings keep. What the hand
// does with it is in hand.ts.

import { computed, signal, type ReadonlySignal, type Signal } from "@preact/signals";
import type { Catalogue, Observable, Place, ProcedureCheckpoint } from "../api/types";
import type { Field } from "../entry/quantity";
import { usualUnit } from "../entry/units";
import { directionFor, settings, unitFor } from "../settings";
import type { NewEntry, OpenVisit, ShownVisit } from "../visit_state";
import { checkpointNamed, isWords, observableNamed, readsOf } from "./catalogue";
import { atStage, cellAt, readingOf, rowDone, stageOf, type Cell } from "./figures";
import { entering, moving, undoing } from "./hand";
import { halfTyped, leftAt } from "./left_at";
import { nextOpen } from "./order";
import { inDirection, keyOf, lies, samePlace } from "./places";
import type { Hand } from "./taking";

export type Panel =
  | "sheet"
  | "visit"
  | "wants"
  | "facts"
  | "work"
  | "claims"
  | "findings"
  | "history"
  | "remark"
  | "photo"
  | "keys"
  | "tool";

export interface Refusal {
  index: number;
  typed: string;
  says: string;
  instead?: string;
}

export interface Heading {
  id: string; // of the checkpoint
  at?: Place;
  draft?: string; // put into the field there
  what?: string; // the way it is read, where there is more than one
}

/** What stands on the desk. */
export interface DeskState {
  visit: OpenVisit;
  catalogue: Catalogue;
  view: ReadonlySignal<ShownVisit>;
  checkpoint: ReadonlySignal<ProcedureCheckpoint | undefined>;
  panel: Signal<Panel | null>;
  stage: Signal<string>;
  /** Which way a checkpoint is read, by its id, where there is more than one. */
  chosen: Signal<Record<string, string>>;
  /** A place narrowed by hand, by the checkpoint's id. */
  narrowed: Signal<Record<string, Place>>;
  observable: ReadonlySignal<Observable | undefined>;
  cells: ReadonlySignal<Cell[]>;
  active: Signal<number>;
  /** Where the caret is to stand once the sheet has come to this checkpoint. */
  heading: Signal<Heading | null>;
  draft: Signal<string>;
  refused: Signal<Refusal | null>;
  /** Refused by the shop and put back into their fields, by the key of the outbox: once is enough. */
  mended: Set<string>;
  /** What stood at a place before it was read again here, by the place's key: "1.80". */
  was: Signal<Record<string, string>>;
  repeating: Signal<boolean>;
  field: ReadonlySignal<Field>;
  tool: ReadonlySignal<string>;
  /** What undo took back; "" nothing. */
  took: Signal<string>;
  /** What Enter does next when nothing is typed: "next, Relief"; "" where it goes to the next place of the row. */
  leadsOn: ReadonlySignal<string>;
  /** Answered here although the server has not said so yet. */
  settled: Signal<ReadonlySet<string>>;
}

export interface Moving {
  goTo(id: string | undefined): void;
  /** To a place of a checkpoint, from wherever the sheet stands. */
  goToPlace(to: Heading): void;
  onward(): void;
  chooseObservable(name: string): void;
  pick(index: number): void;
  /** Narrows the place by hand: "fret 9". */
  place(at: Place): void;
}

export interface Entering {
  type(text: string): void;
  rub(): void;
  /** Rubs out all that is typed; a figure the shop refused is given up. */
  leaveOut(): void;
  enter(): void;
  sameForAll(): void;
  word(word: string): void;
  wordForAll(word: string): void;
  hand(): Hand;
  store(entries: NewEntry[], says: string): void;
}

export interface Undoing {
  undo(): void;
  putBack(): void;
}

export type Desk = DeskState & Moving & Entering & Undoing;

const stages = ["arrival", "before", "after", "hand-over"];

/** The stage a visit stands at: after, once work has been done; else the latest that any reading has. */
function stageReached(view: ShownVisit): string {
  if (view.entries.some((entry) => entry.path === "/work")) return "after";
  const of = view.entries
    .filter((entry) => entry.path === "/readings" || entry.path === "/ratings")
    .map((entry) => stages.indexOf(stageOf((entry.value ?? {}) as { stage?: string })));
  return stages[Math.max(0, ...of)] ?? "arrival";
}

export function createDesk(
  visit: OpenVisit,
  catalogue: Catalogue,
  wanted: ReadonlySignal<string | undefined>,
): Desk {
  const state = createState(visit, catalogue, wanted);
  const moves = moving(state);
  return { ...state, ...moves, ...entering(state, moves), ...undoing(state, moves) };
}

function createState(
  visit: OpenVisit,
  catalogue: Catalogue,
  wanted: ReadonlySignal<string | undefined>,
): DeskState {
  const view = computed(() => visit.view.value as ShownVisit);
  const left = view.peek().checkpoints.find((one) => one.id === leftAt(visit.id))?.id;
  const firstOpen = left ?? nextOpen(view.peek(), catalogue, undefined);
  const checkpoint = computed(() =>
    checkpointNamed(catalogue, wanted.value ?? firstOpen ?? view.value.checkpoints[0]?.id),
  );
  const chosen = signal<Record<string, string>>({});
  const narrowed = signal<Record<string, Place>>({});
  const observable = computed(() => wayOf(view.value, catalogue, checkpoint.value, chosen.value));
  const field = computed<Field>(() => {
    const dimension = observable.value?.dimension ?? "length";
    const name = observable.value?.name ?? "";
    return { dimension, unit: unitFor(name, usualUnit(name, dimension)) };
  });
  const stage = signal(stageReached(view.peek()));
  const cells = computed(() =>
    cellsOf(view.value, checkpoint.value, observable.value, narrowed.value).map((cell) => atStage(cell, stage.value)),
  );
  const [draft, repeating] = [signal(""), signal(false)];
  const settled = signal<ReadonlySet<string>>(new Set());
  return {
    visit,
    catalogue,
    view,
    checkpoint,
    chosen,
    narrowed,
    observable,
    field,
    panel: signal<Panel | null>(null),
    stage,
    cells,
    active: signal(0),
    heading: signal(halfTyped(visit.id)),
    draft,
    refused: signal<Refusal | null>(null),
    mended: new Set(),
    was: signal({}),
    repeating,
    tool: computed(() => settings.tools.value[observable.value?.name ?? ""] ?? ""),
    took: signal(""),
    settled,
    leadsOn: computed(() => {
      if (draft.value !== "" || repeating.value || !rowDone(cells.value, stage.value)) return "";
      const id = checkpoint.value?.id ?? "";
      const next = nextOpen(view.value, catalogue, id, new Set([...settled.value, id]));
      return `next, ${checkpointNamed(catalogue, next)?.title ?? "the verdict"}`;
    }),
  };
}

/** The way a checkpoint is read: as chosen, else as it was, else in words where it has them: they are quickest. */
function wayOf(
  view: ShownVisit,
  catalogue: Catalogue,
  checkpoint: ProcedureCheckpoint | undefined,
  chosen: Record<string, string>,
): Observable | undefined {
  if (!checkpoint) return undefined;
  const names = readsOf(checkpoint);
  const used = view.assessment.answers.find((one) => one.checkpoint === checkpoint.id)?.lines[0]?.observable;
  const known = names.map((name) => observableNamed(catalogue, name)).filter((one) => one !== undefined);
  const wish = chosen[checkpoint.id] ?? used;
  return known.find((one) => one.name === wish) ?? known.find(isWords) ?? known[0];
}

function cellsOf(
  view: ShownVisit,
  checkpoint: ProcedureCheckpoint | undefined,
  observable: Observable | undefined,
  narrowed: Record<string, Place>,
): Cell[] {
  if (!checkpoint || !observable) return [];
  const places = view.checkpoints.find((one) => one.id === checkpoint.id)?.places ?? [];
  const here = (places.length > 0 ? places.map((one) => one.at) : [{}]).flatMap((at) =>
    readPlaces(view, observable.name, at),
  );
  const added = narrowed[checkpoint.id];
  if (added && !here.some((at) => samePlace(at, added))) here.push(added);
  const cells = here.map((at) => cellAt(view, checkpoint.id, observable.name, at));
  // A place that a hand has narrowed stands for the unread wider one.
  const shown =
    added && cells.length > 1
      ? cells.filter((cell) => cell.state !== "blank" || Object.keys(cell.at).length > 0)
      : cells;
  return inDirection(shown, directionFor(observable.name) === "bass first");
}

/** A place of the procedure as it was read: itself, or the narrower ones that were ("fret 9" as "fret 9, treble"). */
/** The height of a string held at a fret is another height than the open string's. */
const isHeldHeight = (observable: string, read: Place, asked: Place): boolean =>
  observable === "string height" && read.pressed !== undefined && asked.pressed === undefined;

function readPlaces(view: ShownVisit, observable: string, at: Place): Place[] {
  const narrower = new Map<string, Place>();
  for (const entry of view.entries) {
    const reading = entry.path === "/readings" ? readingOf(entry) : undefined;
    if (reading?.what !== observable || !reading.at || !lies(reading.at, at)) continue;
    if (isHeldHeight(observable, reading.at, at)) continue;
    narrower.set(keyOf(reading.at), reading.at);
  }
  return narrower.size > 0 ? [...narrower.values()] : [at];
}
