// How many strings there are, and what they are tuned to. Everything that is read string by string follows.

import { useSignal } from "@preact/signals";
import type { Kind } from "../api/types";
import { Choice, Field } from "../look/parts";
import type { Desk } from "./desk";
import { valueAt } from "./title";
import { mostStrings, stringNumbers, stringsCounted, stringsTuned, tuningsFor } from "./tunings";

export const kindOfInstrument = (desk: Desk): Kind =>
  valueAt(desk, "/instrument/kind") === "electric bass" ? "electric bass" : "electric guitar";

export function setStrings(desk: Desk, count: number): void {
  desk.visit.set("/instrument/strings", stringsCounted(kindOfInstrument(desk), valueAt(desk, "/instrument/strings"), count));
}

export function StringsField({ desk }: { desk: Desk }) {
  const kind = kindOfInstrument(desk);
  const known = valueAt(desk, "/instrument/strings");
  // What was picked here just now counts before the shop has answered.
  const count = Array.isArray(known) && known.length > 0 ? known.length : desk.view.value.instrument.strings;
  const notes = notesOf(known, count, desk.view.value.instrument.notes);
  const tunings = tuningsFor(kind, count);
  return (
    <div class="strings-field">
      <Choice
        label={Array.isArray(known) && known.length > 0 ? "Number of strings" : "Number of strings, assumed"}
        options={stringNumbers[kind].map((number) => ({ value: String(number) }))}
        value={String(count)}
        onChoose={(number) => setStrings(desk, Number(number))}
      />
      {tunings.length > 0 && (
        <Choice
          label="Tuned to, string 1 first"
          column
          options={tunings.map((one) => ({ value: one.notes.join(" "), hint: one.says }))}
          value={notes.join(" ")}
          onChoose={(tuning) => desk.visit.set("/instrument/strings", stringsTuned(known, tuning.split(" ")))}
        />
      )}
      <div class="number-field">
        <OtherNumber desk={desk} count={count} />
      </div>
    </div>
  );
}

/** Notes as said of the strings; where the shop has not answered for a new number yet, its usual ones. */
function notesOf(known: unknown, count: number, shown: string[]): string[] {
  if (!Array.isArray(known) || known.length === 0) return shown;
  return Array.from(
    { length: count },
    (_, i) => (known[i] as { note?: string } | undefined)?.note ?? (shown.length === count ? (shown[i] ?? "") : ""),
  );
}

function OtherNumber({ desk, count }: { desk: Desk; count: number }) {
  const typed = useSignal("");
  const refused = useSignal("");
  const keep = () => {
    const text = typed.value.trim();
    if (text === "") return;
    const number = Number(text);
    if (!/^\d+$/.test(text) || number < 1 || number > mostStrings) {
      refused.value = `“${text}” is no number of strings. 1 to ${mostStrings} are expected.`;
      return;
    }
    refused.value = "";
    typed.value = "";
    if (number !== count) setStrings(desk, number);
  };
  return (
    <Field
      label="Another number of strings"
      value={typed.value}
      inputMode="numeric"
      onInput={(text) => {
        typed.value = text;
      }}
      onDone={keep}
      {...(refused.value ? { refused: refused.value } : {})}
    />
  );
}
