// Every note: "played all, all rang" is one tap; a note that did not is tapped on the map and said in one word.

import { useSignal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import type { Place, ProcedureCheckpoint } from "../api/types";
import { TapWords } from "../entry/words";
import { Button } from "../look/parts";
import { RingMap, type RingAt, type RingCell } from "../neck/ring";
import { RingSign, ringWords, type HeardNote } from "../neck/ring_signs";
import type { NewEntry } from "../visit_state";
import { faultWords, observableNamed } from "./catalogue";
import { NextBest } from "./decision";
import type { Desk } from "./desk";
import { readingOf, readingsAt } from "./figures";
import { describePlace } from "./places";
import { useWidth } from "./size";
import { readingEntry } from "./taking";

const wordAt = (desk: Desk, what: string, at: Place): string => {
  const entry = readingsAt(desk.view.value, what, at).at(-1);
  return entry ? String(readingOf(entry).value ?? "") : "";
};

/** Entries for what was heard at a place: a dead spot is apart from rattle, so it does not overwrite the note. */
function heardEntries(desk: Desk, at: Place, word: string): NewEntry[] {
  const what = word === "dead spot" || word === "none" ? "dead spot" : "note";
  return [readingEntry(what, at, word, readingsAt(desk.view.peek(), what, at), desk.hand())];
}

export function Heard({ desk, checkpoint }: { desk: Desk; checkpoint: ProcedureCheckpoint }) {
  const chosen = useSignal<RingAt | null>(null);
  const from = useSignal(0);
  const { ref, width } = useWidth<HTMLDivElement>();
  const all = wordAt(desk, "note", {});
  const rang = () => {
    desk.store(heardEntries(desk, {}, "rings"), "Played all, all rang");
    desk.onward();
  };
  const say = (word: string) => {
    if (!chosen.value) return;
    const at: Place = { ...chosen.value };
    const there = word === "dead spot" && wordAt(desk, "dead spot", at) === "dead spot";
    desk.store(
      heardEntries(desk, at, there ? "none" : word),
      `${describePlace(at)}, ${there ? "no dead spot" : word}`,
    );
  };
  return (
    <>
      <div class="row">
        <Button go class="all-rang" onPress={rang}>
          {all === "rings" ? "Played all again, all rang" : "Played all, all rang"}
        </Button>
        <Button onPress={desk.undo} disabled={desk.visit.undoSays.value === ""}>
          Undo
        </Button>
        <Button onPress={desk.onward}>Next checkpoint</Button>
        <p class="ring-state">
          {all === "rings" ? "All rang; where a note did not, tap it." : "Or tap the note that does not ring."}
        </p>
      </div>
      <div ref={ref} class="ring-place">
        {width > 0 && (
          <MapOfRing
            desk={desk}
            width={width}
            chosen={chosen.value}
            from={from.value}
            all={all}
            onFrom={(fret) => {
              from.value = fret;
            }}
            onChoose={(at) => {
              chosen.value = at;
            }}
          />
        )}
      </div>
      {chosen.value ? <Said desk={desk} checkpoint={checkpoint} at={chosen.value} onSay={say} /> : <Key />}
      <NextBest desk={desk} />
    </>
  );
}

function MapOfRing({
  desk,
  width,
  chosen,
  from,
  all,
  onFrom,
  onChoose,
}: {
  desk: Desk;
  width: number;
  chosen: RingAt | null;
  from: number;
  all: string;
  onFrom: (fret: number) => void;
  onChoose: (at: RingAt) => void;
}) {
  const { instrument, neck } = desk.view.value;
  const frets = Array.from({ length: instrument.frets + 1 }, (_, fret) => fret);
  const few = width < 640;
  return (
    <>
      {few && <FretWindow from={from} last={instrument.frets} onFrom={onFrom} />}
      <RingMap
        strings={neck.strings.map((line) => ({ number: line.string, note: line.note.replace(/-?\d+$/, "") }))}
        frets={few ? frets.slice(from, from + 6) : frets}
        left={instrument.left}
        cell={(place) => cellOf(desk, place, all)}
        chosen={chosen}
        complaints={complaintsOf(desk)}
        onChoose={onChoose}
      />
    </>
  );
}

function FretWindow({ from, last, onFrom }: { from: number; last: number; onFrom: (fret: number) => void }) {
  return (
    <div class="ring-frets">
      <Button onPress={() => onFrom(Math.max(0, from - 5))} disabled={from === 0} label="Frets before">
        &lt;
      </Button>
      <span>
        {from === 0 ? "Open" : `Fret ${from}`} to {Math.min(last, from + 5)}
      </span>
      <Button
        onPress={() => onFrom(Math.min(Math.max(0, last - 5), from + 5))}
        disabled={from + 5 >= last}
        label="Frets after">
        &gt;
      </Button>
    </div>
  );
}

function cellOf(desk: Desk, place: RingAt, general: string): RingCell {
  const own = wordAt(desk, "note", { ...place });
  const dead = wordAt(desk, "dead spot", { ...place }) === "dead spot";
  const word = own || general;
  const heard = (ringWords as string[]).includes(word) ? (word as HeardNote) : "not tried";
  const where = describePlace(place);
  return {
    heard,
    dead,
    general: own === "",
    says: `${where}: ${heard}${own === "" && general ? ", with all" : ""}${dead ? ", dead spot" : ""}`,
  };
}

function complaintsOf(desk: Desk): RingAt[] {
  return desk.view.value.assessment.complaints.flatMap(({ at }) =>
    typeof at?.string === "number" && at.fret !== undefined ? [{ string: at.string, fret: at.fret }] : [],
  );
}

function Said({
  desk,
  checkpoint,
  at,
  onSay,
}: {
  desk: Desk;
  checkpoint: ProcedureCheckpoint;
  at: RingAt;
  onSay: (word: string) => void;
}) {
  const words = observableNamed(desk.catalogue, "note")?.words ?? ringWords;
  const dead = wordAt(desk, "dead spot", { ...at }) === "dead spot";
  const here = useRef<HTMLDivElement>(null);
  // On a phone the answers lie below the map: they come into sight with the note that is tapped.
  useEffect(() => here.current?.scrollIntoView({ block: "nearest" }), [at.string, at.fret]);
  return (
    <div class="ring-said" ref={here}>
      <div class="ring-said-head">
        <p class="asked-place">
          <b>{describePlace(at)}</b>
        </p>
        <Button pressed={dead} onPress={() => onSay("dead spot")}>
          Dead spot: short, without rattle
        </Button>
      </div>
      <TapWords
        observable="note"
        words={words}
        chosen={wordAt(desk, "note", { ...at })}
        faults={faultWords(checkpoint)}
        onChoose={onSay}
        label={`${describePlace(at)} was heard as`}
      />
    </div>
  );
}

function Key() {
  const signs: { heard: HeardNote; says: string; dead?: boolean }[] = [
    { heard: "rings", says: "rings" },
    { heard: "rattles when struck hard", says: "rattles, struck hard" },
    { heard: "buzzes", says: "buzzes" },
    { heard: "chokes", says: "chokes" },
    { heard: "not tried", says: "not tried" },
    { heard: "rings", says: "dead spot", dead: true },
  ];
  return (
    <p class="ring-key">
      {signs.map((one) => (
        <span key={one.says}>
          <RingSign heard={one.heard} dead={one.dead ?? false} general={false} /> {one.says}
        </span>
      ))}
    </p>
  );
}
