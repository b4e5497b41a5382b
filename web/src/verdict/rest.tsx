import type { Assumption, Catalogue, NextReading } from "../api/types";
import { counted } from "../look/words";
import { href } from "../route";
import { sheetSections } from "../visit/catalogue";
import { answeredWords, countOf, leftWords } from "../visit/count";
import { barred } from "../visit/order";
import type { OpenVisit, ShownVisit } from "../visit_state";

const shownNext = 5;

/** What would tell most, first; a few, the rest folded. */
export function NextReadings({ visit, next }: { visit: OpenVisit; next: readonly NextReading[] }) {
  if (next.length === 0) return null;
  const rest = next.slice(shownNext);
  return (
    <section class="verdict-part" aria-labelledby="verdict-next">
      <h2 id="verdict-next">What to read next</h2>
      <NextList visit={visit} next={next.slice(0, shownNext)} />
      {rest.length > 0 && (
        <details class="verdict-fold next-rest">
          <summary>{counted(rest.length, "more reading", "more readings")}</summary>
          <NextList visit={visit} next={rest} />
        </details>
      )}
    </section>
  );
}

function NextList({ visit, next }: { visit: OpenVisit; next: readonly NextReading[] }) {
  return (
    <ol class="next-list">
      {next.map((one) => (
        <li key={one.checkpoint + one.what}>
          <a href={href({ page: "visit", id: visit.id, checkpoint: one.checkpoint })}>
            <b>{one.what}</b> <span class="next-minutes">{minuteWords(one.minutes)}</span>
            <span class="next-why">{one.why}{one.needs.length > 0 && `; needs ${one.needs.join(", ")}`}</span>
          </a>
        </li>
      ))}
    </ol>
  );
}

/** What the verdict does not rest on, counted as on the sheet: of the scope, and besides. */
export function NotLookedAt({ visit, view, known }: { visit: OpenVisit; view: ShownVisit; known: Catalogue }) {
  const count = countOf(view, known);
  const open = sheetSections(known, view, true).flatMap((section) =>
    section.checkpoints.filter((one) => !one.done).map((one) => ({ ...one, section: section.title })));
  const parts = [
    { says: "Of the scope", lines: open.filter((one) => one.in_scope) },
    { says: "Outside the scope", lines: open.filter((one) => !one.in_scope) },
  ].filter((part) => part.lines.length > 0);
  return (
    <section class="verdict-part" aria-labelledby="verdict-not-looked">
      <h2 id="verdict-not-looked">Not looked at</h2>
      <p>{capital(view.assessment.scope)}: {answeredWords(count)}, {leftWords(count)}.</p>
      {parts.map(({ says, lines }) => (
        <details key={says} class="verdict-fold">
          <summary>{says}: {counted(lines.length, "checkpoint", "checkpoints")}</summary>
          <h3 class="print-only">{says}</h3>
          <ul class="verdict-reasons">
            {[...new Set(lines.map((one) => one.section))].map((section) => (
              <li key={section}>
                <b>{section}</b>{" "}
                {lines.filter((one) => one.section === section).map((one, nth) => {
                  const why = barred(view, known, one.id);
                  return (
                    <span key={one.id}>
                      {nth > 0 && "; "}
                      <a href={href({ page: "visit", id: visit.id, checkpoint: one.id })}>{one.title}</a>
                      {why !== "" && ` (not allowed, ${why})`}
                    </span>
                  );
                })}
              </li>
            ))}
          </ul>
        </details>
      ))}
    </section>
  );
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

export const minuteWords = (minutes: number): string => (minutes < 1 ? "under 1 min" : `${Math.round(minutes)} min`);

/** Assumptions with one and the same ground stand under it once. */
export function Assumed({ assumed }: { assumed: readonly Assumption[] }) {
  if (assumed.length === 0) return null;
  const grounds = [...new Set(assumed.map((one) => one.because))];
  return (
    <section class="verdict-part" aria-labelledby="verdict-assumed">
      <h2 id="verdict-assumed">Assumed, not measured</h2>
      {grounds.map((because) => (
        <div key={because}>
          <ul class="assumed-list">
            {assumed.filter((one) => one.because === because).map((one) => (
              <li key={one.what}>
                {one.what} <span class="assumed">[{one.text}]</span>
                {one.observable && <small> yields to a reading: {one.observable}</small>}
              </li>
            ))}
          </ul>
          <p class="caption">{because}</p>
        </div>
      ))}
    </section>
  );
}

export function Cautions({ cautions, notJudged }: { cautions: readonly string[]; notJudged: readonly string[] }) {
  return (
    <>
      {cautions.length > 0 && (
        <section class="verdict-part" aria-labelledby="verdict-cautions">
          <h2 id="verdict-cautions">Take care</h2>
          <ul class="caution-list">{cautions.map((line) => <li key={line}>{line}</li>)}</ul>
        </section>
      )}
      {notJudged.length > 0 && (
        <section class="verdict-part" aria-labelledby="verdict-not-judged">
          <h2 id="verdict-not-judged">Not judged</h2>
          <ul class="caution-list">{notJudged.map((line) => <li key={line}>{line}</li>)}</ul>
        </section>
      )}
    </>
  );
}
