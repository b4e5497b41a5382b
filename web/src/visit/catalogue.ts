// What the catalogue says of a checkpoint, in the shapes the sheet works with.

import type { Catalogue, Observable, ProcedureCheckpoint, VisitView } from "../api/types";

const asList = (value: unknown): string[] =>
  Array.isArray(value)
    ? value.filter((one): one is string => typeof one === "string")
    : typeof value === "string"
      ? [value]
      : [];

export const readsOf = (checkpoint: ProcedureCheckpoint): string[] => asList(checkpoint.reads);

export function observableNamed(catalogue: Catalogue, name: string): Observable | undefined {
  return catalogue.observables.find((one) => one.name === name);
}

export function checkpointNamed(catalogue: Catalogue, id: string | undefined): ProcedureCheckpoint | undefined {
  return catalogue.procedure.checkpoints.find((one) => one.id === id);
}

/** Words of an observable that amount to a fault, with how bad: from the checkpoint. */
export function faultWords(checkpoint: ProcedureCheckpoint): Map<string, string> {
  const words = checkpoint.words as unknown;
  const found = new Map<string, string>();
  if (!Array.isArray(words)) return found;
  for (const one of words as { word?: unknown; severity?: unknown }[]) {
    if (typeof one?.word === "string")
      found.set(one.word, typeof one.severity === "string" ? one.severity : "minor");
  }
  return found;
}

export const isWords = (observable: Observable | undefined): boolean => (observable?.words?.length ?? 0) > 0;

/** Tools of the shop and kinds of tool that read this dimension; the shop's own first. */
export interface ToolChoice {
  id: string;
  says: string;
  own: boolean;
}

/** Tools made for one thing are offered only for what is usually read with them: nobody reads a height with radius gauges. */
const single = ["radius gauges", "tape measure"];
const long = ["scale length", "nut to last fret", "outer size"];

const reads = (tool: string, observable: { name: string; default_tool?: string } | undefined): boolean =>
  !single.includes(tool) ||
  observable?.default_tool === tool ||
  (tool === "tape measure" && long.includes(observable?.name ?? ""));

export function toolChoices(
  catalogue: Catalogue,
  shopTools: { id: string; kind: string; retired?: boolean }[],
  observable: Pick<Observable, "name" | "dimension" | "default_tool"> | undefined,
): ToolChoice[] {
  const dimension = observable?.dimension ?? "";
  const kinds = catalogue.tools.filter((tool) => tool.dimension === dimension && reads(tool.id, observable));
  const own = shopTools
    .filter((tool) => !tool.retired && kinds.some((kind) => kind.id === tool.kind))
    .map((tool) => ({ id: tool.id, says: `${tool.id} (${tool.kind})`, own: true }));
  return [...own, ...kinds.map((kind) => ({ id: kind.id, says: kind.name, own: false }))];
}

export interface Section {
  id: string;
  title: string;
  checkpoints: { id: string; title: string; in_scope: boolean; done: boolean; minutes: number }[];
}

/** The sheet by section, in trade order; `all` adds what lies outside the scope. */
export function sheetSections(catalogue: Catalogue, view: VisitView, all: boolean): Section[] {
  const titles = new Map(catalogue.procedure.checkpoints.map((one) => [one.id, one]));
  const sections: Section[] = catalogue.procedure.sections.map((one) => ({ ...one, checkpoints: [] }));
  for (const state of view.checkpoints) {
    const known = titles.get(state.id);
    if (!known || !(all || state.in_scope)) continue;
    const { id, in_scope, done, minutes } = state;
    sections
      .find((one) => one.id === known.section)
      ?.checkpoints.push({ id, title: known.title, in_scope, done, minutes });
  }
  return sections.filter((one) => one.checkpoints.length > 0);
}
