import type { Id } from "./types";

/** A new id: 16 lower-case hex digits, so that sending the same thing again is harmless. */
export function newId(): Id {
  const bytes = crypto.getRandomValues(new Uint8Array(8));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

let known: Id | undefined;

/** This browser's own id, made once and kept. A browser that forbids storage gets one for as long as the page is open. */
export function deviceId(): Id {
  if (known) return known;
  try {
    known = localStorage.getItem("fallaway.device") ?? undefined;
    if (!known || !/^[0-9a-f]{16}$/.test(known)) {
      known = newId();
      localStorage.setItem("fallaway.device", known);
    }
  } catch {
    known ??= newId();
  }
  return known;
}
