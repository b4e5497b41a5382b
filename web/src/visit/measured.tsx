// Figures and words at their places: on the opened neck where they are read on it, else in a list of places; with the
// pad, the row as typed, units, tool and the decision while typing.

import { useEffect } from "preact/hooks";
import type { ProcedureCheckpoint } from "../api/types";
import { FigureCell } from "../neck/figure";
import { openNeck } from "../neck/layout";
import { NeckOpened } from "../neck/opened";
import { NeckPlan } from "../neck/plan";
import { NeckTable } from "../neck/table";
import { placeStations, stationFret, stationsOf } from "../neck/stations";
import { TapWords } from "../entry/words";
import { Button } from "../look/parts";
import { faultWords, isWords } from "./catalogue";
import { Decision, NextBest } from "./decision";
import type { Desk } from "./desk";
import type { Cell } from "./figures";
import { showKeys } from "./hand";
import { EntryTools } from "./entry_tools";
import { PlaceOf } from "./place_of";
import { describePlace, placeWord, rowLabel, stringOf } from "./places";
import { textScale, useWidth } from "./size";
import { NumberPad } from "../entry/pad";
import { rowTexts } from "../entry/row";
import { reasonOf, refusedAt, typedText } from "./refusals";

export function Measured({ desk, checkpoint }: { desk: Desk; checkpoint: ProcedureCheckpoint }) {
  useEffect(() => void requestAnimationFrame(showKeys), []);
  const observable = desk.observable.value;
  const words = isWords(observable);
  const cells = desk.cells.value;
  const many = cells.length > 1;
  return (
    <>
      <Places desk={desk} checkpoint={checkpoint} />
      <NeckTable cells={cells} title={checkpoint.title} />
      <div class={`entry ${words ? "entry-words" : ""}`}>
        <div class="entry-left">
          {words && observable && <WordEntry desk={desk} checkpoint={checkpoint} />}
          {!words && <EntryTools desk={desk} />}
          <PlaceOf desk={desk} />
          <Decision desk={desk} />
          <NextBest desk={desk} />
        </div>
        {words ? null : (
          <NumberPad
            dimension={desk.field.value.dimension}
            unit={desk.field.value.unit}
            next={many && desk.leadsOn.value === "" ? `Next ${placeWord(cells[desk.active.value]?.at)}` : "Next"}
            onType={desk.type}
            onRub={desk.rub}
            onNext={desk.enter}
            onUndo={desk.undo}
            {...(many && !desk.repeating.value ? { onSame: desk.sameForAll } : {})}
            undoSays={desk.visit.undoSays.value}
          />
        )}
      </div>
    </>
  );
}

function WordEntry({ desk, checkpoint }: { desk: Desk; checkpoint: ProcedureCheckpoint }) {
  const observable = desk.observable.value;
  const cells = desk.cells.value;
  const active = cells[desk.active.value];
  if (!observable || !active) return null;
  const said =
    active.state === "measured" || active.state === "stale" || active.state === "accepted" ? active.figure : "";
  return (
    <>
      {cells.length > 1 && (
        <p class="asked-place unseen-on-neck">
          <b>{describePlace(active.at)}</b> {active.last && <small>last visit: {active.last}</small>}
        </p>
      )}
      <TapWords
        observable={observable.name}
        words={observable.words ?? []}
        chosen={said}
        faults={faultWords(checkpoint)}
        onChoose={desk.word}
        label={`${checkpoint.title}, ${describePlace(active.at)}`}
      />
      <div class="row">
        {cells.length > 1 &&
          (observable.words ?? []).map((word) => (
            <Button key={word} onPress={() => desk.wordForAll(word)} label={`Same for all: ${word}`}>
              All {word}
            </Button>
          ))}
        <Button onPress={desk.undo} disabled={desk.visit.undoSays.value === ""}>
          Undo
        </Button>
        <Button onPress={desk.onward}>Next checkpoint</Button>
      </div>
    </>
  );
}

function Places({ desk, checkpoint }: { desk: Desk; checkpoint: ProcedureCheckpoint }) {
  useFocusFollows(desk);
  const { ref, width } = useWidth<HTMLDivElement>();
  const cells = desk.cells.value;
  const observable = desk.observable.value?.name ?? "";
  const view = desk.view.value;
  const at = stationFret(observable, cells[0]?.at.fret, view.instrument.frets);
  const onNeck = at !== null && view.neck.strings.length > 0 && fitsOnNeck(cells);
  return (
    <div ref={ref} class="places">
      {width > 0 && onNeck && <OnNeck desk={desk} checkpoint={checkpoint} width={width} at={at} />}
      {width > 0 && cells.length > 8 && !onNeck && (
        <NeckPlan neck={view.neck} fret={cells[desk.active.value]?.at.fret} />
      )}
      {width > 0 && !onNeck && <InList desk={desk} many={cells.length > 8} />}
    </div>
  );
}

/** A focus that stands on a figure goes on with the caret, so that one thing is in blue; and the caret stays in sight. */
function useFocusFollows(desk: Desk): void {
  const active = desk.active.value;
  const done = desk.leadsOn.value !== "";
  useEffect(() => {
    if (done) showKeys();
    else if (innerWidth <= 900) document.getElementById(`place-${active}`)?.scrollIntoView({ block: "nearest" });
    if (document.activeElement?.classList.contains("figure"))
      document.getElementById(`place-${active}`)?.focus({ preventScroll: true });
  }, [active, done]);
}

