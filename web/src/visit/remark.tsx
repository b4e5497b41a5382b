// Anything worth keeping, anywhere; it reaches the report.

import { useSignal } from "@preact/signals";
import type { Place } from "../api/types";
import { Button, Field } from "../look/parts";
import type { Desk } from "./desk";
import { PlacePicker, type MoreOfPlace } from "./place_picker";
import { describePlace } from "./places";

export function RemarkPanel({ desk }: { desk: Desk }) {
  const said = useSignal("");
  const at = useSignal<Place>({});
  const more = useSignal<MoreOfPlace>({ words: "", refused: "" });
  const kept = useSignal(0);
  const { instrument, entries } = desk.view.value;
  const keep = () => {
    if (more.value.refused !== "") return;
    const hand = desk.hand();
    const text = more.value.words === "" ? said.value.trim() : `${said.value.trim()} (${more.value.words})`;
    const value: Record<string, unknown> = { text, when: hand.when };
    if (Object.keys(at.value).length > 0) value["at"] = at.value;
    if (hand.by) value["by"] = hand.by;
    desk.store([{ path: "/remarks", value }], "Remark kept");
    said.value = "";
    at.value = {};
    more.value = { words: "", refused: "" };
    kept.value += 1; // a fresh place to pick
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
          key={kept.value}
          parts={["string", "fret", "side", "spot"]}
          value={at.value}
          frets={instrument.frets}
          notes={instrument.notes}
          several
          onChange={(place, words) => {
            at.value = place;
            more.value = words;
          }}
        />
        {more.value.words && <p class="caption">Kept with the words: {more.value.words}.</p>}
        <Button go disabled={said.value.trim() === "" || more.value.refused !== ""} onPress={keep}>
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
