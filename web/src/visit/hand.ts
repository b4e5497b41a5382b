// What the hand does at the desk: going from checkpoint to checkpoint, typing and taking, undoing.

import { signal } from "@preact/signals";
import { deviceId, newId } from "../api/device";
import { spoken } from "../entry/spoken";
import { go } from "../route";
import { settings } from "../settings";
import { shop } from "../shop_state";
import type { NewEntry, ShownVisit } from "../visit_state";
import { announce, sayAloud, warn } from "./announce";
import { isWords } from "./catalogue";
import type { DeskState, Entering, Moving, Undoing } from "./desk";
import { isOpen, type Cell } from "./figures";
import { nextOpen } from "./order";
import { describePlace, placeWord, samePlace } from "./places";
import { moment, nextPlace, placesForAll, readingEntry, repeatEntry, take, type Hand } from "./taking";

function clear(state: DeskState): void {
  state.draft.value = "";
  state.refused.value = null;
  state.repeating.value = false;
  state.visit.tryOut([]);
}

/** On a narrow page the block at the head makes room: figures and pad are what the next checkpoint needs. */
function showCheckpoint(): void {
  requestAnimationFrame(() => {
    if (innerWidth <= 900) document.querySelector(".checkpoint")?.scrollIntoView({ block: "start" });
  });
}

/** What is being typed is tried out, as far as it reads as figures, so that its decision stands beside it at once. */
export function tryDraft(state: DeskState, hand: () => Hand): void {
  const typed = state.draft.value;
  const all = state.cells.peek();
  const active = state.active.peek();
  const now = all[active];
  if (typed === "" || !now) return state.visit.tryOut([]);
  const taken = take(typed, state.field.peek(), all, active, state.stage.peek(), placeWord(now.at));
  if (taken.kind === "refused") return state.visit.tryOut([]);
  const entries = taken.figures.flatMap(({ index, text }) =>
    entryAt(all[index], text, hand(), state.repeating.peek()),
  );
  state.visit.tryOut(withTool(state, entries));
}

/** The caret of a checkpoint that is begun stands where its first figure is missing: typing on never overwrites. */
export function standAtFirstOpen(state: DeskState): void {
  const stage = state.stage.peek();
  state.active.value = Math.max(
    0,
    state.cells.peek().findIndex((cell) => isOpen(cell, stage)),
  );
}

export function moving(state: DeskState): Moving {
  const goTo = (id: string | undefined) => {
    clear(state);
    state.panel.value = null;
    go({ page: "visit", id: state.visit.id, ...(id === undefined ? {} : { checkpoint: id }) }, true);
    standAtFirstOpen(state);
    showCheckpoint();
  };
  return {
    goTo,
    onward() {
      const now = state.checkpoint.peek()?.id;
      if (now && answeredHere(state.view.peek(), now, state.cells.peek(), state.stage.peek())) {
        state.settled.value = new Set([...state.settled.peek(), now]);
      }
      const next = nextOpen(state.view.peek(), now, state.settled.peek());
      if (next) goTo(next);
      else go({ page: "verdict", id: state.visit.id });
    },
    chooseObservable(name) {
      const id = state.checkpoint.peek()?.id;
      if (id) state.chosen.value = { ...state.chosen.peek(), [id]: name };
      clear(state);
      state.active.value = 0;
    },
    pick(index) {
      clear(state);
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
  const move = (next: number | null) => {
    clear(state);
    if (next === null) moves.onward();
    else state.active.value = next;
  };
  const fill = (text: string) => {
    const all = state.cells.peek();
    const places = placesForAll(all, state.active.peek(), state.stage.peek());
    const entries = places.flatMap((index) => entryAt(all[index], text, hand(), false));
    store(withTool(state, entries), spoken(`all ${entries.length}`, text));
    move(null);
  };
  return {
    hand,
    store,
    wordForAll: fill,
    type(text) {
      state.refused.value = null;
      state.draft.value += text;
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
      store(entryAt(cell, said, hand(), false), spoken(describePlace(cell.at), said));
      move(nextPlace(all, state.active.peek(), state.stage.peek()));
    },
  };
}

interface Doing {
  hand: () => Hand;
  store: (entries: NewEntry[], says: string) => void;
  move: (next: number | null) => void;
}

function enter(state: DeskState, moves: Moving, doing: Doing): void {
  const all = state.cells.peek();
  const active = state.active.peek();
  const now = all[active];
  if (!now) return moves.onward();
  const again = state.repeating.peek();
  const typed = state.draft.peek();
  const taken = take(typed, state.field.peek(), all, active, state.stage.peek(), placeWord(now.at));
  if (taken.kind === "refused") {
    state.refused.value = {
      index: active,
      typed,
      says: taken.says,
      ...(taken.instead ? { instead: taken.instead } : {}),
    };
    return warn(taken.says);
  }
  const entries = taken.figures.flatMap(({ index, text }) => entryAt(all[index], text, doing.hand(), again));
  const says = taken.figures.map(({ index, text }) => spoken(describePlace(all[index]?.at), text)).join("; ");
  doing.store(withTool(state, entries), says);
  doing.move(again ? active : taken.active);
}

/** What is typed, else what stands here, else what stands one place before, at every place that is still open. */
function sameForAll(state: DeskState, fill: (text: string) => void): void {
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

function entryAt(cell: Cell | undefined, text: string, hand: Hand, again: boolean): NewEntry[] {
  if (!cell) return [];
  return [
    again ? repeatEntry(cell, text, hand) : readingEntry(cell.observable, cell.at, text, cell.entries, hand),
  ];
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

export function undoing(state: DeskState): Undoing {
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
    },
    putBack() {
      const entries = undone.peek();
      undone.value = [];
      state.took.value = "";
      if (entries.length > 0) state.visit.add(...entries);
    },
  };
}
