// How the figure being typed stands against its limit, before it is stored; and the next best reading.

import type { Line, Tried } from "../api/types";
import type { Desk } from "./desk";
import { lineAt, type Cell } from "./figures";
import { keyOf } from "./places";

function triedLine(tried: Tried | null, cell: Cell | undefined, checkpoint: string | undefined): Line | undefined {
  if (!tried || !cell) return undefined;
  const answer = tried.answers.find((one) => one.checkpoint === checkpoint);
  return lineAt(answer?.lines ?? [], cell.observable, cell.at);
}

const standingWords: Record<string, string> = {
  usual: "usual",
  "at the edge": "at the edge of its limit",
  outside: "outside its limit",
  accept: "within its limit",
  reject: "outside its limit",
  "cannot tell": "cannot tell yet",
  good: "good",
  "will do": "will do",
  fault: "a fault",
  read: "",
};

export function Decision({ desk }: { desk: Desk }) {
  const cell = desk.cells.value[desk.active.value];
  const refused = desk.refused.value;
  const line = triedLine(desk.visit.tried.value, cell, desk.checkpoint.value?.id);
  if (refused) return null;
  const standing = line?.standing ?? cell?.standing ?? "";
  const limit = line?.limit ?? cell?.limit ?? "";
  const words = standingWords[standing] ?? standing;
  const found =
    line?.found.text ??
    line?.found.words ??
    (cell?.state === "blank" || cell?.state === "assumed" ? "" : cell?.figure);
  const was = desk.was.value[keyOf(cell?.at)] ?? "";
  const outside = ["outside", "reject", "fault"].includes(standing);
  return (
    <p class="decision">
      {(words || limit) && found && (
        <span>
          <b class={outside ? "red" : ""}>
            {found}
            {words && `: ${words}`}
          </b>
          {limit && `, limit ${limit}`}.
        </span>
      )}
      {line?.advice && <span> {line.advice}</span>}
      {was && <span> Was {was}.</span>}
      {cell?.reason && cell.state !== "assumed" && <span> {cell.reason}</span>}
    </p>
  );
}

export function NextBest({ desk }: { desk: Desk }) {
  const now = desk.checkpoint.value?.id;
  const { next, assessment } = desk.view.value;
  const best = next && next.checkpoint !== now ? next : assessment.next.find((one) => one.checkpoint !== now);
  if (!best) return null;
  return (
    <button type="button" class="next-best plain" onClick={() => desk.goTo(best.checkpoint)}>
      Next best after this: <b>{best.what}</b>, {minutes(best.minutes)}: {best.why}
    </button>
  );
}

const minutes = (n: number) => (n < 1 ? "under a minute" : `${Math.round(n)} min`);
