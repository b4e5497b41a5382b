import type { Answer, Change, Place } from "../api/types";
import { describePlace } from "../visit/places";
import { figureIn, intervalOf, marksOn, scaleOver, signedIn, uncertaintyOf, type Scale } from "./change_scale";

// Before and after, place by place: an open bracket each, on one line; below, the mean change against no change.

// A row is a line of words above a line of the drawing, so that any name of a place fits on the narrowest screen.
const width = 300;
const left = 8;
const right = 292;
const row = 46;

export function Changes({ changes, answers }: { changes: readonly Change[]; answers: readonly Answer[] }) {
  if (changes.length === 0) return null;
  const moved = changes.filter((change) => change.real);
  const still = changes.filter((change) => !change.real);
  return (
    <section class="verdict-part verdict-changes" aria-labelledby="verdict-changes">
      <h2 id="verdict-changes">Before and after</h2>
      {moved.length > 0 && (
        <p class="caption">Light stroke before, heavy after. A bracket holds the true value 95 times in 100.</p>
      )}
      <div class="change-figures">
        {moved.map((change) => <ChangeFigure key={change.title} change={change} answers={answers} />)}
      </div>
      {still.length > 0 && (
        <>
          <h3>No change that these tools can see</h3>
          <ul class="change-still">{still.map((change) => <li key={change.title}><b>{change.title}</b> {change.text}</li>)}</ul>
        </>
      )}
    </section>
  );
}

function ChangeFigure({ change, answers }: { change: Change; answers: readonly Answer[] }) {
  const u = (at: Place, value: number): number => 2 * (uncertaintyOf(answers, change.title, at, value) ?? 0);
  const scale = scaleOver(change.pairs.flatMap(({ at, before, after }) =>
    [before, after].flatMap((value) => [value - u(at, value), value + u(at, value)])));
  const interval = intervalOf(change);
  const axis = 8 + change.pairs.length * row;
  const height = axis + 26 + (interval ? 84 : 0);
  return (
    <figure class="change-figure">
      <figcaption><b>{change.title}</b>, {change.unit}: {change.text}</figcaption>
      <svg viewBox={`0 0 ${width} ${height}`} role="img"
           aria-label={`${change.title}, before and after at ${change.pairs.length} places; the figures stand in the table`}>
        {change.pairs.map((pair, nth) => <Pair key={JSON.stringify(pair.at)} change={change} pair={pair} scale={scale} answers={answers} y={16 + nth * row} />)}
        <Axis scale={scale} y={axis} />
        {interval && <Mean change={change} interval={interval} y={axis + 50} />}
      </svg>
      <table class="unseen">
        <caption>{change.title}, {change.unit}</caption>
        <thead><tr><th scope="col">Place</th><th scope="col">Before</th><th scope="col">After</th></tr></thead>
        <tbody>
          {change.pairs.map((pair) => (
            <tr key={JSON.stringify(pair.at)}>
              <th scope="row">{describePlace(pair.at)}</th>
              <td>{figureIn(pair.before, change.unit)}</td><td>{figureIn(pair.after, change.unit)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </figure>
  );
}

function Pair({ change, pair, scale, answers, y }: {
  change: Change; pair: Change["pairs"][number]; scale: Scale; answers: readonly Answer[]; y: number;
}) {
  const line = y + 16;
  const u = (value: number) => uncertaintyOf(answers, change.title, pair.at, value);
  return (
    <g>
      <text x={0} y={y}>{shortPlace(describePlace(pair.at), change.title)}</text>
      <text class="change-soft" x={width} y={y} text-anchor="end">
        {figureIn(pair.before, change.unit)} to <tspan class="change-strong">{figureIn(pair.after, change.unit)}</tspan>
      </text>
      <path class="change-hair" d={`M${left} ${line}H${right}`} />
      <path class="change-way" d={`M${xOf(scale, pair.before)} ${line}H${xOf(scale, pair.after)}`} />
      <Bracket scale={scale} value={pair.before} y={line} u={u(pair.before)} />
      <Bracket scale={scale} value={pair.after} y={line} u={u(pair.after)} after />
    </g>
  );
}

const xOf = (scale: Scale, value: number): number => Math.round((left + scale.at(value) * (right - left)) * 10) / 10;

/** What the heading says already is not said in every row. */
function shortPlace(place: string, title: string): string {
  const parts = place.split(", ").filter((part) => !title.includes(part));
  return parts.length > 0 ? parts.join(", ") : place;
}

/** An open bracket as long as the 95 % interval; a plain oblique stroke where the uncertainty is not known here. */
function Bracket({ scale, value, y, u, after }: { scale: Scale; value: number; y: number; u: number | undefined; after?: boolean }) {
  const x = xOf(scale, value);
  const name = after ? "change-after" : "change-before";
  const stroke = `M${x - 4} ${y + 7}L${x + 4} ${y - 7}`;
  if (u === undefined || u <= 0) return <path class={name} d={stroke} />;
  const a = xOf(scale, value - 2 * u);
  const b = xOf(scale, value + 2 * u);
  // Shorter than its own ends: the stroke alone tells the place, a bracket would tell nothing.
  return b - a < 6 ? <path class={name} d={stroke} /> : <path class={name} d={`${stroke}M${a} ${y - 6}V${y + 6}M${b} ${y - 6}V${y + 6}M${a} ${y}H${b}`} />;
}

function Axis({ scale, y }: { scale: Scale; y: number }) {
  const marks = marksOn(scale);
  const places = marks.length > 1 ? Math.max(0, -Math.floor(Math.log10((marks[1] ?? 1) - (marks[0] ?? 0)) + 1e-9)) : 1;
  return (
    <g>
      <path class="change-hair" d={`M${left} ${y}H${right}`} />
      {marks.map((mark) => (
        <g key={mark}>
          <path class="change-edge" d={`M${xOf(scale, mark)} ${y}v6`} />
          <text class="change-soft" x={xOf(scale, mark)} y={y + 22} text-anchor="middle">
            {(Math.abs(mark) < 1e-9 ? 0 : mark).toFixed(places).replace("-", "\u2212")}
          </text>
        </g>
      ))}
    </g>
  );
}

function Mean({ change, interval, y }: { change: Change; interval: [number, number]; y: number }) {
  const scale = scaleOver([0, change.mean, ...interval]);
  const [a, b] = [xOf(scale, interval[0]), xOf(scale, interval[1])];
  const x = xOf(scale, change.mean);
  const zero = xOf(scale, 0);
  return (
    <g>
      <text x={0} y={y}>mean change</text>
      <text class="change-soft" x={width} y={y} text-anchor="end">
        <tspan class="change-strong">{signedIn(change.mean, change.unit)}</tspan>, {signedIn(interval[0], change.unit)} to {signedIn(interval[1], change.unit)}
      </text>
      <path class="change-hair" d={`M${left} ${y + 22}H${right}`} />
      <path class="change-station" d={`M${zero} ${y + 8}V${y + 36}`} />
      <path class="change-after" d={`M${a} ${y + 15}v14M${b} ${y + 15}v14M${a} ${y + 22}H${b}M${x - 4} ${y + 29}L${x + 4} ${y + 15}`} />
      <text class="change-soft" x={Math.min(Math.max(zero, left + 28), right - 28)} y={y + 54} text-anchor="middle">no change</text>
    </g>
  );
}
