// The player's complaints in their own words with the place, and what they wish. They belong to the player.

import { useSignal } from "@preact/signals";
import type { Complaint, Place, StoredEntry } from "../api/types";
import { currencyOf } from "../entry/plain_number";
import { Button, Choice, Field } from "../look/parts";
import { shop } from "../shop_state";
import { complaintsTold, newComplaint } from "./complaints";
import type { Desk } from "./desk";
import { PlacePicker, type MoreOfPlace } from "./place_picker";
import { describePlace } from "./places";
import { SetField } from "./set_field";
import { kindOfInstrument, setStrings } from "./strings_field";
import { valueAt } from "./title";
import { tuningFault, tuningsFor } from "./tunings";

export function WantsPanel({ desk }: { desk: Desk }) {
  const { entries, assessment } = desk.view.value;
  return (
    <>
      <h3>Complaints</h3>
      <ul class="plain-list">
        {complaintsTold(entries, assessment.complaints).map(({ entry, told }) => (
          <ComplaintLine key={entry.id} desk={desk} entry={entry} told={told} />
        ))}
      </ul>
      <NewComplaint desk={desk} />
      <h3>Wishes</h3>
      <Wishes desk={desk} />
    </>
  );
}

function Wishes({ desk }: { desk: Desk }) {
  return (
    <div class="columns">
      <SetField desk={desk} path="/wants/player" label="Player" />
      <SetField desk={desk} path="/wants/promised" label="Promised" type="date" />
      <SetField desk={desk} path="/wants/strings" label="Gauges" hint="such as 10-46" />
      <WishedTuning desk={desk} />
      <SetField desk={desk} path="/wants/height_bass" label="Height over fret 12, bass side" dimension="length" />
      <SetField
        desk={desk}
        path="/wants/height_treble"
        label="Height over fret 12, treble side"
        dimension="length"
      />
      <SetField desk={desk} path="/wants/money_limit" label="May cost" dimension="money" hint={`a plain number is in ${currencyOf(shop.value?.rates)}`} />
      <SetField
        desk={desk}
        path="/wants/untouchables"
        label="Must stay as it is"
        list
        separator=";"
        hint="parted by semicolons"
      />
      <Choice
        label="Hand"
        options={words("light", "medium", "heavy")}
        value={text(desk, "/wants/hand")}
        onChoose={(hand) => desk.visit.set("/wants/hand", hand)}
      />
      <Choice
        label="Rattle allowed"
        options={words("none", "unplugged only", "hard only")}
        value={text(desk, "/wants/rattle")}
        onChoose={(rattle) => desk.visit.set("/wants/rattle", rattle)}
      />
      <SetField desk={desk} path="/wants/remark" label="Anything else" lines />
    </div>
  );
}

/** Tunings of as many strings as there are; another number of notes asks for another number of strings. */
function WishedTuning({ desk }: { desk: Desk }) {
  const { strings } = desk.view.value.instrument;
  const known = valueAt(desk, "/wants/tuning");
  const wished = Array.isArray(known) ? known.join(" ") : "";
  return (
    <div class="strings-field">
      <Choice
        label="Tuning, string 1 first"
        column
        options={tuningsFor(kindOfInstrument(desk), strings).map((one) => ({
          value: one.notes.join(" "),
          hint: one.says,
        }))}
        value={wished}
        onChoose={(tuning) => desk.visit.set("/wants/tuning", tuning.split(" "))}
      />
      <SetField
        desk={desk}
        path="/wants/tuning"
        label="Another tuning"
        list
        hint="such as E4 B3 G3 D3 A2 D2"
        fault={(value) => (Array.isArray(value) ? tuningFault(value as string[], strings) : "")}
        cure={(value) => {
          const notes = value as string[];
          if (notes.length === strings || tuningFault(notes, notes.length) !== "") return null;
          return { says: `It has ${notes.length} strings`, onPress: () => setStrings(desk, notes.length) };
        }}
      />
    </div>
  );
}

