import type { VisitLine } from "../api/types";
import { ScaleRule } from "../look/parts";

/** One visit, one line; the whole line is the target. */
export function VisitRow({ visit }: { visit: VisitLine }) {
  const begun = visit.readings > 0;
  const name = [visit.title, visit.serial].filter((text) => text !== "").join(", ");
  return (
    <li>
      <a class="visit-row" href={`/visits/${visit.id}`}>
        <b class="name">
          {name}
          {visit.demo && <small> demo</small>}
        </b>
        <span class="player">{visit.player === "" ? <small>no player named</small> : visit.player}</span>
        <span class="scope">{visit.scope}</span>
        <span class="minutes">
          <ScaleRule total={visit.minutes_total} left={visit.minutes_left} small />
        </span>
        <span class="left">{`${Math.round(visit.minutes_left)} min left`}</span>
        <b class="verdict">{begun ? visit.verdict : "not begun"}</b>
        <span class="next">{visit.closed !== undefined ? "closed" : visit.next}</span>
      </a>
    </li>
  );
}