/** One row a string, the two edges, or one reading alone. */
function fitsOnNeck(cells: Cell[]): boolean {
  const strings = cells.map((cell) => stringOf(cell.at));
  if (strings.every((one) => one !== undefined)) return new Set(strings).size === strings.length;
  const sides = new Set(cells.map((cell) => cell.at.side));
  return cells.length === 1 || (cells.length === 2 && sides.size === 2 && !sides.has(undefined));
}

/** Cells from string 1 down, whichever way they are taken: string 1 lies on top. */
const fromTop = (cells: Cell[]) =>
  cells.map((cell, index) => ({ cell, index })).sort((a, b) => order(a.cell) - order(b.cell));
const order = (cell: Cell) => stringOf(cell.at) ?? (cell.at.side === "bass" ? 2 : 1);

function OnNeck({
  desk,
  checkpoint,
  width,
  at,
}: {
  desk: Desk;
  checkpoint: ProcedureCheckpoint;
  width: number;
  at: number;
}) {
  const view = desk.view.value;
  const scale = textScale();
  const narrow = width < 560 * scale;
  const onStrings = desk.cells.value.every((cell) => stringOf(cell.at) !== undefined);
  const rows = onStrings ? view.neck.strings.length : desk.cells.value.length;
  const layout = openNeck(view.neck, {
    width,
    fret: at,
    rows,
    rowHeight: (narrow ? 44 : tall() ? 51 : 44) * scale,
    opening: Math.min(width * 0.68, (narrow ? 222 : 216) * scale),
    around: narrow ? (width < 330 ? 1 : 3) : null,
  });
  const stations = placeStations(
    narrow ? stationsOf(view, checkpoint.id).filter((one) => one.now) : stationsOf(view, checkpoint.id),
    layout.xOf,
    0,
    width,
    tall() ? 2 : 1,
  );
  return (
    <NeckOpened
      neck={view.neck}
      layout={layout}
      stations={stations}
      onStation={desk.goTo}
      labels={view.neck.strings.map((line) => rowLabel({ string: line.string }, view.instrument.notes))}
      numbers={narrow}
      title={`Neck opened at fret ${at}. ${checkpoint.title}`}>
      {fromTop(desk.cells.value).map(({ cell, index }) => {
        const y = (layout.rows[onStrings || rows === 2 ? order(cell) - 1 : 0] ?? 0) - (layout.rows[0] ?? 0);
        return (
          <div key={index} class="neck-row" style={{ top: `${y}px`, height: `${layout.rowHeight - 4}px` }}>
            {!narrow && onStrings && (
              <span class="neck-row-name" aria-hidden="true">
                {stringOf(cell.at)}
              </span>
            )}
            <Figure desk={desk} cell={cell} index={index} />
          </div>
        );
      })}
    </NeckOpened>
  );
}

const tall = () => innerHeight > 800;

function Figure({ desk, cell, index }: { desk: Desk; cell: Cell; index: number }) {
  const active = desk.active.value === index;
  const drafts = rowTexts(desk.draft.value, desk.field.value);
  const ahead = index - desk.active.value;
  // What is typed while repeating belongs to the one place, however much it is.
  const draft = desk.repeating.value
    ? active
      ? desk.draft.value
      : ""
    : ahead >= 0
      ? (drafts[ahead] ?? "")
      : "";
  const refused = desk.refused.value?.index === index ? desk.refused.value : draft === "" ? setAside(desk, cell) : undefined;
  return (
    <FigureCell
      cell={cell}
      active={active}
      draft={draft}
      landing={!active && draft !== ""}
      refused={refused}
      onPick={() => desk.pick(index)}
      unitShown={groupUnit(desk)}
      limits={desk.leadsOn.value !== ""}
      id={`place-${index}`}
    />
  );
}

/** Refused by the shop: struck through at its place until it is mended. */
function setAside(desk: Desk, cell: Cell): { typed: string; says: string } | undefined {
  const one = refusedAt(desk, cell);
  return one && { typed: typedText(one, desk.field.value.unit), says: reasonOf(one) };
}

const groupUnit = (desk: Desk) => (desk.field.value.unit === "64ths" ? "in" : desk.field.value.unit);

function InList({ desk, many }: { desk: Desk; many: boolean }) {
  const cells = desk.cells.value;
  const notes = desk.view.value.instrument.notes;
  return (
    <ol class={`place-list ${many ? "place-grid" : ""} ${cells.length === 1 ? "place-one" : ""}`}>
      {cells.map((cell, index) => {
        const label = { ...rowLabel(cell.at, notes), whole: describePlace(cell.at) };
        return (
          <li key={index} class="place-line">
            {cells.length > 1 && (
              <span class="place-name">
                {many ? (
                  <>
                    <b>{cell.at.fret ?? label.head}</b> <small>{cell.at.side}</small>
                  </>
                ) : (
                  <>
                    <b>{label.head}</b>{" "}
                    {label.tail || (Object.keys(cell.at).length > 1 ? label.whole : cell.at.side ? "side" : "")}
                  </>
                )}
              </span>
            )}
            <Figure desk={desk} cell={cell} index={index} />
            {cells.length === 1 && <span class="place-unit">{groupUnit(desk)}</span>}
          </li>
        );
      })}
    </ol>
  );
}
