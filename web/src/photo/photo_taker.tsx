import { useEffect, useId, useMemo, useState } from "preact/hooks";
import { outbox } from "../api/outbox";
import type { Photo, Place } from "../api/types";
import { Button, ErrorLine, Field } from "../look/parts";
import { settings } from "../settings";
import type { OpenVisit, ShownEntry } from "../visit_state";
import { MarkedPicture } from "./marked_picture";
import { written, type Mark } from "./marks";
import "./photo.css";
import { prepare } from "./picture";

interface PhotoTakerProps {
  visit: OpenVisit;
  /** Photos of this checkpoint are shown, and new ones filed under it; without it those of the visit as a whole. */
  checkpoint?: string;
  at?: Place;
  stage?: string;
}

/** Photos of a checkpoint: take or choose one, mark on it what it shows, keep it. A photo waits in the outbox like any
 *  entry, so a dropped link loses none. */
export function PhotoTaker({ visit, checkpoint, at, stage }: PhotoTakerProps) {
  const [fresh, setFresh] = useState<Blob | null>(null);
  const [refused, setRefused] = useState("");
  const [busy, setBusy] = useState(false);
  const kept = (visit.view.value?.entries ?? []).filter((entry) => isPhotoOf(entry, checkpoint));
  const take = async (file: File): Promise<void> => {
    setRefused("");
    setBusy(true);
    const ready = await prepare(file, file.name);
    setBusy(false);
    if ("refused" in ready) setRefused(ready.refused);
    else setFresh(ready.blob);
  };
  const keepIt = (what: string, marks: Mark[]): void => {
    if (fresh) visit.addPhoto(fresh, newPhoto({ what, marks, checkpoint, at, stage }));
    setFresh(null);
  };
  return (
    <section class="photo-taker" aria-label="Photos">
      {kept.map((entry) => <KeptPhoto key={entry.id} visit={visit} entry={entry} />)}
      {fresh
        ? <FreshPhoto blob={fresh} onKeep={keepIt} onLeave={() => setFresh(null)} />
        : (
          <div class="row">
            <PictureButton says={kept.length > 0 ? "Take another photo" : "Take a photo"} camera onTake={take} />
            <PictureButton says="Choose a picture" onTake={take} />
          </div>
        )}
      {busy && <p role="status">Making the picture ready.</p>}
      {refused !== "" && <ErrorLine strong="Nothing was kept.">{refused}</ErrorLine>}
    </section>
  );
}

const isPhotoOf = (entry: ShownEntry, checkpoint: string | undefined): boolean =>
  entry.path === "/photos" && (entry.value as Photo).checkpoint === checkpoint;

function newPhoto(about: { what: string; marks: Mark[]; checkpoint?: string; at?: Place; stage?: string }): Omit<Photo, "path"> {
  const by = settings.person.peek();
  const what = about.what.trim();
  const marks = written(about.marks);
  return {
    ...(about.checkpoint === undefined ? {} : { checkpoint: about.checkpoint }),
    ...(about.at && Object.keys(about.at).length > 0 ? { at: about.at } : {}),
    ...(what === "" ? {} : { what }),
    ...(by === "" ? {} : { by }),
    ...(about.stage === undefined ? {} : { stage: about.stage }),
    when: new Date().toISOString(),
    ...(marks.length === 0 ? {} : { marks }),
  };
}

/** A button that opens the camera or the files. The field itself is what is focused and pressed. */
function PictureButton({ says, camera, onTake }: { says: string; camera?: boolean; onTake: (file: File) => void }) {
  const id = useId();
  return (
    <span class="photo-button">
      <input id={id} type="file" accept="image/jpeg,image/png,image/webp,image/*" capture={camera ? "environment" : undefined}
             onChange={(event) => {
               const file = event.currentTarget.files?.[0];
               event.currentTarget.value = "";
               if (file) onTake(file);
             }} />
      <label class={`button ${camera ? "go" : ""}`} for={id}>{says}</label>
    </span>
  );
}

/** The address of bytes that are on this device only; let go when they are no longer shown. */
function useBlobUrl(blob: Blob | undefined): string | undefined {
  const url = useMemo(() => (blob ? URL.createObjectURL(blob) : undefined), [blob]);
  useEffect(() => () => { if (url) URL.revokeObjectURL(url); }, [url]);
  return url;
}

function FreshPhoto({ blob, onKeep, onLeave }: { blob: Blob; onKeep: (what: string, marks: Mark[]) => void; onLeave: () => void }) {
  const url = useBlobUrl(blob);
  const [what, setWhat] = useState("");
  const [marks, setMarks] = useState<Mark[]>([]);
  return (
    <div class="photo-sheet photo-fresh">
      <MarkedPicture url={url ?? ""} what={what} marks={marks} onMarks={setMarks} />
      <Field label="What it shows" value={what} onInput={setWhat} />
      <div class="row">
        <Button go onPress={() => onKeep(what, marks)}>Keep the photo</Button>
        <Button onPress={onLeave}>Leave it out</Button>
      </div>
    </div>
  );
}

function KeptPhoto({ visit, entry }: { visit: OpenVisit; entry: ShownEntry }) {
  const photo = entry.value as Photo;
  const [editing, setEditing] = useState(false);
  const [what, setWhat] = useState(photo.what ?? "");
  const [marks, setMarks] = useState<Mark[]>(photo.marks ?? []);
  const item = outbox.items.value.find((one) => one.kind === "photo" && one.entries.some((each) => each.id === entry.id));
  const local = useBlobUrl(item?.kind === "photo" ? item.blob : undefined);
  const url = photo.path === "" ? local : `/${photo.path}`;
  const done = (): void => {
    const { what: _, marks: __, ...rest } = photo;
    const words = what.trim();
    const kept = written(marks);
    visit.correct(entry.id, { ...rest, ...(words ? { what: words } : {}), ...(kept.length > 0 ? { marks: kept } : {}) });
    setEditing(false);
  };
  return (
    <div class="photo-sheet">
      <MarkedPicture url={url ?? ""} what={editing ? what : photo.what ?? ""} marks={editing ? marks : photo.marks ?? []}
                     {...(editing ? { onMarks: setMarks } : {})} />
      {editing && <Field label="What it shows" value={what} onInput={setWhat} />}
      <div class="photo-foot">
        <p>{[photo.what, photo.by, entry.waiting ? "waits to be sent, kept on this device" : ""].filter(Boolean).join(", ")}</p>
        {/* A photo that is on its way cannot be changed without its bytes; it can once it has arrived. */}
        {!entry.waiting && (editing
          ? <Button go onPress={done}>Done</Button>
          : <Button onPress={() => setEditing(true)}>Mark</Button>)}
        <Button onPress={() => visit.remove(entry.id)}>Take it out</Button>
      </div>
    </div>
  );
}
