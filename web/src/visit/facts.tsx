// The instrument's facts. What is assumed stands in brackets with the reason; a tap states it or goes to the reading
// that would replace it.

import { useSignal } from "@preact/signals";
import type { Assumption } from "../api/types";
import { Button, Choice } from "../look/parts";
import { readsOf } from "./catalogue";
import type { Desk } from "./desk";
import { SetField } from "./set_field";
import { StringsField } from "./strings_field";
import { valueAt } from "./title";

export function FactsPanel({ desk }: { desk: Desk }) {
  const { assumed, instrument } = desk.view.value.assessment;
  return (
    <>
      <p>{instrument}</p>
      <StringsField desk={desk} />
      {assumed.length > 0 && <h3>Assumed, not measured</h3>}
      <ul class="assumed-list">
        {assumed.map((one) => (
          <AssumedLine key={one.what} desk={desk} one={one} />
        ))}
      </ul>
      <h3>Stated</h3>
      <div class="columns">
        <SetField desk={desk} path="/instrument/maker" label="Maker" />
        <SetField desk={desk} path="/instrument/model" label="Model" />
        <SetField desk={desk} path="/instrument/serial" label="Serial number" />
        <SetField desk={desk} path="/instrument/year" label="Year, as claimed" />
        <SetField
          desk={desk}
          path="/instrument/scale"
          label="Scale length"
          dimension="length"
          hint="such as 635 mm or 25 1/2 in"
        />
        <SetField desk={desk} path="/instrument/frets" label="Frets" whole />
        <SetField desk={desk} path="/instrument/radius" label="Fingerboard radius" dimension="length" />
        <SetField
          desk={desk}
          path="/instrument/switch_positions"
          label="Switch positions, in order"
          list
          separator=";"
          hint="such as bridge; both; neck"
        />
        <SetField
          desk={desk}
          path="/instrument/controls"
          label="Controls"
          list
          separator=";"
          hint="such as volume; tone"
        />
        <SetField desk={desk} path="/instrument/board_wood" label="Fingerboard wood" />
        <SetField desk={desk} path="/job/owner" label="Owner" />
        <Facts desk={desk} />
      </div>
    </>
  );
}

const choices: { path: string; label: string; options: string[] }[] = [
  { path: "/instrument/hand", label: "Plucked with", options: ["right", "left"] },
  { path: "/instrument/neck_joint", label: "Neck joint", options: ["bolt-on", "set", "through"] },
  { path: "/instrument/board_finish", label: "Fingerboard", options: ["bare", "lacquered"] },
];
const yesNo: { path: string; label: string }[] = [
  { path: "/instrument/fretted", label: "Frets" },
  { path: "/instrument/zero_fret", label: "Zero fret" },
  { path: "/instrument/battery", label: "Battery" },
  { path: "/instrument/headless", label: "Headless" },
];
const records: { path: string; key: string; label: string; options: string[] }[] = [
  {
    path: "/instrument/bridge",
    key: "type",
    label: "Bridge",
    options: ["fixed", "two-post", "pivot", "floating tailpiece"],
  },
  { path: "/instrument/truss_rod", key: "type", label: "Truss rod", options: ["single", "double", "none"] },
];
const plain = (words: string[]) => words.map((value) => ({ value }));

function Facts({ desk }: { desk: Desk }) {
  const record = (path: string) => (valueAt(desk, path) ?? {}) as Record<string, unknown>;
  return (
    <>
      {choices.map(({ path, label, options }) => (
        <Choice
          key={path}
          label={label}
          options={plain(options)}
          value={String(valueAt(desk, path) ?? "")}
          onChoose={(value) => desk.visit.set(path, value)}
        />
      ))}
      {records.map(({ path, key, label, options }) => (
        <Choice
          key={path}
          label={label}
          options={plain(options)}
          value={String(record(path)[key] ?? "")}
          onChoose={(value) => desk.visit.set(path, { ...record(path), [key]: value })}
        />
      ))}
      {yesNo.map(({ path, label }) => {
        const known = valueAt(desk, path);
        return (
          <Choice
            key={path}
            label={label}
            options={plain(["yes", "no"])}
            value={known === true ? "yes" : known === false ? "no" : ""}
            onChoose={(value) => desk.visit.set(path, value === "yes")}
          />
        );
      })}
    </>
  );
}

/** An assumption, in brackets on a dashed rule; what would replace it is one tap away. */
function AssumedLine({ desk, one }: { desk: Desk; one: Assumption }) {
  const stating = useSignal(false);
  const checkpoint = one.observable
    ? desk.catalogue.procedure.checkpoints.find(
        (known) =>
          readsOf(known).includes(one.observable ?? "") &&
          desk.view.value.checkpoints.some((state) => state.id === known.id),
      )
    : undefined;
  const path = statePaths[one.what];
  return (
    <li>
      <span class="assumed-fact">
        <span>{one.what}</span> <b>[{one.text}]</b>
      </span>
      <small>{one.because}</small>
      {path && (
        <Button
          onPress={() => {
            stating.value = !stating.value;
          }}>
          State it
        </Button>
      )}
      {checkpoint && <Button onPress={() => desk.goTo(checkpoint.id)}>Read it</Button>}
      {stating.value && path && <SetField desk={desk} path={path.path} label={one.what} {...path.form} />}
    </li>
  );
}

const statePaths: Record<string, { path: string; form: { dimension?: string; whole?: boolean } }> = {
  "scale length": { path: "/instrument/scale", form: { dimension: "length" } },
  scale: { path: "/instrument/scale", form: { dimension: "length" } },
  frets: { path: "/instrument/frets", form: { whole: true } },
  "number of frets": { path: "/instrument/frets", form: { whole: true } },
  "fingerboard radius": { path: "/instrument/radius", form: { dimension: "length" } },
  radius: { path: "/instrument/radius", form: { dimension: "length" } },
};
