// Beside the pad: the row as typed, what was refused and why, the unit, same for all, the tool, repeats; and, where a
// checkpoint can be read in more than one way, which.

import { unitsFor, toMm } from "../entry/units";
import { otherUnit, parseField } from "../entry/quantity";
import type { ProcedureCheckpoint } from "../api/types";
import { ErrorLine } from "../look/parts";
import { counted } from "../look/words";
import { setUnit } from "../settings";
import { observableNamed, readsOf, toolChoices } from "./catalogue";
import type { Desk } from "./desk";
import { splitText } from "./figures";
import { singlesAt } from "./taking";
import { shop } from "../shop_state";

export function Ways({ desk, checkpoint }: { desk: Desk; checkpoint: ProcedureCheckpoint }) {
  const ways = readsOf(checkpoint)
    .map((name) => observableNamed(desk.catalogue, name))
    .filter((one) => one !== undefined);
  if (ways.length < 2) return null;
  return (
    <div class="ways segment" role="group" aria-label="Read as">
      {ways.map((way) => (
        <button
          key={way.name}
          type="button"
          aria-pressed={way.name === desk.observable.value?.name}
          title={way.says}
          onClick={() => desk.chooseObservable(way.name)}>
          {way.name}
        </button>
      ))}
    </div>
  );
}

export function EntryTools({ desk }: { desk: Desk }) {
  const many = desk.cells.value.length > 1;
  return (
    <>
      <TypedRow desk={desk} />
      <RefusedLine desk={desk} />
      <LeadsOn desk={desk} />
      <div class="entry-row entry-first">
        <UnitKeys desk={desk} />
        {many && !desk.repeating.value && (
          <Quiet wide onPress={desk.sameForAll}>
            Same for all
          </Quiet>
        )}
      </div>
      <div class="entry-row">
        <ToolKey desk={desk} />
        <Quiet
          pressed={desk.repeating.value}
          onPress={() => {
            desk.repeating.value = !desk.repeating.value;
          }}>
          {desk.repeating.value
            ? "Stop repeating"
            : many
              ? "Repeat a string".replace("string", wordOf(desk))
              : "Read it again"}
        </Quiet>
      </div>
    </>
  );
}

const wordOf = (desk: Desk) => (desk.cells.value[0]?.at.string !== undefined ? "string" : "place");

/** A key beside the pad: it leaves the focus where the figures are typed. On a phone `wide` ones are on the pad. */
function Quiet({
  onPress,
  pressed,
  wide,
  children,
}: {
  onPress: () => void;
  pressed?: boolean;
  wide?: boolean;
  children: string;
}) {
  return (
    <button
      type="button"
      class={`button ${wide ? "wide-only" : ""}`}
      aria-pressed={pressed}
      onPointerDown={(event) => event.preventDefault()}
      onClick={onPress}>
      {children}
    </button>
  );
}

/** A finished row stays in sight: its limits, and what Enter does next. */
function LeadsOn({ desk }: { desk: Desk }) {
  const says = desk.leadsOn.value;
  if (says === "") return null;
  const cells = desk.cells.value;
  const limits = [...new Set(cells.map((cell) => cell.limit))].filter((one) => one !== "");
  const outside = cells.filter((cell) => cell.outside).length;
  const told = [
    limits.length === 1 ? `Limit ${limits[0]}` : "",
    outside > 0 ? `${outside} outside ${limits.length === 1 ? "it" : "their limits"}` : "",
  ].filter((one) => one !== "");
  return (
    <p class="leads-on" role="status">
      {told.length > 0 && `${told.join(", ")}. `}
      <b>Enter: {says}</b>
    </p>
  );
}

/** While a place is repeated its own readings stand here, else the row up to the caret, or all of it once it is done. */
function rowSoFar(desk: Desk): { before: string[]; says: string } {
  const cells = desk.cells.value;
  const active = cells[desk.active.value];
  if (desk.repeating.value && active) {
    const singles = singlesAt(active, desk.hand()).map((text) => splitText(text).figure);
    const mean = singles.length > 1 ? `, mean ${active.figure}` : "";
    return { before: singles, says: `${counted(singles.length, "reading", "readings")}${mean}` };
  }
  const shown = desk.leadsOn.value === "" ? cells.slice(0, desk.active.value) : cells;
  return {
    before: shown.map((cell) => (cell.state === "blank" || cell.state === "assumed" ? "–" : cell.figure)),
    says: cells.length > 1 ? "row as typed" : "as typed",
  };
}

function TypedRow({ desk }: { desk: Desk }) {
  const { before, says } = rowSoFar(desk);
  const draft = desk.draft.value;
  const parsed = parseField(draft, desk.field.value);
  const beside =
    parsed.kind === "value" && toMm(1, parsed.unit) !== null && desk.field.value.unit !== "mm"
      ? otherUnit(parsed.number, parsed.unit)
      : "";
  return (
    <div class="typed-row">
      <span class="typed-figures">
        <span>
          {before.join(" ")}
          {before.length > 0 && " "}
          {draft}
          <i class="caret" />
        </span>
      </span>
      <small>{beside || says}</small>
    </div>
  );
}

function RefusedLine({ desk }: { desk: Desk }) {
  const refused = desk.refused.value;
  if (!refused) return null;
  const retype = (text: string) => () => {
    desk.refused.value = null;
    desk.draft.value = text;
    desk.enter();
  };
  const cures = [
    ...(refused.instead ? [{ says: refused.instead, onPress: retype(refused.instead) }] : []),
    {
      says: "Leave it out",
      onPress: desk.leaveOut,
    },
  ];
  return (
    <ErrorLine strong={refused.says} cures={cures}>
      Your text is kept.
    </ErrorLine>
  );
}

function UnitKeys({ desk }: { desk: Desk }) {
  const { dimension, unit } = desk.field.value;
  const units = unitsFor(dimension).filter((one) => one.id !== "");
  const name = desk.observable.value?.name ?? "";
  if (units.length < 2) return units[0] ? <span class="unit-alone">{units[0].says}</span> : null;
  return (
    <div class="segment" role="group" aria-label="Unit">
      {units.map((one) => (
        <button
          key={one.id}
          type="button"
          aria-pressed={one.id === unit}
          onPointerDown={(event) => event.preventDefault()}
          onClick={() => setUnit(name, one.id)}>
          {one.says}
        </button>
      ))}
    </div>
  );
}

/** The tool picked once for this observable; without one, the shop's usual, which the report marks as assumed. */
function ToolKey({ desk }: { desk: Desk }) {
  const observable = desk.observable.value;
  const choices = toolChoices(desk.catalogue, shop.value?.tools ?? [], observable);
  const picked = choices.find((one) => one.id === desk.tool.value);
  const usual = desk.catalogue.tools.find((tool) => tool.id === observable?.default_tool);
  const u = desk.cells.value.find((cell) => cell.u !== "" && cell.repeats < 2)?.u ?? "";
  const words = picked ? picked.says : usual ? `[${usual.name}]` : "no tool";
  return (
    <button
      type="button"
      id="tool-key"
      class="button tool-key"
      onClick={() => {
        desk.panel.value = "tool";
      }}
      aria-label={`Tool: ${picked ? words : `assumed ${usual?.name ?? "none"}`}. Change`}>
      <span>
        {words}
        {u && `, ${u}`}
      </span>{" "}
      <small>change</small>
    </button>
  );
}
