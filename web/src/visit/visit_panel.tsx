// Scope, hands, stage, who reads; and the end of a visit.

import { Choice, Field } from "../look/parts";
import { atLeast, counted } from "../look/words";
import { settings } from "../settings";
import { shop } from "../shop_state";
import { Closing, WhileOpen } from "./closing";
import { countOf, leftWords } from "./count";
import type { Desk } from "./desk";
import { handsOf } from "./order";
import { valueAt } from "./title";

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
  const { assessment } = desk.view.value;
  const scope = valueAt(desk, "/scope");
  const scopes = desk.catalogue.procedure.scopes.map(({ name }) => {
    const { all, minutes } = countOf(desk.view.value, desk.catalogue, name);
    return { value: name, hint: `${counted(all, "checkpoint", "checkpoints")}, ${atLeast(minutes)}` };
  });
  const left = leftWords(countOf(desk.view.value, desk.catalogue));
  const people = (shop.value?.people ?? []).filter((one) => one.technician).map((one) => ({ value: one.name }));
  return (
    <div class="columns">
      <WhileOpen desk={desk}>
        <Choice
          label={`Scope: ${left}`}
          column
          options={scopes}
          value={typeof scope === "string" ? scope : assessment.scope}
          onChoose={(scope) => desk.visit.set("/scope", scope)}
        />
        <Choice
          label="Hands"
          column
          options={handsOptions}
          value={handsOf(desk.view.value)}
          onChoose={(hands) => desk.visit.set("/hands", hands)}
        />
      </WhileOpen>
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
