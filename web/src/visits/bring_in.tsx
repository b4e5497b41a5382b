import { useState } from "preact/hooks";
import { ApiError, api } from "../api/client";
import { newId } from "../api/device";
import { ErrorLine } from "../look/parts";
import { go } from "../route";

// A bench file becomes a visit: chosen with the button or dropped anywhere on the list.

const largestBytes = 32_000_000;

export interface Brought {
  name: string;
  trouble?: ApiError;
}

/** Sends bench files one after the other. Answers those refused; with one file, its visit is opened. */
export async function bringIn(files: File[]): Promise<Brought[]> {
  const refused: Brought[] = [];
  let last = "";
  for (const file of files) {
    try {
      if (file.size > largestBytes)
        throw new ApiError(413, { code: "size", path: "", message: "larger than 32 MB: no bench file" });
      last = (await api.importBench(newId(), file)).id;
    } catch (error) {
      if (!(error instanceof ApiError)) throw error;
      refused.push({ name: file.name, trouble: error });
    }
  }
  if (files.length === 1 && last !== "") go({ page: "visit", id: last });
  return refused;
}

export function useBringIn() {
  const [refused, setRefused] = useState<Brought[]>([]);
  const [over, setOver] = useState(false);
  const take = async (files: FileList | null | undefined): Promise<void> => {
    const chosen = [...(files ?? [])];
    if (chosen.length > 0) setRefused(await bringIn(chosen));
  };
  const target = {
    onDragOver: (event: DragEvent) => {
      if (!event.dataTransfer?.types.includes("Files")) return;
      event.preventDefault();
      setOver(true);
    },
    onDragLeave: () => setOver(false),
    onDrop: (event: DragEvent) => {
      event.preventDefault();
      setOver(false);
      void take(event.dataTransfer?.files);
    },
  };
  return { refused, over, take, target, forget: () => setRefused([]) };
}

export function FileButton({ onFiles }: { onFiles: (files: FileList | null) => void }) {
  return (
    <label class="button file-button">
      Open a bench file
      <input
        class="unseen-file"
        type="file"
        accept=".json,application/json"
        multiple
        onChange={(event) => {
          onFiles(event.currentTarget.files);
          event.currentTarget.value = "";
        }}
      />
    </label>
  );
}

export function RefusedFiles({ refused, onSeen }: { refused: Brought[]; onSeen: () => void }) {
  return (
    <>
      {refused.map(({ name, trouble }) => (
        <ErrorLine key={name} strong={`${name} was not taken.`} cures={[{ says: "Seen", onPress: onSeen }]}>
          {(trouble?.errors ?? []).slice(0, 6).map((one) => (
            <span key={one.path + one.message} class="reason">
              {[one.path, one.message].filter(Boolean).join(": ")}
              <br />
            </span>
          ))}
          Nothing of it was stored; mend the file and bring it again.
        </ErrorLine>
      ))}
    </>
  );
}
