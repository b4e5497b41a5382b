// What a line of the sheet list says of its checkpoint: "10 to 46", "4 of 6", "3 dead, others just move". Pure.

import type { Catalogue, Figure, Line, VisitView } from "../api/types";
import { trueMinus } from "../look/words";
import { checkpointNamed } from "./catalogue";
import { readingOf, splitText, uncertaintyText } from "./figures";

export interface Summary {
  figure: string; // heavy, at the right; "" when nothing is known
  tail: string; // small, below
  fault: boolean;
}

const faults = new Set(["outside", "reject", "fault"]);

export function summaryOf(view: VisitView, catalogue: Catalogue, id: string): Summary {
  const answer = view.assessment.answers.find((one) => one.checkpoint === id);
  const state = view.checkpoints.find((one) => one.id === id);
  const lines = answer?.lines ?? [];
  const fault = lines.some((line) => faults.has(line.standing)) || answer?.state === "fault found";
  if (lines.length === 0) return unjudged(view, catalogue, id);
  const places = state?.places.length ?? 1;
  const partly = answer?.state === "partly read" && places > 1;
  const words = lines.map((line) => line.found.words).filter((word) => word !== undefined);
  const tail = answer?.state === "stale" ? "stale" : answer?.state === "cannot tell" ? "cannot tell" : "";
  if (words.length === lines.length) return { ...inWords(words, partly ? places : 0), fault };
  return {
    figure: partly ? `${read(lines)} of ${places}` : range(lines.map((line) => line.found)),
    tail: tail || spread(lines),
    fault,
  };
}

/** Entries that the server has not judged yet, so that the list answers at once. */
function unjudged(view: VisitView, catalogue: Catalogue, id: string): Summary {
  const rating = view.entries
    .filter((entry) => entry.path === "/ratings" && (entry.value as { checkpoint?: string }).checkpoint === id)
    .at(-1);
  const step = (rating?.value as { step?: number } | undefined)?.step;
  if (step !== undefined)
    return { figure: "noted", tail: checkpointNamed(catalogue, id)?.anchors?.[step] ?? "", fault: false };
  const places = view.checkpoints.find((one) => one.id === id)?.places ?? [];
  const keys = new Set(places.map((place) => `${place.observable}|${JSON.stringify(place.at)}`));
  const here = view.entries.filter(
    (entry) =>
      entry.path === "/readings" &&
      keys.has(`${readingOf(entry).what}|${JSON.stringify(readingOf(entry).at ?? {})}`),
  );
  if (here.length === 0) return { figure: "", tail: "", fault: false };
  if (places.length > 1) return { figure: `${here.length} of ${places.length}`, tail: "", fault: false };
  const first = here[0];
  return { figure: first ? splitText(String(readingOf(first).value ?? "")).figure : "", tail: "", fault: false };
}

const read = (lines: Line[]) => new Set(lines.map((line) => JSON.stringify(line.at ?? {}))).size;

function inWords(words: string[], places: number): Pick<Summary, "figure" | "tail"> {
  if (places > 0) return { figure: `${words.length} of ${places}`, tail: "" };
  const counts = new Map<string, number>();
  for (const word of words) counts.set(word, (counts.get(word) ?? 0) + 1);
  const [most, next] = [...counts].sort((a, b) => b[1] - a[1]);
  if (!next)
    return most && most[0].length <= 12
      ? { figure: most[0], tail: "" }
      : { figure: "noted", tail: most?.[0] ?? "" };
  const few = [...counts].filter(([word]) => word !== most?.[0]);
  const told = few.map(([word, n]) => `${n} ${word}`).join(", ");
  if (told.length <= 10) return { figure: told, tail: `others ${most?.[0] ?? ""}` };
  return { figure: `${few.reduce((sum, [, n]) => sum + n, 0)} noted`, tail: told };
}

function range(found: Figure[]): string {
  const numbers = found.filter((one) => one.value !== undefined);
  const text = (one: Figure | undefined) => (one?.text ?? "").split(" ±")[0]?.split(" ")[0] ?? "";
  if (numbers.length === 0) return found[0]?.words ?? "";
  const sorted = [...numbers].sort((a, b) => (a.value ?? 0) - (b.value ?? 0));
  const [low, high] = [trueMinus(text(sorted[0])), trueMinus(text(sorted.at(-1)))];
  return low === high ? low : `${low} to ${high}`;
}

function spread(lines: Line[]): string {
  const first = lines[0]?.found;
  if (first?.u === undefined || first.unit === undefined) return "";
  const u = uncertaintyText(Math.max(...lines.map((line) => line.found.u ?? 0)));
  return [u, first.unit].filter((one) => one !== "").join(" ");
}
