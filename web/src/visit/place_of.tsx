// Where a reading that is not bound to a place was taken: fret, side, spot. Only what its observable can have.

import type { Desk } from "./desk";
import { PlacePicker } from "./place_picker";

const fixed = ["switch", "pickup", "control"];

export function PlaceOf({ desk }: { desk: Desk }) {
  const observable = desk.observable.value;
  const cells = desk.cells.value;
  const cell = cells[desk.active.value];
  const places = desk.view.value.checkpoints.find((one) => one.id === desk.checkpoint.value?.id)?.places ?? [];
  if (!observable || !cell || places.length > 1) return null;
  const parts = [...observable.needs, ...observable.allows].filter(
    (part) => part !== "pressed" && !fixed.includes(part),
  );
  if (parts.length === 0) return null;
  const lacking = observable.needs.some((part) => (cell.at as Record<string, unknown>)[part] === undefined);
  return (
    <details class="place-of" open={lacking}>
      <summary>{lacking ? "Where it is read is needed" : "Where it was read"}</summary>
      <PlacePicker
        parts={parts}
        value={cell.at}
        frets={desk.view.value.instrument.frets}
        notes={desk.view.value.instrument.notes}
        onChange={desk.place}
      />
    </details>
  );
}
