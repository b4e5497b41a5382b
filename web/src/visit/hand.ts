// What the hand does at the desk: going from checkpoint to checkpoint, typing and taking, undoing.

import { signal } from "@preact/signals";
import { deviceId, newId } from "../api/device";
import type { Entry } from "../api/types";
import { spoken } from "../entry/spoken";
import { landNear } from "../look/focus";
import { go } from "../route";
import { settings } from "../settings";
import { shop } from "../shop_state";
import type { NewEntry, ShownVisit } from "../visit_state";
import { announce, sayAloud, warn } from "./announce";
import { isWords } from "./catalogue";
import type { DeskState, Entering, Heading, Moving, Undoing } from "./desk";
import { isOpen, rowDone, type Cell } from "./figures";
import { nextOpen } from "./order";
import { describePlace, keyOf, placeWord, samePlace } from "./places";
import { dropRefused } from "./refusals";
import { closePanel } from "./steps";
import {
  moment,
  nextPlace,
  placesForAll,
  readingEntry,
  repeatEntry,
  take,
  takeRepeats,
  type Hand,
  type Taken,
} from "./taking";
import { whereOf } from "./where_of";

function clear(state: DeskState): void {
  state.draft.value = "";
  state.refused.value = null;
  state.visit.tryOut([]);
}

/** Leaves the place: what is typed there is gone, and so is repeating, which belongs to one place. */
function leave(state: DeskState): void {
  clear(state);
  state.repeating.value = false;
}

/** The focus goes along; on a narrow page the block at the head makes room for figures and pad. */
function showCheckpoint(): void {
  requestAnimationFrame(() => {
    const checkpoint = document.querySelector(".checkpoint");
    landNear(checkpoint);
    if (innerWidth > 900) return;
    checkpoint?.scrollIntoView({ block: "start" });
    showKeys();
  });
}

/** Where the page is low, the keys come into sight before the block at the head does. */
export function showKeys(): void {
  if (innerWidth <= 900) document.querySelector(".checkpoint .pad")?.scrollIntoView({ block: "nearest" });
}

/** What is being typed is tried out, as far as it reads as figures, so that its decision stands beside it at once. */
export function tryDraft(state: DeskState, hand: () => Hand): void {
  const typed = state.draft.value;
  const all = state.cells.peek();
  const active = state.active.peek();
  const now = all[active];
  if (typed === "" || !now) return state.visit.tryOut([]);
  const taken = taking(state, now);
  if (taken.kind === "refused") return state.visit.tryOut([]);
  state.visit.tryOut(withTool(state, entriesOf(state, taken.figures, hand())));
}

const taking = (state: DeskState, now: Cell): Taken =>
  state.repeating.peek()
    ? takeRepeats(state.draft.peek(), state.field.peek(), state.active.peek())
    : take(
        state.draft.peek(),
        state.field.peek(),
        state.cells.peek(),
        state.active.peek(),
        state.stage.peek(),
        placeWord(now.at),
      );

/** What was taken, as entries: one a place, while repeating one for all of it. */
function entriesOf(state: DeskState, figures: { index: number; text: string }[], hand: Hand): NewEntry[] {
  const all = state.cells.peek();
  const here = all[state.active.peek()];
  if (state.repeating.peek() && here && figures.length > 0)
    return [
      repeatEntry(
        here,
        figures.map((one) => one.text),
        hand,
      ),
    ];
  return figures.flatMap(({ index, text }) => entryAt(all[index], text, hand));
}

/**
 * The caret of a checkpoint that is begun stands where its first figure is missing: typing on never overwrites. Where
 * somebody was heading for a place, it stands there.
 */
export function takeStand(state: DeskState): void {
  const stage = state.stage.peek();
  const heading = state.heading.peek();
  if (heading !== null && heading.id === state.checkpoint.peek()?.id) {
    state.heading.value = null;
    if (heading.what !== undefined) state.chosen.value = { ...state.chosen.peek(), [heading.id]: heading.what };
    narrowTo(state, heading);
    const index = state.cells.peek().findIndex((cell) => samePlace(cell.at, heading.at));
    if (heading.draft !== undefined) state.draft.value = heading.draft;
    if (index >= 0) {
      state.active.value = index;
      return;
    }
  }
  state.active.value = Math.max(
    0,
    state.cells.peek().findIndex((cell) => isOpen(cell, stage)),
  );
}

/** A place that the checkpoint leaves to the hand ("fret 9" of a check of all frets) is chosen. */
function narrowTo(state: DeskState, { id, at, what }: Heading): void {
  if (at === undefined || what === undefined || state.cells.peek().some((cell) => samePlace(cell.at, at))) return;
  const places = state.view.peek().checkpoints.find((one) => one.id === id)?.places ?? [];
  if (places.length <= 1) state.narrowed.value = { ...state.narrowed.peek(), [id]: at };
}

