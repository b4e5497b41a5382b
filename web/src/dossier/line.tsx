import { dayWords, trueMinus } from "../look/words";
import { figureIn, marksOn, scaleOver } from "../verdict/change_scale";
import { pointsOf, type DayPoint, type Row } from "./series";

// One row over time: days to scale along the bottom, an open bracket as long as the 95 % interval at each reading.

const width = 300;
const left = 46;
const right = 296;
const top = 16;
const bottom = 150;

export function RowOverTime({ row, today }: { row: Row; today: string }) {
  const { points, left: leftOut } = pointsOf(row);
  const title = row.at === "" ? row.what : `${row.what}, ${row.at}`;
  if (points.length === 0) return <p>{title}: words only, nothing to draw.</p>;
  const unit = points[0]?.unit ?? "";
  const ends = points.flatMap((point) => [point.value - 2 * (point.u ?? 0), point.value + 2 * (point.u ?? 0)]);
  const scale = scaleOver(ends);
  const span = Math.max(1, points.at(-1)?.after ?? 1);
  // A single day stands in the middle; more of them keep room at both ends for their words.
  const share = (point: DayPoint): number => (points.at(-1)?.after === 0 ? 0.5 : point.after / span);
  const x = (point: DayPoint): number => Math.round((left + 26 + share(point) * (right - left - 52)) * 10) / 10;
  const y = (value: number): number => Math.round((bottom - scale.at(value) * (bottom - top)) * 10) / 10;
  return (
    <figure class="over-time">
      <figcaption><b>{title}</b>{unit !== "" && `, ${unit}`}</figcaption>
      <svg viewBox={`0 0 ${width} ${bottom + 32}`} role="img" aria-label={spoken(title, points, today)}>
        {marksOn(scale).map((mark) => (
          <g key={mark}>
            <path class="change-hair" d={`M${left} ${y(mark)}H${right}`} />
            <text class="change-soft" x={left - 8} y={y(mark) + 5} text-anchor="end">{trueMinus(String(mark))}</text>
          </g>
        ))}
        <path class="change-edge" d={`M${left} ${bottom}H${right}`} />
        <path class="over-time-line" d={points.map((point, nth) => `${nth === 0 ? "M" : "L"}${x(point)} ${y(point.value)}`).join("")} />
        {points.map((point, nth) => <Reading key={nth} point={point} x={x(point)} y={y} />)}
        <Days points={points} x={x} today={today} />
      </svg>
      {leftOut > 0 && <p class="caption">{leftOut === 1 ? "One value is" : `${leftOut} values are`} in words or another unit and not drawn.</p>}
    </figure>
  );
}

function Reading({ point, x, y }: { point: DayPoint; x: number; y: (value: number) => number }) {
  const middle = y(point.value);
  const stroke = `M${x - 4} ${middle + 6}L${x + 4} ${middle - 6}`;
  const u = point.u ?? 0;
  const low = y(point.value - 2 * u);
  const high = y(point.value + 2 * u);
  const bracket = low - high < 5 ? "" : `M${x - 6} ${low}H${x + 6}M${x - 6} ${high}H${x + 6}M${x} ${low}V${high}`;
  return <path class={point.stage === "before" || point.stage === "arrival" ? "change-before" : "change-after"} d={stroke + bracket} />;
}

/** Half of what a letter takes up at most, in units of the drawing. */
const lettersWide = 3.8;

/** A stroke at each day; its words only where they do not run into the last ones. */
function Days({ points, x, today }: { points: readonly DayPoint[]; x: (point: DayPoint) => number; today: string }) {
  let free = -Infinity;
  return (
    <g>
      {points.filter((point, nth) => points.findIndex((one) => one.day === point.day) === nth).map((point) => {
        const at = x(point);
        const says = dayWords(point.day, today).replace(/^\w+ /, "");
        const half = says.length * lettersWide;
        const room = at - half >= free;
        if (room) free = at + half + 6;
        return (
          <g key={point.day}>
            <path class="change-edge" d={`M${at - 4} ${bottom + 4}L${at + 4} ${bottom - 4}`} />
            {room && <text x={Math.min(at, width - half)} y={bottom + 24} text-anchor="middle">{says}</text>}
          </g>
        );
      })}
    </g>
  );
}

function spoken(title: string, points: readonly DayPoint[], today: string): string {
  const each = points.map((point) => `${dayWords(point.day, today)} ${figureIn(point.value, point.unit)}`);
  return `${title} over time: ${each.join(", ")}`;
}
