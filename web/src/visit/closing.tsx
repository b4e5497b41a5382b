// The end of a visit. Closing says what is left and the verdict, and asks once; a closed visit takes no entries until it
// is opened again.

import { useSignal } from "@preact/signals";
import type { ComponentChildren } from "preact";
import { api, ApiError } from "../api/client";
import { Button, ErrorLine, NoticeLine } from "../look/parts";
import { counted } from "../look/words";
import { go } from "../route";
import { countOf, leftWords, type ScopeCount } from "./count";
import type { Desk } from "./desk";

const isClosed = (desk: Desk): boolean => desk.view.value.closed !== undefined;

/** "Of set-up, 37 checkpoints to answer, at least 34 min; the verdict is: cannot tell yet." */
export function closingWords(scope: string, verdict: string, count: ScopeCount): string {
  return `${scope.charAt(0).toUpperCase()}${scope.slice(1)}: ${leftWords(count)}. The verdict is: ${verdict}.`;
}

async function setClosed(desk: Desk, closed: boolean): Promise<string> {
  try {
    await api.close(desk.visit.id, closed);
    if (closed) go("/");
    else await desk.visit.reload();
    return "";
  } catch (error) {
    return error instanceof ApiError ? error.message : "no answer from the server";
  }
}

export function Closing({ desk }: { desk: Desk }) {
  const trouble = useSignal("");
  const asking = useSignal(false);
  const closed = isClosed(desk);
  const end = async (close: boolean) => {
    trouble.value = await setClosed(desk, close);
  };
  const { assessment } = desk.view.value;
  const waiting = desk.visit.waiting.value;
  return (
    <div class="closing">
      <span class="label">The end of the visit</span>
      <p>
        {closed
          ? "Closed. It takes no entries until it is opened again."
          : closingWords(assessment.scope, assessment.verdict, countOf(desk.view.value, desk.catalogue))}{" "}
        {waiting > 0 && `${counted(waiting, "entry has", "entries have")} not reached the shop yet.`}
      </p>
      {closed && <Button onPress={() => void end(false)}>Open it again</Button>}
      {!closed && !asking.value && (
        <Button
          onPress={() => {
            asking.value = true;
          }}>
          Close this visit
        </Button>
      )}
      {!closed && asking.value && (
        <NoticeLine
          strong="Close it as it stands?"
          cures={[
            { says: "Yes, close it", onPress: () => void end(true) },
            {
              says: "Keep it open",
              onPress: () => {
                asking.value = false;
              },
            },
          ]}>
          It can be opened again.
        </NoticeLine>
      )}
      {trouble.value && <ErrorLine strong="It stays as it was.">{trouble.value}.</ErrorLine>}
    </div>
  );
}

export function ClosedBanner({ desk }: { desk: Desk }) {
  const trouble = useSignal("");
  if (!isClosed(desk)) return null;
  const open = async () => {
    trouble.value = await setClosed(desk, false);
  };
  return (
    <NoticeLine strong="This visit is closed." cures={[{ says: "Open it again", onPress: () => void open() }]}>
      {trouble.value ? `It stays closed: ${trouble.value}.` : "It takes no entries until it is opened again."}
    </NoticeLine>
  );
}

/** What enters something: shown as it is, but still while the visit is closed. */
export function WhileOpen({ desk, children }: { desk: Desk; children: ComponentChildren }) {
  return (
    <fieldset class="while-open" disabled={isClosed(desk)}>
      {children}
    </fieldset>
  );
}