export function moving(state: DeskState): Moving {
  const goTo = (id: string | undefined, heading: Heading | null = null) => {
    leave(state);
    state.was.value = {};
    state.heading.value = heading;
    closePanel(state.panel, () => {
      go({ page: "visit", id: state.visit.id, ...(id === undefined ? {} : { checkpoint: id }) }, true);
      takeStand(state);
      showCheckpoint();
    });
  };
  return {
    goTo: (id) => goTo(id),
    goToPlace: (to) => goTo(to.id, to),
    onward() {
      const now = state.checkpoint.peek()?.id;
      if (now && answeredHere(state.view.peek(), now, state.cells.peek(), state.stage.peek())) {
        state.settled.value = new Set([...state.settled.peek(), now]);
      }
      const next = nextOpen(state.view.peek(), state.catalogue, now, state.settled.peek());
      if (next) goTo(next);
      else go({ page: "verdict", id: state.visit.id });
    },
    chooseObservable(name) {
      const id = state.checkpoint.peek()?.id;
      if (id) state.chosen.value = { ...state.chosen.peek(), [id]: name };
      leave(state);
      state.active.value = 0;
    },
    pick(index) {
      if (index === state.active.peek()) clear(state);
      else leave(state);
      state.active.value = index;
    },
    place(at) {
      state.narrowed.value = { ...state.narrowed.peek(), [state.checkpoint.peek()?.id ?? ""]: at };
      state.active.value = Math.max(
        0,
        state.cells.peek().findIndex((cell) => samePlace(cell.at, at)),
      );
    },
  };
}

/** Answered on this device, although the server's sums may not say so yet. What was only passed over is not. */
function answeredHere(view: ShownVisit, id: string, cells: Cell[], stage: string): boolean {
  if (cells.length > 0) return cells.every((cell) => !isOpen(cell, stage));
  return view.entries.some(
    (entry) =>
      (entry.path === "/ratings" || entry.path === "/photos") &&
      (entry.value as { checkpoint?: string } | null)?.checkpoint === id,
  );
}

export function entering(state: DeskState, moves: Moving): Entering {
  const hand = (): Hand => ({
    stage: state.stage.peek(),
    by: settings.person.peek(),
    tool: toolFor(state),
    when: moment(new Date()),
    newId,
  });
  const store = (entries: NewEntry[], says: string) => {
    if (entries.length === 0) return;
    state.took.value = "";
    state.visit.add(...entries);
    announce(says);
    sayAloud(says);
  };
  // After the last place the row stays: it is seen with its limits, and what is typed next belongs to nothing else.
  const move = (next: number | null, last = state.active.peek()) => {
    leave(state);
    state.active.value = next ?? last;
  };
  const fill = (text: string) => {
    const all = state.cells.peek();
    const places = placesForAll(all, state.active.peek(), state.stage.peek());
    const entries = places.flatMap((index) => entryAt(all[index], text, hand()));
    store(withTool(state, entries), spoken(`all ${entries.length}`, text));
    move(null, all.length - 1);
  };
  return {
    hand,
    store,
    wordForAll: fill,
    type(text) {
      state.refused.value = null;
      state.draft.value += text;
    },
    leaveOut() {
      clear(state);
      dropRefused(state, state.cells.peek()[state.active.peek()]);
    },
    rub() {
      state.refused.value = null;
      state.draft.value = state.draft.peek().slice(0, -1);
    },
    enter: () => enter(state, moves, { hand, store, move }),
    sameForAll: () => sameForAll(state, fill),
    word(said) {
      const all = state.cells.peek();
      const cell = all[state.active.peek()];
      if (!cell) return;
      store(entryAt(cell, said, hand()), spoken(describePlace(cell.at), said));
      if (all.length === 1) moves.onward();
      else move(nextPlace(all, state.active.peek(), state.stage.peek()));
    },
  };
}

interface Doing {
  hand: () => Hand;
  store: (entries: NewEntry[], says: string) => void;
  move: (next: number | null, last?: number) => void;
}

