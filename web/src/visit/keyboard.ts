// The keyboard of the sheet: real keys, a caliper that types, a foot switch that sends Enter. Figures go where the caret
// of the sheet stands, wherever the focus is, unless a text field has it.

import { isFigureKey } from "../entry/pad_keys";
import { landNear } from "../look/focus";
import { go } from "../route";
import { settings } from "../settings";
import { isWords } from "./catalogue";
import type { Desk, Panel } from "./desk";
import { neighbour } from "./order";

/** The keys as they are listed at "?". */
export const keyList: { keys: string; does: string }[] = [
  { keys: "0 to 9 . , / -", does: "a figure, also from a caliper that types" },
  { keys: "blank", does: "the next figure of a row" },
  { keys: "Enter", does: "take it, and on to the next string; after the last, once more for the next checkpoint" },
  { keys: "Tab", does: "while typing: the same" },
  { keys: "1 to 4", does: "a word or a step, from the top" },
  { keys: "arrows up, down", does: "another string or place" },
  { keys: "arrows left, right", does: "the checkpoint before or after; on the ring map, along the string" },
  { keys: "=", does: "same for all" },
  { keys: "a", does: "played all, all rang" },
  { keys: "r", does: "repeat: further readings of this place, until r again or another place" },
  { keys: "u", does: "undo" },
  { keys: "n", does: "the next open checkpoint" },
  { keys: "h", does: "string heights" },
  { keys: "f", does: "find on the sheet" },
  { keys: "v", does: "the verdict" },
  { keys: "s", does: "the survey of the neck; there, arrows choose a fret and a string, Esc leads back" },
  { keys: "p", does: "photo" },
  { keys: "m", does: "remark" },
  { keys: "w", does: "the player’s words" },
  { keys: "Esc", does: "rub out what is typed; close" },
  { keys: "?", does: "this list" },
];

const isText = (target: EventTarget | null): boolean => {
  const element = target as HTMLElement | null;
  if (!element?.tagName) return false;
  return (
    element.tagName === "TEXTAREA" ||
    element.tagName === "SELECT" ||
    element.isContentEditable ||
    (element.tagName === "INPUT" && !["radio", "checkbox", "button"].includes((element as HTMLInputElement).type))
  );
};

const isOwnButton = (target: EventTarget | null): boolean => {
  const element = target as HTMLElement | null;
  return !!element?.closest?.("button, a, summary, input") && !element.closest(".figure");
};

export function listenToKeys(desk: Desk): () => void {
  const heard = (event: KeyboardEvent) => {
    if (event.defaultPrevented || event.ctrlKey || event.metaKey || event.altKey || event.isComposing) return;
    if (isText(event.target)) {
      if (event.key === "Escape") landNear(event.target as Element);
      return;
    }
    if (act(desk, event)) event.preventDefault();
  };
  document.addEventListener("keydown", heard);
  return () => document.removeEventListener("keydown", heard);
}

/** True when the key was one of ours. */
function act(desk: Desk, event: KeyboardEvent): boolean {
  const { key } = event;
  const typing = desk.draft.peek() !== "";
  if (key === "Escape") return escape(desk);
  if (desk.panel.peek() !== null) return false;
  // What is typed goes before the button that has the focus, until it is refused: then its cures can be pressed.
  const free = !typing || desk.refused.peek() !== null;
  if (free && (key === "Enter" || key === " ") && isOwnButton(event.target)) return false;
  if (key === "Enter" || (settings.nextKey.peek() !== "" && key === settings.nextKey.peek())) {
    return enter(desk);
  }
  // A refused figure is kept: then Tab goes on to its cures instead of trying it again.
  if (typing && key === "Tab" && !event.shiftKey && !desk.refused.peek()) return enter(desk);
  if (typing && key === "Backspace") return done(desk.rub);
  if (takesFigures(desk) && !(key === " " && !typing) && isFigureKey(key, desk.draft.peek()))
    return done(() => desk.type(key));
  if (/^[1-9]$/.test(key) && pressNth(Number(key))) return true;
  if (key.startsWith("Arrow")) return arrow(desk, key, event.target);
  return letter(desk, key);
}

