// Words to tap, each under a drawing of what the hand feels; and the four steps of a rating, best on top.

import { HandDrawing } from "./hand_drawings";
import "./words.css";

interface WordsProps {
  observable: string;
  words: string[];
  chosen: string; // "" none yet
  faults: Map<string, string>; // words that amount to a finding, with how bad
  onChoose: (word: string) => void;
  label: string;
}

export function TapWords({ observable, words, chosen, faults, onChoose, label }: WordsProps) {
  return (
    <div class={`tap-words tap-words-${words.length}`} role="group" aria-label={label}>
      {words.map((word, index) => (
        <button
          key={word}
          type="button"
          class="tap-word"
          aria-pressed={word === chosen}
          onClick={() => onChoose(word)}
          onPointerDown={(event) => event.preventDefault()}>
          <HandDrawing observable={observable} word={word} />
          <span class="tap-word-says">{word}</span>
          <small>
            {faults.get(word) ?? ""}
            <kbd>{index + 1}</kbd>
          </small>
        </button>
      ))}
    </div>
  );
}

interface RatingProps {
  anchors: string[]; // worst first, as the catalogue has them
  step: number | null; // 0 worst to 3 best
  onStep: (step: number) => void;
  label: string;
}

/** Arrow keys pass from step to step; only a tap or Enter says one. */
function moveFocus(event: KeyboardEvent): void {
  const steps = [...(event.currentTarget as HTMLElement).querySelectorAll<HTMLElement>(".rating-step")];
  const way = { ArrowDown: 1, ArrowUp: -1 }[event.key];
  const to = way === undefined ? undefined : steps[steps.indexOf(event.target as HTMLElement) + way];
  if (!to) return;
  event.preventDefault();
  to.focus();
}

const names = ["fault", "poor", "will do", "good"];

export function Rating({ anchors, step, onStep, label }: RatingProps) {
  const steps = anchors.map((says, index) => ({ says, index })).reverse();
  return (
    <div class="rating" role="radiogroup" aria-label={label} onKeyDown={moveFocus}>
      {steps.map(({ says, index }, row) => (
        <button
          key={index}
          type="button"
          class="rating-step"
          role="radio"
          aria-checked={step === index}
          onClick={() => onStep(index)}
          onPointerDown={(event) => event.preventDefault()}>
          <b>{says}</b>
          {step === index && <Tick />}
          <small>
            {index === 0 || index === anchors.length - 1 ? names[index] : ""}
            <kbd>{row + 1}</kbd>
          </small>
        </button>
      ))}
    </div>
  );
}

const Tick = () => (
  <svg class="tick" width="16" height="14" viewBox="0 0 16 14" aria-hidden="true">
    <path d="M1 8l5 5L15 1" />
  </svg>
);
