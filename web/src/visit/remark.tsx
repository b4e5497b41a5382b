// Anything worth keeping, anywhere; it reaches the report.

import { useSignal } from "@preact/signals";
import type { Place } from "../api/types";
import { Button, Field } from "../look/parts";
import type { Desk } from "./desk";
import { PlacePicker } from "./place_picker";
import { describePlace } from "./places";

export function RemarkPanel({ desk }: { desk: Desk }) {
  const said = useSignal("");
  const at = useSignal<Place>({});
  const { instrument, entries } = desk.view.value;
  const keep = () => {
    const hand = desk.hand();
    const value: Record<string, unknown> = { text: said.value.trim(), when: hand.when };
    if (Object.keys(at.value).length > 0) value["at"] = at.value;
    if (hand.by) value["by"] = hand.by;
    desk.store([{ path: "/remarks", value }], "Remark kept");
    said.value = "";
    at.value = {};
  };
  return (
    <>
      <div class="new-line">
        <Field
          label="Remark; it reaches the report"
          value={said.value}
          lines
          autoFocus
          onInput={(text) => {
            said.value = text;
          }}
        />
        <PlacePicker
          parts={["string", "fret", "side", "spot"]}
          value={at.value}
          frets={instrument.frets}
          notes={instrument.notes}
          onChange={(place) => {
            at.value = place;
          }}
        />
        <Button go disabled={said.value.trim() === ""} onPress={keep}>
          Keep this remark
        </Button>
      </div>
      <ul class="plain-list">
        {entries
          .filter((entry) => entry.path === "/remarks")
          .map((entry) => {
            const value = entry.value as { text: string; at?: Place; by?: string };
            return (
              <li key={entry.id} class="said-line">
                <p>{value.text}</p>
                <small>
                  {[value.at ? describePlace(value.at) : "", value.by].filter((one) => one).join(", ")}
                </small>
                <Button onPress={() => desk.visit.remove(entry.id)}>Take it out</Button>
              </li>
            );
          })}
      </ul>
    </>
  );
}
