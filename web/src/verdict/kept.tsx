// What was written down and photographed on the way: it belongs to the answer as the figures do.

import type { Photo, Place } from "../api/types";
import { trueMinus } from "../look/words";
import { MarkedPicture } from "../photo/marked_picture";
import "../photo/photo.css";
import { catalogue } from "../shop_state";
import type { ShownVisit } from "../visit_state";
import { describePlace } from "../visit/places";

const placeWords = (at: Place | undefined): string => (at && Object.keys(at).length > 0 ? describePlace(at) : "");
const joined = (...parts: (string | undefined)[]): string => parts.filter((part) => part).join(", ");

export function Remarks({ view }: { view: ShownVisit }) {
  const remarks = view.entries
    .filter((entry) => entry.path === "/remarks")
    .sort((a, b) => a.place - b.place);
  if (remarks.length === 0) return null;
  return (
    <section class="verdict-part" aria-labelledby="verdict-remarks">
      <h2 id="verdict-remarks">Remarks</h2>
      <ul class="caution-list">
        {remarks.map((entry) => {
          const { text, at, by } = entry.value as { text: string; at?: Place; by?: string };
          const tail = joined(placeWords(at), by);
          return <li key={entry.id}>{trueMinus(text)}{tail !== "" && <small> {tail}</small>}</li>;
        })}
      </ul>
    </section>
  );
}

export function Photos({ view }: { view: ShownVisit }) {
  const photos = view.entries
    .filter((entry) => entry.path === "/photos" && (entry.value as Photo).path !== "")
    .sort((a, b) => a.place - b.place);
  if (photos.length === 0) return null;
  return (
    <section class="verdict-part" aria-labelledby="verdict-photos">
      <h2 id="verdict-photos">Photos</h2>
      <div class="verdict-photos">
        {photos.map((entry) => {
          const { path, what, at, by, checkpoint, marks } = entry.value as Photo;
          const title = catalogue.value?.procedure.checkpoints.find((one) => one.id === checkpoint)?.title;
          return (
            <div key={entry.id}>
              <MarkedPicture url={`/${path}`} what={what ?? title ?? ""} marks={marks ?? []} />
              <p>{joined(what, title, placeWords(at), by)}</p>
            </div>
          );
        })}
      </div>
    </section>
  );
}
