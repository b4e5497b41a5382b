import { useState } from "preact/hooks";
import { api } from "../api/client";
import type { Person, Shop } from "../api/types";
import { Button, Choice, Field } from "../look/parts";
import { FormEnd, OtherReasons, stated, useSaving } from "./save";

function PersonForm({ person, onDone }: { person: Person | null; onDone: () => void }) {
  const [name, setName] = useState(person?.name ?? "");
  const [technician, setTechnician] = useState(person?.technician ?? true);
  const [contact, setContact] = useState(person?.contact ?? "");
  const saving = useSaving();
  const send = async () => {
    if (await saving.send(() => api.putPerson(stated({ name: name.trim(), technician, contact: contact.trim() }))))
      onDone();
  };
  return (
    <div class="form">
      <OtherReasons saving={saving} keys={["name", "contact"]} />
      {person === null && (
        <Field label="Name" value={name} onInput={setName} refused={saving.refused("name")} autoFocus />
      )}
      <Choice
        label="In this shop"
        value={technician ? "works here" : "player or owner"}
        onChoose={(word) => setTechnician(word === "works here")}
        options={[{ value: "works here" }, { value: "player or owner" }]}
      />
      <Field label="How to reach" value={contact} onInput={setContact} refused={saving.refused("contact")} />
      <FormEnd ready={!saving.busy && name.trim() !== ""} onStore={() => void send()} onLeave={onDone} />
    </div>
  );
}

export function People({ shop }: { shop: Shop }) {
  const [open, setOpen] = useState<string | null>(null);
  return (
    <section aria-labelledby="people-head">
      <h2 id="people-head">People</h2>
      <ul class="lines">
        {shop.people.map((person) => (
          <li key={person.name}>
            <div class="line">
              <b>{person.name}</b>
              <span>{person.technician ? "works here" : "player or owner"}</span>
              <span class="caption">{person.contact ?? ""}</span>
              <Button
                label={`Change ${person.name}`}
                onPress={() => setOpen(open === person.name ? null : person.name)}>
                Change
              </Button>
            </div>
            {open === person.name && <PersonForm person={person} onDone={() => setOpen(null)} />}
          </li>
        ))}
      </ul>
      {open === "" ? (
        <PersonForm person={null} onDone={() => setOpen(null)} />
      ) : (
        <Button onPress={() => setOpen("")}>Add a person</Button>
      )}
    </section>
  );
}
