import { useEffect, useMemo } from "preact/hooks";
import { api } from "../api/client";
import type { Assessment, Id } from "../api/types";
import { Button, ErrorLine, NoticeLine, TitleBlock, type Cell } from "../look/parts";
import { dayWords, trueMinus } from "../look/words";
import { href } from "../route";
import { catalogue, shop } from "../shop_state";
import { openVisit, type OpenVisit, type ShownVisit } from "../visit_state";
import { Changes } from "./changes";
import { Card, Claims, PriceLines } from "./claims";
import { Complaints } from "./complaints";
import { Findings } from "./findings";
import { Photos, Remarks } from "./kept";
import { Assumed, Cautions, NextReadings, NotLookedAt } from "./rest";
import "./verdict.css";

/** The answer to the visit, with everything it rests on and everything it does not. */
export default function VerdictPage({ id }: { id: Id }) {
  const visit = useMemo(() => openVisit(id), [id]);
  useEffect(() => () => visit.close(), [visit]);
  useEffect(() => {
    // Paper has nothing to tap: what is folded is opened first.
    const unfold = (): void => document.querySelectorAll<HTMLDetailsElement>(".verdict-page details").forEach((one) => { one.open = true; });
    addEventListener("beforeprint", unfold);
    return () => removeEventListener("beforeprint", unfold);
  }, []);
  const view = visit.view.value;
  const trouble = visit.trouble.value;
  return (
    <div class="sheet-page verdict-page">
      {trouble && (
        <ErrorLine strong={trouble.status === 404 ? "There is no such visit." : "This visit cannot be shown."}
                   cures={[{ says: "Try again", onPress: () => void visit.reload() }]}>
          {trouble.message}
        </ErrorLine>
      )}
      {view && <Sheet visit={visit} view={view} />}
    </div>
  );
}

function textAt(view: ShownVisit, path: string): string {
  const value = view.entries.filter((entry) => entry.path === path).at(-1)?.value;
  return typeof value === "string" ? value : "";
}

function cellsOf(view: ShownVisit, today: string): Cell[] {
  const serial = textAt(view, "/instrument/serial");
  const name = serial !== "" && view.title.endsWith(`, ${serial}`) ? view.title.slice(0, -serial.length - 2) : view.title;
  const promised = textAt(view, "/wants/promised");
  return [
    { says: serial || "Instrument", value: name, who: true, href: href({ page: "dossier", id: view.dossier }) },
    { says: "Player", value: textAt(view, "/wants/player") || textAt(view, "/job/owner") || "not named" },
    { says: "Scope", value: view.assessment.scope },
    { says: "Promised", value: promised === "" ? "no day" : dayWords(promised, today) },
  ];
}

function Sheet({ visit, view }: { visit: OpenVisit; view: ShownVisit }) {
  const { assessment } = view;
  const today = shop.value?.today ?? "";
  return (
    <>
      <nav class="verdict-ways" aria-label="This visit">
        <a class="button" href={href({ page: "visits" })}>All visits</a>
        <a class="button go" href={href({ page: "visit", id: visit.id })}>To the sheet</a>
        <a class="button" href={api.reportUrl(visit.id)} target="_blank" rel="noopener">Report</a>
        <a class="button" href={api.benchUrl(visit.id)} download>Bench file</a>
        <a class="button" href={href({ page: "dossier", id: view.dossier })}>Its past</a>
        {assessment.neck && <a class="button" href={href({ page: "survey", id: visit.id })}>The neck</a>}
        <Button onPress={() => window.print()}>Print</Button>
      </nav>
      <TitleBlock cells={cellsOf(view, today)} class="verdict-title" />
      {assessment.demo && <p class="caption">Invented instrument and values.</p>}
      {view.closed !== undefined && (
        <NoticeLine strong="This visit is closed.">It takes no entries until it is opened again, on its sheet.</NoticeLine>
      )}
      {(visit.fromBefore.value || !visit.linkUp.value) && (
        <NoticeLine strong="Kept on this device.">{visit.linkSays.value}. What follows may be older than the last entries.</NoticeLine>
      )}
      <Answer assessment={assessment} judging={visit.judging.value} />
      <fieldset class="verdict-columns" disabled={view.closed !== undefined}>
        <div>
          <Complaints complaints={assessment.complaints} findings={assessment.findings} />
          <Findings visit={visit} findings={assessment.findings} today={today} />
          <Changes changes={assessment.changes} answers={assessment.answers} />
        </div>
        <div>
          <Claims claims={assessment.claims} />
          <Remarks view={view} />
          <Card lines={assessment.card} />
          <PriceLines price={assessment.price} />
          <Assumed assumed={assessment.assumed} />
          <Cautions cautions={assessment.cautions} notJudged={assessment.not_judged} />
        </div>
      </fieldset>
      <Photos view={view} />
      <NextReadings visit={visit} next={assessment.next} />
      {catalogue.value && <NotLookedAt visit={visit} view={view} known={catalogue.value} />}
      <p class="verdict-foot">{view.title}, {assessment.scope}, {assessment.procedure}</p>
    </>
  );
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** The verdict and its reasons. */
function Answer({ assessment, judging }: { assessment: Assessment; judging: boolean }) {
  const [first, second, ...more] = assessment.reasons;
  return (
    <section class="verdict-answer" aria-labelledby="verdict-word" aria-live="polite">
      <h2 id="verdict-word" class="verdict-word">{capital(assessment.verdict)}</h2>
      {judging && <p class="caption">The latest entries are still being weighed.</p>}
      <ul class="verdict-reasons">
        {[first, second].map((reason) => reason !== undefined && <li key={reason}>{trueMinus(reason)}</li>)}
      </ul>
      {more.length > 0 && (
        <details>
          <summary>{more.length === 1 ? "One more reason" : `${more.length} more reasons`}</summary>
          <ul class="verdict-reasons">{more.map((reason) => <li key={reason}>{trueMinus(reason)}</li>)}</ul>
        </details>
      )}
    </section>
  );
}