function done(what: () => void): true {
  what();
  return true;
}

const closed = (desk: Desk) => desk.view.peek().closed !== undefined;
const takesFigures = (desk: Desk) =>
  desk.observable.peek() !== undefined && !isWords(desk.observable.peek()) && !closed(desk);

function enter(desk: Desk): boolean {
  if (takesFigures(desk)) return done(desk.enter);
  return done(desk.onward);
}

function escape(desk: Desk): boolean {
  if (desk.draft.peek() !== "" || desk.refused.peek()) return done(desk.leaveOut);
  if (desk.panel.peek() === null) return false;
  desk.panel.value = null;
  return true;
}

/** Digits choose among words or steps. A caliper sends more than one key at once: then nothing is chosen. */
let pending: ReturnType<typeof setTimeout> | undefined;
const burstMs = 90; // a caliper types a key every few milliseconds, a finger not in less than this

function pressNth(n: number): boolean {
  const buttons = document.querySelectorAll<HTMLButtonElement>(".checkpoint .tap-word, .checkpoint .rating-step");
  const button = buttons[n - 1];
  if (!button) return false;
  if (pending !== undefined) {
    clearTimeout(pending);
    pending = undefined;
    return true;
  }
  pending = setTimeout(() => {
    pending = undefined;
    button.click();
  }, burstMs);
  return true;
}

function arrow(desk: Desk, key: string, target: EventTarget | null): boolean {
  const element = target as HTMLElement | null;
  if (element?.closest?.("[role=grid], [role=radiogroup], fieldset")) return false;
  if (key === "ArrowLeft" || key === "ArrowRight") {
    const to = neighbour(desk.view.peek(), desk.checkpoint.peek()?.id, key === "ArrowLeft" ? -1 : 1);
    if (to) desk.goTo(to);
    return to !== undefined;
  }
  const cells = desk.cells.peek();
  if (cells.length < 2) return false;
  return done(() => move(desk, key === "ArrowDown" ? 1 : -1));
}

/** Down the page is towards the bass, whichever string is taken first. */
function move(desk: Desk, down: 1 | -1): void {
  const cells = desk.cells.peek();
  const first = cells[0]?.at.string;
  const last = cells.at(-1)?.at.string;
  const turned = typeof first === "number" && typeof last === "number" && first > last ? -1 : 1;
  const to = desk.active.peek() + down * turned;
  if (to >= 0 && to < cells.length) desk.pick(to);
}

function letter(desk: Desk, key: string): boolean {
  if (key === "?")
    return done(() => {
      desk.panel.value = "keys";
    });
  if (!settings.letterKeys.peek()) return false;
  if (closed(desk) && ["=", "r", "u"].includes(key)) return false;
  const panels: Record<string, Panel> = { p: "photo", m: "remark", w: "wants" };
  const panel = panels[key];
  if (panel)
    return done(() => {
      desk.panel.value = panel;
    });
  switch (key) {
    case "=":
      return done(desk.sameForAll);
    case "a":
      return clickFirst(".all-rang");
    case "r":
      return done(() => {
        desk.repeating.value = !desk.repeating.peek();
      });
    case "u":
      return done(desk.undo);
    case "n":
      return done(desk.onward);
    case "h":
      return done(() => desk.goTo("action-12"));
    case "v":
      return done(() => go({ page: "verdict", id: desk.visit.id }));
    case "s":
      return done(() => go({ page: "survey", id: desk.visit.id }));
    case "f":
      return focusFirst(".list-find");
    default:
      return false;
  }
}

function clickFirst(selector: string): boolean {
  const button = document.querySelector<HTMLButtonElement>(selector);
  button?.click();
  return button !== null;
}

function focusFirst(selector: string): boolean {
  const field = document.querySelector<HTMLElement>(selector);
  field?.focus();
  return field !== null;
}
