// A judged checkpoint: four anchored sentences, best on top, one tap. Photographed and claim checkpoints answer the
// same way where they have anchors, after the photo or the claims; place and remark are added to what was tapped.

import { useSignal, type Signal } from "@preact/signals";
import type { Place, ProcedureCheckpoint, Rating as RatingValue, StoredEntry } from "../api/types";
import { Rating } from "../entry/words";
import { Button, Field } from "../look/parts";
import { PhotoTaker } from "../photo/photo_taker";
import type { NewEntry } from "../visit_state";
import type { Desk } from "./desk";
import { NextBest } from "./decision";
import { fretsOf, type Frets } from "./fret_words";
import { PlacePicker } from "./place_picker";
import { describePlace, samePlace } from "./places";
import type { Hand } from "./taking";

/** Ratings in force of a checkpoint, the latest last. */
function ratingsOf(desk: Desk, id: string): StoredEntry[] {
  return desk.view.value.entries.filter(
    (entry) => entry.path === "/ratings" && (entry.value as RatingValue | null)?.checkpoint === id,
  );
}

/** A rating corrects the same person's at the same place and stage; everybody else's stays beside it. */
function ratingEntry(
  said: { checkpoint: string; step: number },
  at: Place,
  remark: string,
  before: StoredEntry[],
  hand: Hand,
): NewEntry {
  const same = before.filter((entry) => {
    const old = entry.value as RatingValue;
    return samePlace(old.at, at) && (old.by ?? "") === hand.by && (old.stage ?? "arrival") === hand.stage;
  });
  const value: RatingValue = { ...said, stage: hand.stage, when: hand.when };
  if (hand.by) value.by = hand.by;
  if (Object.keys(at).length > 0) value.at = at;
  if (remark) value.remark = remark;
  return { path: "/ratings", value, replaces: same.map((entry) => entry.id) };
}

export function Judged({ desk, checkpoint }: { desk: Desk; checkpoint: ProcedureCheckpoint }) {
  const place = useSignal<Place>({});
  const frets = useSignal("");
  const remark = useSignal("");
  const known = fretsOf(frets.value, desk.view.value.instrument.frets);
  const ratings = ratingsOf(desk, checkpoint.id);
  const last = ratings.at(-1)?.value as RatingValue | undefined;
  // Said with a place, the sheet stays: the next place is often rated too. Said of the whole, it goes on.
  const rate = (step: number) => {
    if (known.kind === "refused") return;
    const said = { checkpoint: checkpoint.id, step };
    const places = ratedPlaces(place.value, known);
    const words = remark.value.trim();
    const entries = places.map((at) => ratingEntry(said, at, words, ratings, desk.hand()));
    desk.store(entries, `${checkpoint.title}: ${checkpoint.anchors?.[step] ?? step}`);
    if (Object.keys(places[0] ?? {}).length === 0) return desk.onward();
    place.value = {};
    frets.value = "";
    remark.value = "";
  };
  return (
    <>
      {checkpoint.kind === "photographed" && (
        <PhotoTaker visit={desk.visit} checkpoint={checkpoint.id} stage={desk.stage.value} />
      )}
      {checkpoint.kind === "claim" && (
        <Button
          onPress={() => {
            desk.panel.value = "claims";
          }}>
          Write down what was promised
        </Button>
      )}
      <WhereRated desk={desk} place={place} frets={frets} remark={remark} known={known} />
      {checkpoint.anchors && (
        <Rating anchors={checkpoint.anchors} step={last?.step ?? null} onStep={rate} label={checkpoint.question} />
      )}
      <Given ratings={ratings} checkpoint={checkpoint} />
      <After desk={desk} rated={checkpoint.anchors !== undefined && ratings.length === 0} />
      <NextBest desk={desk} />
    </>
  );
}

/** One place for each fret that was named, a range by its ends; one for all without. */
export function ratedPlaces(place: Place, frets: Frets): Place[] {
  if (frets.kind !== "frets") return [place];
  const [first = 0, last = first] = frets.frets;
  const all = frets.words.includes(" to ")
    ? Array.from({ length: last - first + 1 }, (_, step) => first + step)
    : frets.frets;
  return all.map((fret) => ({ ...place, fret }));
}

function WhereRated({
  desk,
  place,
  frets,
  remark,
  known,
}: {
  desk: Desk;
  place: Signal<Place>;
  frets: Signal<string>;
  remark: Signal<string>;
  known: Frets;
}) {
  const { instrument } = desk.view.value;
  const said = ratedPlaces(place.value, known)
    .filter((at) => Object.keys(at).length > 0)
    .map(describePlace);
  return (
    <details class="place-of">
      <summary>{said.length > 0 ? `At ${said.join("; ")}` : "Where, and in your words"}</summary>
      <p class="caption">Said first, it goes with the sentence that is tapped next; the sheet then stays for more.</p>
      <Field
        label={`Frets, 0 to ${instrument.frets}`}
        hint="such as 5, or 5-7, or 5, 9"
        value={frets.value}
        {...(known.kind === "refused" ? { refused: known.says } : {})}
        onInput={(text) => {
          frets.value = text;
        }}
      />
      <PlacePicker
        parts={["string", "side", "spot"]}
        value={place.value}
        frets={instrument.frets}
        notes={instrument.notes}
        onChange={(at) => {
          place.value = at;
        }}
      />
      <Field
        label="Remark"
        value={remark.value}
        onInput={(text) => {
          remark.value = text;
        }}
      />
    </details>
  );
}

function After({ desk, rated }: { desk: Desk; rated: boolean }) {
  return (
    <div class="row">
      <Button onPress={desk.undo} disabled={desk.visit.undoSays.value === ""}>
        Undo
      </Button>
      <Button onPress={desk.onward}>{rated ? "Leave it open" : "Next checkpoint"}</Button>
    </div>
  );
}

function Given({ ratings, checkpoint }: { ratings: StoredEntry[]; checkpoint: ProcedureCheckpoint }) {
  if (ratings.length === 0) return null;
  return (
    <ul class="given">
      {ratings.map((entry) => {
        const rating = entry.value as RatingValue;
        const words = [describeShort(rating.at), rating.by, rating.stage, rating.remark]
          .filter((one) => one)
          .join(", ");
        return (
          <li key={entry.id}>
            <b>{checkpoint.anchors?.[rating.step] ?? rating.step}</b> <small>{words}</small>
          </li>
        );
      })}
    </ul>
  );
}

const describeShort = (at: Place | undefined) => (at && Object.keys(at).length > 0 ? describePlace(at) : "");
