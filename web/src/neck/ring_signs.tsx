// The signs of the ring map: how a note was heard, told by shape alone. A cell is drawn in 41 by 40 units.

export type HeardNote = "rings" | "rattles when struck hard" | "buzzes" | "chokes" | "not tried";

const strokes: Record<HeardNote, string> = {
  rings: "M7 20H36",
  "rattles when struck hard": "M7 20H18M25 20H36",
  buzzes: "M7 20l4-6 6 12 6-12 6 12 5-9",
  chokes: "M7 20H25M12 14L21 26M21 14L12 26",
  "not tried": "",
};

export function RingSign({ heard, dead, general }: { heard: HeardNote; dead: boolean; general: boolean }) {
  return (
    <svg class="ring-sign" viewBox="0 0 41 40" aria-hidden="true">
      <path class="ring-slash" d="M3 25L9 15" />
      <path class={general ? "ring-general" : "ring-heard"} d={strokes[heard]} />
      {dead && <path class="ring-slash" d="M14 27L30 30.500 14 34" />}
    </svg>
  );
}

export const ringWords: HeardNote[] = ["rings", "rattles when struck hard", "buzzes", "chokes"];
