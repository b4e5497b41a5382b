import type { Assumption, NextReading } from "../api/types";
import { href } from "../route";
import type { OpenVisit } from "../visit_state";

/** What would tell most, first. */
export function NextReadings({ visit, next }: { visit: OpenVisit; next: readonly NextReading[] }) {
  if (next.length === 0) return null;
  return (
    <section class="verdict-part" aria-labelledby="verdict-next">
      <h2 id="verdict-next">Next readings</h2>
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
    </section>
  );
}

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
