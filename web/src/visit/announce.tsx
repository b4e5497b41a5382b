// What is said to whoever does not look: accepted values politely, errors at once; aloud only on wish.

import { signal } from "@preact/signals";
import { settings } from "../settings";

const polite = signal("");
const urgent = signal("");

/** The same words twice are said twice: an invisible blank makes the text a new one. */
const fresh = (before: string, words: string) => (before === words ? `${words}\u00a0` : words);

export function announce(words: string): void {
  polite.value = fresh(polite.peek(), words);
}

export function warn(words: string): void {
  urgent.value = fresh(urgent.peek(), words);
}

export function sayAloud(words: string): void {
  if (!settings.readAloud.peek() || !("speechSynthesis" in window)) return;
  speechSynthesis.cancel();
  const said = new SpeechSynthesisUtterance(words);
  said.lang = "en";
  speechSynthesis.speak(said);
}

export function Announcer() {
  return (
    <>
      <div class="unseen" role="status" aria-live="polite">
        {polite}
      </div>
      <div class="unseen" role="alert" aria-live="assertive">
        {urgent}
      </div>
    </>
  );
}
