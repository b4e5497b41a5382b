// A judged checkpoint: four anchored sentences, best on top, one tap. Photographed and claim checkpoints answer the
// same way where they have anchors, after the photo or the claims; place and remark are added to what was tapped.

import { useSignal } from "@preact/signals";
import type { Place, ProcedureCheckpoint, Rating as RatingValue, StoredEntry } from "../api/types";
import { Rating } from "../entry/words";
import { Button, Field } from "../look/parts";
import { PhotoTaker } from "../photo/photo_taker";
import type { NewEntry } from "../visit_state";
import type { Desk } from "./desk";
import { NextBest } from "./decision";
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
  const remark = useSignal("");
  const ratings = ratingsOf(desk, checkpoint.id);
  const last = ratings.at(-1)?.value as RatingValue | undefined;
  const rate = (step: number) => {
    const entry = ratingEntry(
      { checkpoint: checkpoint.id, step },
      place.value,
      remark.value.trim(),
      ratings,
      desk.hand(),
    );
    desk.store([entry], `${checkpoint.title}: ${checkpoint.anchors?.[step] ?? step}`);
    desk.onward();
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
      {checkpoint.anchors && (
        <Rating anchors={checkpoint.anchors} step={last?.step ?? null} onStep={rate} label={checkpoint.question} />
      )}
      <Given ratings={ratings} checkpoint={checkpoint} />
      <details class="place-of">
        <summary>
          {Object.keys(place.value).length > 0 ? `At ${describePlace(place.value)}` : "Where, and in your words"}
        </summary>
        <p class="caption">Said first, it goes with the sentence that is tapped next.</p>
        <PlacePicker
          parts={["string", "fret", "side", "spot"]}
          value={place.value}
          frets={desk.view.value.instrument.frets}
          notes={desk.view.value.instrument.notes}
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
      <After desk={desk} rated={checkpoint.anchors !== undefined} />
      <NextBest desk={desk} />
    </>
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
