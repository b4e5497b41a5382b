// A place on the instrument, for complaints, remarks, photos and readings that are not bound to one.

import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import type { Place } from "../api/types";
import { Field } from "../look/parts";
import { fretsOf, listWords } from "./fret_words";

/** What a place of the bench file cannot hold. */
export interface MoreOfPlace {
  words: string; // "strings 5 and 6, frets 5 to 7"; "" when the place says it all
  refused: string; // why what stands in the field of the fret is none; "" when it is one
}

interface Props {
  parts: string[]; // of "string", "fret", "side", "spot"
  value: Place;
  frets: number;
  notes: string[];
  /** Several strings, and ranges of frets: of frets the first is the place, of strings none; the words say all. */
  several?: boolean;
  onChange: (at: Place, more: MoreOfPlace) => void;
}

export function PlacePicker({ parts, value, frets, notes, several = false, onChange }: Props) {
  const strings = useSignal<number[]>([]);
  const fretWords = useSignal("");
  const refused = useSignal("");
  const told = (at: Place) =>
    onChange(at, {
      words: [listWords(strings.value, "string"), fretWords.value].filter((one) => one !== "").join(", "),
      refused: refused.value,
    });
  const set = (key: keyof Place, part: string | number | undefined) => {
    const next = { ...value, [key]: part } as Record<string, unknown>;
    if (part === undefined || part === "") delete next[key];
    told(next as Place);
  };
  const tapString = (string: number) => {
    const now = several ? strings.value : typeof value.string === "number" ? [value.string] : [];
    const there = now.includes(string);
    strings.value = there
      ? now.filter((one) => one !== string)
      : several
        ? [...now, string].sort((a, b) => a - b)
        : [string];
    set("string", strings.value.length === 1 ? strings.value[0] : undefined);
  };
  return (
    <div class="place-picker">
      {parts.includes("string") && (
        <Tap
          label={several ? "String, one or several" : "String"}
          options={notes.map((note, i) => ({ value: i + 1, says: `${i + 1} ${note.replace(/-?\d+$/, "")}` }))}
          value={several ? strings.value : typeof value.string === "number" ? [value.string] : []}
          onPick={tapString}
        />
      )}
      {parts.includes("side") && (
        <Tap
          label="Side"
          options={[
            { value: "bass", says: "bass" },
            { value: "treble", says: "treble" },
          ]}
          value={value.side ? [value.side] : []}
          onPick={(side) => set("side", side === value.side ? undefined : side)}
        />
      )}
      {parts.includes("fret") && (
        <FretField
          last={frets}
          several={several}
          fret={value.fret}
          onFret={(fret, words, why) => {
            fretWords.value = words;
            refused.value = why;
            set("fret", fret);
          }}
        />
      )}
      {parts.includes("spot") && (
        <Field label="Spot, in words" value={value.spot ?? ""} onInput={(spot) => set("spot", spot)} />
      )}
    </div>
  );
}

/** What is typed stays as it was typed; what is no fret of this board is said so below it. */
function FretField({
  last,
  several,
  fret,
  onFret,
}: {
  last: number;
  several: boolean;
  fret: number | undefined;
  onFret: (fret: number | undefined, words: string, refused: string) => void;
}) {
  const typed = useSignal(fret === undefined ? "" : String(fret));
  const read = readFret(typed.value, last, several);
  useEffect(() => {
    // Emptied or set from outside, as when the line was kept.
    if (readFret(typed.peek(), last, several).fret !== fret) typed.value = fret === undefined ? "" : String(fret);
  }, [fret]);
  return (
    <Field
      label={several ? `Fret or range, 0 to ${last}` : `Fret, 0 to ${last}`}
      value={typed.value}
      hint={several ? "such as 5 or 5-7" : ""}
      {...(read.refused ? { refused: read.refused } : {})}
      onInput={(text) => {
        typed.value = text;
        const { fret: one, words, refused } = readFret(text, last, several);
        onFret(one, words, refused);
      }}
    />
  );
}

function readFret(text: string, last: number, several: boolean): { fret?: number; words: string; refused: string } {
  const read = fretsOf(text, last);
  if (read.kind === "nothing") return { words: "", refused: "" };
  if (read.kind === "refused") return { words: "", refused: read.says };
  const fret = read.frets[0] as number;
  if (!several && read.frets.length > 1)
    return { words: "", refused: `“${text.trim()}” is more than one fret. One is expected here, such as ${fret}.` };
  return { fret, words: read.words, refused: "" };
}

function Tap<T extends string | number>({
  label,
  options,
  value,
  onPick,
}: {
  label: string;
  options: { value: T; says: string }[];
  value: T[];
  onPick: (value: T) => void;
}) {
  return (
    <div class="tap-one" role="group" aria-label={label}>
      <span class="label">{label}</span>
      <div class="segment">
        {options.map((one) => (
          <button
            key={one.value}
            type="button"
            aria-pressed={value.includes(one.value)}
            onClick={() => onPick(one.value)}>
            {one.says}
          </button>
        ))}
      </div>
    </div>
  );
}
