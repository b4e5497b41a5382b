// Room on the page, measured once for all who lay out by it.

import { signal, useSignal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";

const wideQuery = "(min-width: 641px)";
const wide = signal(typeof matchMedia === "undefined" ? true : matchMedia(wideQuery).matches);
if (typeof matchMedia !== "undefined") {
  matchMedia(wideQuery).addEventListener("change", (event) => {
    wide.value = event.matches;
  });
}

export const useWide = (): boolean => wide.value;

/** Width of an element in px, followed as it changes; 0 before it is laid out. */
export function useWidth<T extends HTMLElement>() {
  const ref = useRef<T>(null);
  const width = useSignal(0);
  useEffect(() => {
    const element = ref.current;
    if (!element) return undefined;
    width.value = element.clientWidth;
    const observer = new ResizeObserver(() => {
      width.value = element.clientWidth;
    });
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  return { ref, width: width.value };
}

/** One rem in sixteenths of the usual: follows bench mode and the device's text size. */
export function textScale(): number {
  return Number.parseFloat(getComputedStyle(document.documentElement).fontSize) / 16 || 1;
}
