// Everything that was entered, also what was taken back; what still waits on this device; the files.

import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { api, ApiError } from "../api/client";
import type { HistoryEntry } from "../api/types";
import { Button, ErrorLine, NoticeLine } from "../look/parts";
import type { Desk } from "./desk";

export function HistoryPanel({ desk }: { desk: Desk }) {
  const entries = useSignal<HistoryEntry[]>([]);
  const trouble = useSignal("");
  const seq = desk.view.value.seq;
  useEffect(() => {
    api.history(desk.visit.id).then(
      (answer) => {
        entries.value = answer.entries;
        trouble.value = "";
      },
      (error: unknown) => {
        trouble.value = error instanceof ApiError ? error.message : "no answer from the server";
      },
    );
  }, [seq]);
  const waiting = desk.view.value.entries.filter((entry) => entry.waiting);
  const id = desk.visit.id;
  return (
    <>
      <p class="row">
        <a class="button" href={api.benchUrl(id)} download>
          Bench file
        </a>
        <a class="button" href={api.reportUrl(id)} target="_blank" rel="noopener">
          Report
        </a>
        <a class="button" href={`/dossiers/${desk.view.value.dossier}`}>
          Dossier of this instrument
        </a>
      </p>
      <p>{desk.visit.linkSays.value}</p>
      {waiting.length > 0 && (
        <NoticeLine strong={`${waiting.length} wait on this device:`}>
          {waiting.map((entry) => words(entry.value)).join("; ")}
        </NoticeLine>
      )}
      {trouble.value && <ErrorLine strong="The history could not be fetched.">{trouble.value}.</ErrorLine>}
      <EntriesTable desk={desk} entries={entries.value} />
    </>
  );
}

function words(value: unknown): string {
  if (value === null || typeof value !== "object") return String(value ?? "");
  const {
    what,
    checkpoint,
    text,
    value: figure,
  } = value as { what?: string; checkpoint?: string; text?: string; value?: unknown };
  return [what ?? checkpoint ?? text ?? "entry", figure === undefined ? "" : String(figure)]
    .filter((one) => one !== "")
    .join(" ");
}

function EntriesTable({ desk, entries }: { desk: Desk; entries: HistoryEntry[] }) {
  return (
    <table class="history">
      <thead>
        <tr>
          <th scope="col">When</th>
          <th scope="col">What</th>
          <th scope="col">Where from</th>
          <th scope="col">
            <span class="unseen">Take it back</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {[...entries].reverse().map((entry) => (
          <tr key={entry.id} class={entry.in_force ? "" : "history-out"}>
            <td>
              {entry.at.slice(0, 10)} {entry.at.slice(11, 16)}
            </td>
            <td>
              {entry.in_force ? (
                entry.says
              ) : (
                <>
                  <s>{entry.says}</s> <small>taken back or replaced</small>
                </>
              )}
            </td>
            <td>{entry.device_name}</td>
            <td>
              {entry.in_force && entry.path !== "" && (
                <Button onPress={() => desk.visit.remove(entry.id)} label={`Take back ${entry.says}`}>
                  Take back
                </Button>
              )}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
