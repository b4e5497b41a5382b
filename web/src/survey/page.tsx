import { useSignal } from "@preact/signals";
import { useEffect, useMemo } from "preact/hooks";
import type { Id, Survey } from "../api/types";
import { Button, EmptyFrame, ErrorLine, NoticeLine, TitleBlock } from "../look/parts";
import { go, href } from "../route";
import { settings } from "../settings";
import { textScale, useWidth } from "../visit/size";
import { openVisit, type OpenVisit, type ShownVisit } from "../visit_state";
import { Clashes, NextOnNeck, StringTable, restsOn } from "./beside";
import { followChange } from "./last_change";
import { planOf } from "./plan";
import { PlanDrawing, PlanTwin, type Chosen } from "./plan_drawing";
import { AcrossSection, AlongSection } from "./section_drawing";
import { bracketed, crownsTold, plain, shapeWords, signedMm, tightest } from "./told";
import "./survey.css";

/** The neck of a visit as its readings tell it: plan, two sections, and what would tell more. */
export default function SurveyPage({ id }: { id: Id }) {
  const visit = useMemo(() => openVisit(id), [id]);
  const change = useMemo(() => followChange(visit), [visit]);
  useEffect(
    () => () => {
      change.stop();
      visit.close();
    },
    [visit],
  );
  const view = visit.view.value;
  const trouble = visit.trouble.value;
  useEffect(() => {
    document.title = `The neck, ${view?.title ?? "visit"}`;
  });
  return (
    <div class="sheet-page survey-page">
      {trouble && (
        <ErrorLine
          strong={trouble.status === 404 ? "There is no such visit." : "This visit cannot be shown."}
          cures={[{ says: "Try again", onPress: () => void visit.reload() }]}>
          {trouble.message}
        </ErrorLine>
      )}
      {view && <Ways visit={visit} />}
      {view && <Title view={view} />}
      {view && (visit.fromBefore.value || !visit.linkUp.value) && (
        <NoticeLine strong="Kept on this device.">{visit.linkSays.value}. What follows may be older than the last entries.</NoticeLine>
      )}
      {view?.assessment.neck && <Sheet visit={visit} view={view} survey={view.assessment.neck} change={change.line.value} />}
      {view && !view.assessment.neck && (
        <EmptyFrame strong="No neck can be drawn." action={{ says: "To the sheet", onPress: () => go({ page: "visit", id }) }}>
          Frets or strings are not stated, or not such as a neck can have. The instrument’s facts have them.
        </EmptyFrame>
      )}
    </div>
  );
}

function Ways({ visit }: { visit: OpenVisit }) {
  return (
    <nav class="survey-ways" aria-label="This visit">
      <a class="button" href={href({ page: "visits" })}>All visits</a>
      <a class="button go" href={href({ page: "visit", id: visit.id })}>To the sheet</a>
      <a class="button" href={href({ page: "verdict", id: visit.id })}>Verdict</a>
      <Button onPress={() => window.print()}>Print</Button>
    </nav>
  );
}

function Title({ view }: { view: ShownVisit }) {
  const survey = view.assessment.neck;
  const shape = survey && shapeWords(survey);
  return (
    <TitleBlock
      class="survey-title"
      cells={[
        { says: "Neck of", value: view.title, who: true },
        { says: "Relief", value: shape ? `${shape.relief}${survey.readings > 0 ? `, fret ${survey.relief_at}` : ""}` : "not known" },
        { says: "Fallaway", value: shape ? shape.fallaway : "not known" },
        { says: "Rests on", value: survey ? restsOn(survey) : "nothing" },
      ]}
    />
  );
}

interface SheetProps {
  visit: OpenVisit;
  view: ShownVisit;
  survey: Survey;
  change: string;
}

function Sheet({ visit, view, survey, change }: SheetProps) {
  const picked = useSignal<Chosen | null>(null);
  const chosen = picked.value ?? tightest(survey);
  const left = view.neck.left;
  const choose = (to: Chosen) => {
    picked.value = {
      fret: Math.min(Math.max(1, to.fret), survey.crowns.length),
      string: Math.min(Math.max(1, to.string), survey.strings.length),
    };
  };
  useEffect(() => listenToKeys(visit.id, left, (fret, string) => choose({ fret: chosen.fret + fret, string: chosen.string + string })));
  const says = `Fret ${chosen.fret}, string ${chosen.string}. ${chosenWords(survey, chosen).map((one) => `${one.says}: ${one.figure}`).join(". ")}`;
  return (
    <>
      <p class="survey-change" role="status" aria-live="polite">
        {visit.judging.value ? "The latest entries are still being weighed." : change && (<><b>Last reading.</b> {change}.</>)}
      </p>
      {survey.readings === 0 && (
        <NoticeLine strong="Nothing of this neck was read yet.">
          Drawn is what is usual for its kind, in brackets and dashed: relief {shapeWords(survey).relief}. Nothing here tells how this one is.
        </NoticeLine>
      )}
      <div class="survey-main">
        <div class="survey-sheet">
          <Plan view={view} survey={survey} chosen={chosen} says={says} onChoose={choose} />
          <AlongSection survey={survey} chosen={chosen} left={left} />
          <StringTable survey={survey} fretted={view.neck.fretted} />
        </div>
        <div class="survey-beside">
          <ChosenPlace survey={survey} chosen={chosen} onChoose={choose} />
          <AcrossSection survey={survey} chosen={chosen} left={left} />
          <Clashes visit={visit} view={view} survey={survey} />
          <NextOnNeck visit={visit} view={view} survey={survey} />
        </div>
      </div>
      <p class="unseen" role="status" aria-live="polite">{picked.value ? says : ""}</p>
    </>
  );
}

