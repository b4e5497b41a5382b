// A place on the instrument, for complaints, remarks, photos and readings that are not bound to one.

import type { Place } from "../api/types";
import { Field } from "../look/parts";

interface Props {
  parts: string[]; // of "string", "fret", "side", "spot"
  value: Place;
  frets: number;
  notes: string[];
  onChange: (at: Place) => void;
}

export function PlacePicker({ parts, value, frets, notes, onChange }: Props) {
  const set = (key: keyof Place, part: string | number | undefined) => {
    const next = { ...value, [key]: part } as Record<string, unknown>;
    if (part === undefined || part === "") delete next[key];
    onChange(next as Place);
  };
  return (
    <div class="place-picker">
      {parts.includes("string") && (
        <Tap
          label="String"
          options={notes.map((note, i) => ({ value: i + 1, says: `${i + 1} ${note.replace(/-?\d+$/, "")}` }))}
          value={typeof value.string === "number" ? value.string : undefined}
          onPick={(string) => set("string", string)}
        />
      )}
      {parts.includes("side") && (
        <Tap
          label="Side"
          options={[
            { value: "bass", says: "bass" },
            { value: "treble", says: "treble" },
          ]}
          value={value.side}
          onPick={(side) => set("side", side)}
        />
      )}
      {parts.includes("fret") && (
        <Field
          label={`Fret, 0 to ${frets}`}
          value={value.fret === undefined ? "" : String(value.fret)}
          inputMode="numeric"
          onInput={(text) => {
            const fret = /^\d+$/.test(text.trim()) ? Number(text) : undefined;
            set("fret", fret !== undefined && fret <= frets ? fret : undefined);
          }}
        />
      )}
      {parts.includes("spot") && (
        <Field label="Spot, in words" value={value.spot ?? ""} onInput={(spot) => set("spot", spot)} />
      )}
    </div>
  );
}

function Tap<T extends string | number>({
  label,
  options,
  value,
  onPick,
}: {
  label: string;
  options: { value: T; says: string }[];
  value: T | undefined;
  onPick: (value: T | undefined) => void;
}) {
  return (
    <div class="tap-one" role="group" aria-label={label}>
      <span class="label">{label}</span>
      <div class="segment">
        {options.map((one) => (
          <button
            key={one.value}
            type="button"
            aria-pressed={one.value === value}
            onClick={() => onPick(one.value === value ? undefined : one.value)}>
            {one.says}
          </button>
        ))}
      </div>
    </div>
  );
}