function enter(state: DeskState, moves: Moving, doing: Doing): void {
  const all = state.cells.peek();
  const active = state.active.peek();
  const now = all[active];
  if (!now) return moves.onward();
  if (state.draft.peek().trim() === "") return enterNothing(state, moves, doing);
  const taken = taking(state, now);
  if (taken.kind === "refused") {
    state.refused.value = {
      index: active,
      typed: state.draft.peek(),
      says: taken.says,
      ...(taken.instead ? { instead: taken.instead } : {}),
    };
    return warn(taken.says);
  }
  const says = taken.figures.map(({ index, text }) => spoken(describePlace(all[index]?.at), text)).join("; ");
  const entries = withTool(state, entriesOf(state, taken.figures, doing.hand()));
  if (!state.repeating.peek()) rememberWas(state, taken.figures);
  for (const { index } of taken.figures) dropRefused(state, all[index]);
  doing.store(entries, says);
  if (state.repeating.peek()) clear(state);
  else doing.move(taken.active, taken.figures.at(-1)?.index ?? active);
}

/** A figure of this stage that is read again gives way; what it was stays in sight while the row does. */
function rememberWas(state: DeskState, figures: { index: number }[]): void {
  const all = state.cells.peek();
  const stood = figures
    .flatMap(({ index }) => all[index] ?? [])
    .filter((cell) => cell.state !== "blank" && cell.state !== "assumed")
    .map((cell) => [keyOf(cell.at), cell.figure]);
  state.was.value = { ...state.was.peek(), ...Object.fromEntries(stood) };
}

/** Enter with nothing typed: repeating ends; a finished row is left; else the place is left out. */
function enterNothing(state: DeskState, moves: Moving, doing: Doing): void {
  const all = state.cells.peek();
  const active = state.active.peek();
  const stage = state.stage.peek();
  if (state.repeating.peek()) return doing.move(nextPlace(all, active, stage));
  if (rowDone(all, stage) || active + 1 >= all.length) return moves.onward();
  doing.move(active + 1);
}

/** What is typed, else what stands here, else what stands one place before, at every place that is still open. */
function sameForAll(state: DeskState, fill: (text: string) => void): void {
  if (state.repeating.peek()) return;
  const all = state.cells.peek();
  const active = state.active.peek();
  const now = all[active];
  const text = (cell: Cell | undefined) =>
    cell && cell.figure !== "" ? `${cell.figure} ${cell.unit}`.trim() : "";
  const typed = state.draft.peek() || text(now) || text(all[active - 1]);
  if (!now || typed === "") return;
  const taken = take(typed, state.field.peek(), [now], 0, state.stage.peek(), "place");
  if (taken.kind === "refused") {
    state.refused.value = { index: active, typed, says: taken.says };
    return warn(taken.says);
  }
  const figure = taken.figures[0];
  if (figure) fill(figure.text);
}

function entryAt(cell: Cell | undefined, text: string, hand: Hand): NewEntry[] {
  return cell ? [readingEntry(cell.observable, cell.at, text, cell.entries, hand)] : [];
}

const toolFor = (state: DeskState): string =>
  state.observable.peek() && !isWords(state.observable.peek()) ? state.tool.peek() : "";

/** A tool of the shop's own is named in the visit before the first reading that names it. */
function withTool(state: DeskState, entries: NewEntry[]): NewEntry[] {
  const id = toolFor(state);
  const own = shop.peek()?.tools.find((one) => one.id === id);
  const there = state.view
    .peek()
    .entries.some((entry) => entry.path === "/tools" && (entry.value as { id?: string } | null)?.id === id);
  if (!own || there || entries.length === 0) return entries;
  const { id: name, kind, calibrated, certificate_u, certificate_k, remark } = own;
  return [
    { path: "/tools", value: { id: name, kind, calibrated, certificate_u, certificate_k, remark } },
    ...entries,
  ];
}

export function undoing(state: DeskState, moves: Moving): Undoing {
  const undone = signal<NewEntry[]>([]);
  return {
    undo() {
      const says = state.visit.undoSays.peek();
      if (says === "") return;
      const last = state.view
        .peek()
        .entries.filter((entry) => entry.device === deviceId() || entry.waiting)
        .at(-1);
      undone.value = last ? [{ path: last.path, value: last.value, replaces: last.replaces }] : [];
      state.visit.undo();
      state.settled.value = new Set();
      state.took.value = says;
      announce(`Taken back: ${says}`);
      if (last) showWhere(state, moves, last);
    },
    putBack() {
      const entries = undone.peek();
      undone.value = [];
      state.took.value = "";
      if (entries.length > 0) state.visit.add(...entries);
    },
  };
}

/** What was taken back is seen where it stood. */
function showWhere(state: DeskState, moves: Moving, entry: Entry): void {
  const here = state.checkpoint.peek()?.id;
  const { checkpoint, at } = whereOf(state.view.peek(), state.catalogue, entry, here);
  if (checkpoint !== undefined && (checkpoint !== here || at)) moves.goToPlace({ id: checkpoint, ...(at ? { at } : {}) });
}