const words = (...all: string[]) => all.map((value) => ({ value }));
const text = (desk: Desk, path: string) => {
  const value = valueAt(desk, path);
  return typeof value === "string" ? value : "";
};

function NewComplaint({ desk }: { desk: Desk }) {
  const said = useSignal("");
  const at = useSignal<Place>({});
  const more = useSignal<MoreOfPlace>({ words: "", refused: "" });
  const kept = useSignal(0);
  const { instrument } = desk.view.value;
  const add = () => {
    const value = newComplaint(said.value, at.value, more.value.words);
    if (!value || more.value.refused !== "") return;
    desk.store([{ path: "/wants/complaints", value }], `Complaint kept: ${value.text}`);
    said.value = "";
    at.value = {};
    more.value = { words: "", refused: "" };
    kept.value += 1; // a fresh place to pick
  };
  return (
    <div class="new-line">
      <Field
        label="What is wrong, in the player’s own words"
        value={said.value}
        lines
        onInput={(words) => {
          said.value = words;
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
      <Button go disabled={said.value.trim() === "" || more.value.refused !== ""} onPress={add}>
        Keep this complaint
      </Button>
    </div>
  );
}

const endings = ["cured", "explained, not cured", "not found", "left by agreement"];

function ComplaintLine({ desk, entry, told }: { desk: Desk; entry: StoredEntry; told: Complaint | undefined }) {
  const open = useSignal(false);
  const value = entry.value as { text: string; at?: Place; ending?: { as: string; by?: string } };
  return (
    <li class="said-line">
      <blockquote>“{value.text}”</blockquote>
      <small>
        {describePlace(value.at)}
        {value.ending && `, ${value.ending.as}${value.ending.by ? `, ${value.ending.by}` : ""}`}
      </small>
      {told?.remark && <p>{told.remark}</p>}
      {(told?.evidence ?? []).map((one) => (
        <p key={one} class="caption">
          {one}
        </p>
      ))}
      <div class="row">
        <Button
          onPress={() => {
            open.value = !open.value;
          }}>
          {value.ending ? "Another ending" : "How it ended"}
        </Button>
        <Button onPress={() => desk.visit.remove(entry.id)}>Take it out</Button>
      </div>
      {open.value && (
        <Ending
          desk={desk}
          entry={entry}
          onDone={() => {
            open.value = false;
          }}
        />
      )}
    </li>
  );
}

/** An ending names the readings that show it: those of the checkpoints at its place, the latest stage. */
function Ending({ desk, entry, onDone }: { desk: Desk; entry: StoredEntry; onDone: () => void }) {
  const why = useSignal("");
  const value = entry.value as { text: string; at?: Place };
  const end = (as: string) => {
    const hand = desk.hand();
    const shown = readingsNear(desk, value.at);
    desk.visit.correct(entry.id, {
      ...value,
      ending: {
        as,
        ...(shown.length > 0 ? { shown_by: shown } : {}),
        ...(hand.by ? { by: hand.by } : {}),
        when: hand.when,
        ...(why.value.trim() ? { why: why.value.trim() } : {}),
      },
    });
    onDone();
  };
  return (
    <div class="new-line">
      <Field
        label="Why, or how it shows"
        value={why.value}
        onInput={(words) => {
          why.value = words;
        }}
      />
      <div class="row">
        {endings.map((as) => (
          <Button key={as} onPress={() => end(as)}>
            {as}
          </Button>
        ))}
      </div>
    </div>
  );
}

function readingsNear(desk: Desk, at: Place | undefined): string[] {
  return desk.view.value.entries
    .filter((entry) => entry.path === "/readings")
    .map((entry) => entry.value as { id?: string; at?: Place; stage?: string })
    .filter((reading) => reading.id !== undefined && reading.stage === desk.stage.value)
    .filter(
      (reading) => at?.string === undefined || reading.at?.string === undefined || reading.at.string === at.string,
    )
    .map((reading) => reading.id as string)
    .slice(-12);
}
