// The survey sheet, drawn. One place to stand on: touch or arrow keys choose a fret and a string.

import type { Survey } from "../api/types";
import type { PlanLayout, PlanLine, Point } from "./plan";
import { signedMm } from "./told";

export interface Chosen {
  fret: number;
  string: number;
}

interface Props {
  layout: PlanLayout;
  survey: Survey;
  chosen: Chosen;
  says: string; // of the chosen place, for a screen reader
  fretted: boolean;
  onChoose: (to: Chosen) => void;
}

const pathOf = (points: readonly Point[]) => `M${points.map(([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`).join("L")}`;

export function PlanDrawing({ layout, survey, chosen, says, fretted, onChoose }: Props) {
  const choose = (event: MouseEvent & { currentTarget: Element }) => {
    const box = event.currentTarget.getBoundingClientRect();
    const scale = layout.width / box.width;
    onChoose(layout.nearest([(event.clientX - box.left) * scale, (event.clientY - box.top) * scale]));
  };
  return (
    <div
      class="survey-plan"
      role="application"
      aria-roledescription="survey sheet"
      aria-label={`Fret tops from above. Arrow keys choose a fret and a string. ${says}`}
      tabIndex={0}>
      <svg width={layout.width} height={layout.height} viewBox={`0 0 ${layout.width} ${layout.height}`} aria-hidden="true" onClick={choose}>
        <path class="survey-board" d={`${pathOf(layout.board)}Z`} />
        <Grid layout={layout} fretted={fretted} />
        {layout.lines.map((line, i) => (
          <Line key={i} line={line} unread={survey.readings === 0} />
        ))}
        <Cut layout={layout} chosen={chosen} />
        {layout.heights.map((one, i) => (
          <g key={i}>
            <rect class="survey-ground" x={one.x - one.width / 2} y={one.y - 10} width={one.width} height={20} />
            <text class={one.zero ? "survey-strong" : ""} x={one.x} y={one.y + 5} text-anchor="middle">
              {one.text}
            </text>
          </g>
        ))}
        <Chain layout={layout} chosen={chosen} />
      </svg>
    </div>
  );
}

function Grid({ layout, fretted }: { layout: PlanLayout; fretted: boolean }) {
  return (
    <g>
      {layout.strings.map(({ string, name, thick: _, ...ends }) => (
        <g key={string}>
          <line class="survey-string" {...ends} />
          <text class="survey-name" x={layout.names.x} y={ends.y1 + 5} text-anchor={layout.names.anchor}>
            <tspan class="survey-strong">{string}</tspan> {name}
          </text>
        </g>
      ))}
      {layout.frets.map(({ fret, ...ends }) => (
        <line key={fret} class={fret === 0 ? "survey-nut" : fretted ? "survey-fret" : "survey-fret survey-mark"} {...ends} />
      ))}
      {layout.numbers.map(({ fret, x }) => (
        <text key={fret} class={fret % 12 === 0 ? "survey-strong" : "survey-soft"} x={x} y={layout.numbersY} text-anchor="middle">
          {fret}
        </text>
      ))}
    </g>
  );
}

function Line({ line, unread }: { line: PlanLine; unread: boolean }) {
  const names = ["survey-line", line.zero && "survey-zero", (!line.sure || unread) && "survey-unsure"].filter(Boolean);
  return (
    <g>
      <path class={names.join(" ")} d={pathOf(line.points)} />
      {line.ticks.map((one, i) => (
        <line key={i} class="survey-tick" {...one} />
      ))}
    </g>
  );
}

/** The section's line with its letter at both ends; the strokes point the way it is seen, towards the head. */
function Cut({ layout, chosen }: { layout: PlanLayout; chosen: Chosen }) {
  const fret = layout.frets[chosen.fret];
  const string = layout.strings[chosen.string - 1];
  const [x, y] = layout.at(chosen.fret, chosen.string);
  if (!fret || !string) return null;
  const way = layout.left ? 1 : -1;
  const { top, bottom } = layout.cut;
  const mark = (at: number, px: number, inward: number) => (
    <g>
      <path class="survey-cut" d={`M${px} ${at + 14 * inward}V${at}h${16 * way}`} />
      <path class="survey-cut" d={`M${px + 11 * way} ${at - 4}l${6 * way} 4l${-6 * way} 4`} />
      <text class="survey-letter" x={px - 8 * way} y={at + 5 + 2 * inward} text-anchor={way < 0 ? "start" : "end"}>
        A
      </text>
    </g>
  );
  return (
    <g>
      <line class="survey-chosen" x1={string.x1} y1={string.y1} x2={string.x2} y2={string.y2} />
      <line class="survey-station" x1={fret.x1} y1={top + 14} x2={fret.x1} y2={fret.y1} />
      <line class="survey-station" x1={fret.x1} y1={fret.y1} x2={fret.x2} y2={fret.y2} />
      <line class="survey-station" x1={fret.x2} y1={fret.y2} x2={fret.x2} y2={bottom - 14} />
      {mark(top, fret.x1, 1)}
      {mark(bottom, fret.x2, -1)}
      <rect class="survey-here" x={x - 7} y={y - 7} width={14} height={14} />
    </g>
  );
}

function Chain({ layout, chosen }: { layout: PlanLayout; chosen: Chosen }) {
  const { y, from, to, marks } = layout.chain;
  return (
    <g>
      <line class="survey-hair" x1={from} x2={to} y1={y} y2={y} />
      {marks.map(({ fret, x, says }) => (
        <g key={fret}>
          <line class={fret === chosen.fret ? "survey-cut" : "survey-stroke"} x1={x - 5} y1={y + 6} x2={x + 5} y2={y - 6} />
          {says && (
            <text class="survey-soft" x={x} y={y + 25} text-anchor="middle">
              {says}
            </text>
          )}
        </g>
      ))}
    </g>
  );
}

/** The same as a table. */
export function PlanTwin({ survey }: { survey: Survey }) {
  return (
    <div class="unseen">
      <table>
        <caption>Height of the fret tops over the shape that is wanted</caption>
        <thead>
          <tr>
            <th scope="col">Fret</th>
            <th scope="col">In the middle</th>
            <th scope="col">Under string 1 to the last, mm</th>
          </tr>
        </thead>
        <tbody>
          {survey.crowns.map((crown) => (
            <tr key={crown.fret}>
              <th scope="row">{crown.fret}</th>
              <td>
                {crown.assumed && "assumed "}
                {crown.off.text}
              </td>
              <td>{crown.off_mm.map((one) => signedMm(one)).join(", ")}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