function Plan({ view, survey, chosen, says, onChoose }: Omit<SheetProps, "visit" | "change"> & { chosen: Chosen; says: string; onChoose: (to: Chosen) => void }) {
  const { ref, width } = useWidth<HTMLDivElement>();
  const least = 620; // px; narrower, the sheet slides under its frame
  const layout = width > 0 ? planOf(view.neck, survey, Math.max(least, width), textScale()) : undefined;
  const x = layout ? layout.at(chosen.fret, chosen.string)[0] : 0;
  useEffect(() => {
    const frame = ref.current;
    if (frame && width > 0 && width < least) frame.scrollLeft = x - width / 2;
  }, [chosen.fret, width]);
  const shape = shapeWords(survey);
  return (
    <figure class="survey-figure" aria-labelledby="survey-title">
      <figcaption>
        <h2 id="survey-title" tabIndex={-1}>Survey of the fret tops</h2>
        <p class="caption">
          {crownsTold(survey)}Relief {shape.relief} and fallaway {shape.fallaway} taken out: a line every {survey.contour_step_mm} mm, ticks on the
          lower side, dashed where the readings do not tell. Width drawn {view.neck.times_wider} times.
        </p>
      </figcaption>
      <div ref={ref} class="survey-frame">
        {layout && (
          <PlanDrawing layout={layout} survey={survey} chosen={chosen} says={says} fretted={view.neck.fretted} onChoose={onChoose} />
        )}
      </div>
      <p class="caption">Under the board: how well each fret top is known, mm.</p>
      <PlanTwin survey={survey} />
    </figure>
  );
}

interface Told {
  says: string;
  figure: string;
}

/** What is known at a fret under a string. */
function chosenWords(survey: Survey, { fret, string }: Chosen): Told[] {
  const one = survey.strings[string - 1];
  const crown = survey.crowns[fret - 1];
  const unread = survey.readings === 0;
  const next = one?.next_fret_mm[fret];
  const figure = (value: number, u: number) => bracketed(`${plain(value, u)} mm`, unread);
  const off = crown?.off_mm[string - 1] ?? 0;
  return [
    { says: "Open, over this fret", figure: figure(one?.open_mm[fret - 1] ?? 0, one?.open_mm_se[fret - 1] ?? 0) },
    next === undefined
      ? { says: "Held here", figure: "no fret beyond" }
      : { says: "Held here, next room", figure: `${figure(next, one?.next_fret_mm_se[fret] ?? 0)} over fret ${fret + 1}` },
    {
      says: "This fret top",
      figure: bracketed(`${signedMm(off)} ± ${Math.max(0.01, crown?.off_mm_se[string - 1] ?? 0).toFixed(2)} mm`, crown?.assumed ?? true),
    },
  ];
}

function ChosenPlace({ survey, chosen, onChoose }: { survey: Survey; chosen: Chosen; onChoose: (to: Chosen) => void }) {
  const step = (says: string, by: Partial<Chosen>, off: boolean, label: string) => (
    <Button label={label} disabled={off} onPress={() => onChoose({ fret: chosen.fret + (by.fret ?? 0), string: chosen.string + (by.string ?? 0) })}>
      {says}
    </Button>
  );
  return (
    <section class="survey-part survey-place" aria-labelledby="survey-here">
      <h2 id="survey-here" class="survey-where">String {chosen.string}, fret {chosen.fret}</h2>
      <div class="survey-steps no-print" role="group" aria-label="Choose a fret and a string">
        <span>
          Fret {step("−", { fret: -1 }, chosen.fret <= 1, "Fret nearer the head")}
          {step("+", { fret: 1 }, chosen.fret >= survey.crowns.length, "Fret nearer the body")}
        </span>
        <span>
          String {step("−", { string: -1 }, chosen.string <= 1, "Thinner string")}
          {step("+", { string: 1 }, chosen.string >= survey.strings.length, "Thicker string")}
        </span>
      </div>
      <dl class="survey-told">
        {chosenWords(survey, chosen).map((one) => (
          <div key={one.says}>
            <dt>{one.says}</dt>
            <dd>{one.figure}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}

/** Arrows choose; Esc and the letters lead away. A field that is typed into keeps its keys. */
function listenToKeys(id: Id, left: boolean, move: (fret: number, string: number) => void): () => void {
  const along = left ? -1 : 1;
  const moves: Record<string, [number, number]> = {
    ArrowLeft: [-along, 0],
    ArrowRight: [along, 0],
    ArrowUp: [0, -1],
    ArrowDown: [0, 1],
  };
  const heard = (event: KeyboardEvent) => {
    if (event.defaultPrevented || event.ctrlKey || event.metaKey || event.altKey) return;
    if ((event.target as Element | null)?.closest?.("input, textarea, select")) return;
    const by = moves[event.key];
    if (by) move(...by);
    else if (event.key === "Escape") go({ page: "visit", id });
    else if (event.key === "v" && settings.letterKeys.peek()) go({ page: "verdict", id });
    else return;
    event.preventDefault();
  };
  document.addEventListener("keydown", heard);
  return () => document.removeEventListener("keydown", heard);
}
