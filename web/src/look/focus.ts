// The keyboard never loses its place: when what had the focus goes away or can no longer be pressed, the focus goes to
// the heading of what stands there now.

const headings = 'h1[tabindex="-1"], h2[tabindex="-1"]';

/** Puts the focus on the nearest heading that takes it, from `element` outwards; on the page itself where none does. */
export function landNear(element: Element | null): void {
  for (let at = element; at; at = at.parentElement) {
    const heading = at.querySelector<HTMLElement>(headings);
    const target = heading ?? (at.tagName === "MAIN" ? (at as HTMLElement) : null);
    if (target) return target.focus({ preventScroll: true });
  }
}

let path: Element[] = []; // the element that had the focus last, and what it lay in

/** What has the focus, or had it until it was taken off the page just now. */
export const focused = (): Element | undefined => path[0];

const isGone = (element: Element) => !element.isConnected || element.matches(":disabled");

/** Watches over the focus inside `main`; answers how to stop. */
export function keepFocus(main: HTMLElement): () => void {
  const remember = (event: FocusEvent) => {
    path = [];
    for (let at = event.target as Element | null; at && main.contains(at); at = at.parentElement) path.push(at);
  };
  const check = () => {
    const last = path[0];
    const held = document.activeElement !== null && document.activeElement !== document.body;
    if (!last || !isGone(last) || (held && document.activeElement !== last)) return;
    landNear(path.find((one) => !isGone(one)) ?? main);
  };
  const watch = new MutationObserver(check);
  watch.observe(main, { subtree: true, childList: true, attributeFilter: ["disabled"] });
  document.addEventListener("focusin", remember);
  return () => {
    watch.disconnect();
    document.removeEventListener("focusin", remember);
  };
}
