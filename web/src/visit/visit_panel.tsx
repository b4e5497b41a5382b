// Scope, hands, stage, who reads; and the end of a visit.

import { useSignal } from "@preact/signals";
import { api, ApiError } from "../api/client";
import { Button, Choice, ErrorLine, Field } from "../look/parts";
import { go } from "../route";
import { settings } from "../settings";
import { shop } from "../shop_state";
import type { Desk } from "./desk";

const handsOptions = [
  { value: "look only", hint: "lent, for sale, under a claim: nothing is turned, slackened, flexed or opened" },
  { value: "adjust", says: "may adjust", hint: "screws may be turned, strings slackened" },
  { value: "work", says: "may work", hint: "cavities opened, slots and frets filed" },
];

const stageOptions = [
  { value: "arrival", hint: "as it came in" },
  { value: "before", hint: "before any work" },
  { value: "after", hint: "after the work: the proof" },
  { value: "hand-over", hint: "as it leaves" },
];

export function VisitPanel({ desk }: { desk: Desk }) {
  const { assessment, minutes } = desk.view.value;
  const scopes = desk.catalogue.procedure.scopes.map((scope) => ({
    value: scope.name,
    hint: `${scope.minutes} min, ${scope.checkpoints.length} checkpoints`,
  }));
  const people = (shop.value?.people ?? []).filter((one) => one.technician).map((one) => ({ value: one.name }));
  return (
    <div class="columns">
      <Choice
        label={`Scope, ${Math.round(minutes.left)} min left`}
        column
        options={scopes}
        value={assessment.scope}
        onChoose={(scope) => desk.visit.set("/scope", scope)}
      />
      <Choice
        label="Hands"
        column
        options={handsOptions}
        value={assessment.hands}
        onChoose={(hands) => desk.visit.set("/hands", hands)}
      />
      <Choice
        label="Stage of what is read now"
        column
        options={stageOptions}
        value={desk.stage.value}
        onChoose={(stage) => {
          desk.stage.value = stage;
        }}
      />
      <div>
        {people.length > 0 && (
          <Choice
            label="Who reads on this device"
            column
            options={people}
            value={settings.person.value}
            onChoose={(name) => {
              settings.person.value = name;
            }}
          />
        )}
        <Field
          label="Or another name"
          value={people.some((one) => one.value === settings.person.value) ? "" : settings.person.value}
          onInput={(name) => {
            settings.person.value = name;
          }}
        />
      </div>
      <Closing desk={desk} />
    </div>
  );
}

function Closing({ desk }: { desk: Desk }) {
  const trouble = useSignal("");
  const closed = desk.view.value.closed !== undefined;
  const end = async () => {
    trouble.value = "";
    try {
      await api.close(desk.visit.id, !closed);
      if (closed) await desk.visit.reload();
      else go("/");
    } catch (error) {
      trouble.value = error instanceof ApiError ? error.message : "no answer from the server";
    }
  };
  const waiting = desk.visit.waiting.value;
  return (
    <div>
      <span class="label">The end of the visit</span>
      <p>
        {closed
          ? "Closed. It can be opened again."
          : "Closing leaves everything as it stands; it can be opened again."}{" "}
        {waiting > 0 && `${waiting} entries have not reached the shop yet.`}
      </p>
      <Button onPress={() => void end()}>{closed ? "Open it again" : "Close this visit"}</Button>
      {trouble.value && <ErrorLine strong="It stays as it was.">{trouble.value}.</ErrorLine>}
    </div>
  );
}
