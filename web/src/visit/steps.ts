// The browser's own back: from a panel to the sheet, from the sheet to the list. A panel is one step of the history, kept
// in its state, so that it is closed by back and open again after a reload.

import { effect, type Signal } from "@preact/signals";
import type { Panel } from "./desk";

const panelNow = (): Panel | null => ((history.state as { panel?: Panel } | null)?.panel ?? null);

/** Binds the panel to the history; answers how to stop. */
export function followSteps(panel: Signal<Panel | null>): () => void {
  panel.value = panelNow();
  const stop = effect(() => {
    const now = panel.value;
    const there = panelNow();
    if (now === there) return;
    if (now === null) history.back();
    else if (there === null) history.pushState({ panel: now }, "");
    else history.replaceState({ panel: now }, "");
  });
  const stepped = () => {
    panel.value = panelNow();
  };
  addEventListener("popstate", stepped);
  return () => {
    removeEventListener("popstate", stepped);
    stop();
  };
}

/** Closes the panel and, once the browser has stepped back from it, does what follows. */
export function closePanel(panel: Signal<Panel | null>, then: () => void): void {
  const stepsBack = panel.peek() !== null && panelNow() !== null;
  if (stepsBack) addEventListener("popstate", then, { once: true });
  panel.value = null;
  if (!stepsBack) then();
}
