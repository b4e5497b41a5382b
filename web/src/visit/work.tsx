// Work done. It makes older readings of what it moves stale: which, is told before it is written down.

import { useSignal } from "@preact/signals";
import type { Place } from "../api/types";
import { Button, Choice, Field, NoticeLine } from "../look/parts";
import type { Desk } from "./desk";
import { handsFor, handsOf } from "./order";
import { PlacePicker, type MoreOfPlace } from "./place_picker";
import { describePlace } from "./places";
import { handsWords } from "./title";

export function WorkPanel({ desk }: { desk: Desk }) {
  const { assessment } = desk.view.value;
  const barred = handsOf(desk.view.value) === "look only";
  return (
    <>
      {barred && (
        <NoticeLine
          strong="Hands may look only."
          cures={[
            {
              says: "What hands may do",
              onPress: () => {
                desk.panel.value = "visit";
              },
            },
          ]}>
          Work is not foreseen on this visit.
        </NoticeLine>
      )}
      {assessment.cautions.map((one) => (
        <NoticeLine key={one} strong="Mind.">
          {one}
        </NoticeLine>
      ))}
      <NewWork desk={desk} />
      <StaleSince desk={desk} />
      <SoFar desk={desk} />
    </>
  );
}

const titleOf = (desk: Desk, id: string) =>
  desk.catalogue.procedure.checkpoints.find((one) => one.id === id)?.title ?? id;

function NewWork({ desk }: { desk: Desk }) {
  const what = useSignal("");
  const amount = useSignal("");
  const at = useSignal<Place>({});
  const more = useSignal<MoreOfPlace>({ words: "", refused: "" });
  const kept = useSignal(0);
  const { instrument } = desk.view.value;
  const kinds = desk.catalogue.work.map((one) => ({ value: one.name }));
  const asking = useSignal(false);
  const lacking = what.value === "" ? "" : handsFor(what.value, handsOf(desk.view.value));
  const store = () => {
    if (more.value.refused !== "") return;
    const hand = desk.hand();
    const value: Record<string, unknown> = { what: what.value, when: hand.when };
    if (Object.keys(at.value).length > 0) value["at"] = at.value;
    const much = [amount.value.trim(), more.value.words].filter((one) => one !== "").join(", ");
    if (much) value["amount"] = much;
    if (hand.by) value["by"] = hand.by;
    desk.store([{ path: "/work", value }], `Done: ${what.value} ${amount.value}`);
    desk.stage.value = "after";
    what.value = "";
    amount.value = "";
    at.value = {};
    more.value = { words: "", refused: "" };
    kept.value += 1; // a fresh place to pick
    asking.value = false;
  };
  const done = () => {
    if (lacking === "") store();
    else asking.value = true;
  };
  return (
    <div class="new-line">
      <Choice
        label="What was done"
        options={kinds}
        value={what.value}
        onChoose={(kind) => {
          what.value = kind;
          asking.value = false;
        }}
      />
      <Field
        label="How much"
        value={amount.value}
        hint="1/8 turn tighter"
        onInput={(text) => {
          amount.value = text;
        }}
      />
      <PlacePicker
        key={kept.value}
        parts={["string", "fret", "spot"]}
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
      <Button go disabled={what.value === "" || more.value.refused !== ""} onPress={done}>
        Done, read it again
      </Button>
      {asking.value && lacking !== "" && (
        <NoticeLine
          strong={`Hands here ${handsWords[handsOf(desk.view.value)] ?? ""}.`}
          cures={[
            {
              says: `Hands ${handsWords[lacking] ?? lacking}, keep it`,
              onPress: () => {
                desk.visit.set("/hands", lacking);
                store();
              },
            },
            { says: "Keep it, hands as they are", onPress: store },
            {
              says: "Leave it",
              onPress: () => {
                asking.value = false;
              },
            },
          ]}>
          {`That does not go with ${what.value}. Nothing is kept yet.`}
        </NoticeLine>
      )}
      <p class="caption">
        What is read from then on is read “after”. Readings that this work moves become stale and are asked for
        again.
      </p>
    </div>
  );
}

function StaleSince({ desk }: { desk: Desk }) {
  const stale = desk.view.value.assessment.answers.filter(
    (answer) => answer.state === "stale" || answer.lines.some((line) => line.stale),
  );
  if (stale.length === 0) return null;
  return (
    <>
      <h3>Stale since</h3>
      <ul class="plain-list">
        {stale.map((answer) => (
          <li key={answer.checkpoint}>
            <button type="button" class="plain" onClick={() => desk.goTo(answer.checkpoint)}>
              <b>{titleOf(desk, answer.checkpoint)}</b>{" "}
              {answer.because ?? answer.lines.find((line) => line.stale)?.stale}
            </button>
          </li>
        ))}
      </ul>
    </>
  );
}

function SoFar({ desk }: { desk: Desk }) {
  const work = desk.view.value.entries.filter((entry) => entry.path === "/work");
  if (work.length === 0) return null;
  return (
    <>
      <h3>So far</h3>
      <ul class="plain-list">
        {work.map((entry) => {
          const value = entry.value as { what: string; at?: Place; amount?: string; by?: string; when?: string };
          return (
            <li key={entry.id} class="said-line">
              <p>
                <b>{value.what}</b> {value.amount}
              </p>
              <small>
                {[value.at ? describePlace(value.at) : "", value.by, value.when?.slice(11, 16)]
                  .filter((one) => one)
                  .join(", ")}
              </small>
              <Button onPress={() => desk.visit.remove(entry.id)}>Take it out</Button>
            </li>
          );
        })}
      </ul>
    </>
  );
}
