// The two sections, drawn: across at the chosen fret, along the chosen string.

import type { Survey } from "../api/types";
import { useWidth, textScale } from "../visit/size";
import type { Chosen } from "./plan_drawing";
import { acrossAt, alongString, type Along } from "./section";
import { bracketed, knownTo, plain } from "./told";

interface Props {
  survey: Survey;
  chosen: Chosen;
  left: boolean;
}

export function AcrossSection({ survey, chosen, left }: Props) {
  const { ref, width } = useWidth<HTMLDivElement>();
  const text = width > 0 ? textScale() : 1;
  const drawn = width > 0 ? acrossAt(survey, chosen.fret, width, left, text) : undefined;
  const unread = survey.readings === 0;
  const alike = drawn && new Set(drawn.strings.map((one) => knownTo(one.u))).size === 1;
  const radius = drawn ? `${Math.round(drawn.radius)} mm` : "";
  return (
    <figure class="survey-section" aria-labelledby="survey-across">
      <figcaption>
        <h2 id="survey-across">Section A at fret {chosen.fret}</h2>
        <p class="caption">
          Open strings over this fret, mm{alike && `, ${knownTo(drawn.strings[0]?.u)}`}. Seen towards the head, height drawn{" "}
          {drawn?.factor ?? 1} times. Radius{" "}
          {survey.board.radius_known ? radius : `not known, drawn as [${radius}]`}
          {survey.board.fret_height_mm > 0 && !survey.board.fret_height_known && ", wire as usual"}.
        </p>
      </figcaption>
      <div ref={ref} class="survey-measure">
        {drawn && (
          <svg width={drawn.width} height={drawn.height} viewBox={`0 0 ${drawn.width} ${drawn.height}`} aria-hidden="true">
            <defs>
              <pattern id="survey-hatch" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
                <line class="survey-hair" x1="0" x2="0" y1="0" y2="7" />
              </pattern>
            </defs>
            <path class={`survey-wood ${survey.board.radius_known ? "" : "survey-unsure"}`} d={drawn.board} />
            {drawn.fret && <path class="survey-wire" d={drawn.fret} />}
            {drawn.fret && <Cleared x={drawn.width / 2} y={drawn.fretY} says={`fret ${chosen.fret}`} text={text} />}
            <Cleared x={drawn.width / 2} y={drawn.boardY} says="board" text={text} />
            {drawn.strings.map((one) => (
              <g key={one.string} class={one.string === chosen.string ? "survey-on" : ""}>
                <line class="survey-hair" x1={one.x} x2={one.x} y1={44 * text} y2={one.y - one.r} />
                <line class="survey-hair" x1={one.x} x2={one.x} y1={one.y + one.r} y2={one.crownY} />
                <line class="survey-stroke" x1={one.x - 4} y1={one.crownY + 4} x2={one.x + 4} y2={one.crownY - 4} />
                <circle class={`survey-core ${unread ? "survey-unsure" : ""}`} cx={one.x} cy={one.y} r={one.r} />
                <text class="survey-soft" x={one.x} y={16 * text} text-anchor="middle">
                  {one.string}
                </text>
                <text class="survey-strong survey-room" x={one.x} y={35 * text} text-anchor="middle">
                  {bracketed(one.figure.toFixed(2), unread)}
                </text>
              </g>
            ))}
          </svg>
        )}
      </div>
      <AcrossTwin survey={survey} fret={chosen.fret} shown={!alike} />
    </figure>
  );
}

function Cleared({ x, y, says, text }: { x: number; y: number; says: string; text: number }) {
  const half = (says.length * 7.4 * text) / 2 + 4;
  return (
    <g>
      <rect class="survey-ground" x={x - half} y={y - 9 * text} width={2 * half} height={18 * text} />
      <text x={x} y={y + 5 * text} text-anchor="middle">
        {says}
      </text>
    </g>
  );
}

function AcrossTwin({ survey, fret, shown }: { survey: Survey; fret: number; shown: boolean | undefined }) {
  return (
    <>
      {shown && (
        <p class="caption">
          String 1 to {survey.strings.length}: {survey.strings.map((one) => bracketed(knownTo(one.open_mm_se[fret - 1]), survey.readings === 0)).join(", ")}.
        </p>
      )}
      <div class="unseen">
        <table>
          <caption>Room of the open strings over fret {fret}</caption>
          <tbody>
            {survey.strings.map((one) => (
              <tr key={one.string}>
                <th scope="row">String {one.string}</th>
                <td>{bracketed(`${plain(one.open_mm[fret - 1] ?? 0, one.open_mm_se[fret - 1] ?? 0)} mm`, survey.readings === 0)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </>
  );
}

export function AlongSection({ survey, chosen, left }: Props) {
  const { ref, width } = useWidth<HTMLDivElement>();
  const text = width > 0 ? textScale() : 1;
  const drawn = width > 0 ? alongString(survey, chosen.string, chosen.fret, width, left, text) : undefined;
  return (
    <figure class="survey-section survey-along" aria-labelledby="survey-along">
      <figcaption>
        <h2 id="survey-along">Along string {chosen.string}</h2>
        <p class="caption">
          Thin line open, heavy line held at fret {chosen.fret}. Fret tops as strokes under the line from fret 1 to the last.
          Height drawn {drawn?.factor ?? 1} times.
        </p>
      </figcaption>
      <div ref={ref} class="survey-measure">
        {drawn && (
          <AlongDrawing drawn={drawn} chosen={chosen} unread={survey.readings === 0} text={text} />
        )}
      </div>
    </figure>
  );
}

function AlongDrawing({ drawn, chosen, unread, text }: { drawn: Along; chosen: Chosen; unread: boolean; text: number }) {
  const { next } = drawn;
  const numbered = drawn.crowns.filter(({ fret }) => fret % 12 === 0 || fret === 1 || fret === chosen.fret || fret === next?.fret || fret === drawn.crowns.length);
  const apart = numbered.filter((one, i) => one.fret === chosen.fret || numbered.every((other, k) => k === i || Math.abs(other.x - one.x) > 20 * text || (other.fret !== chosen.fret && k > i)));
  const unsure = unread ? "survey-unsure" : "";
  const ends = ({ x1, y1, x2, y2 }: Along["open"]) => ({ x1, y1, x2, y2 });
  return (
    <svg width={drawn.width} height={drawn.height} viewBox={`0 0 ${drawn.width} ${drawn.height}`} aria-hidden="true">
      <line class="survey-hair" x1={drawn.crowns[0]?.x ?? 0} x2={drawn.crowns.at(-1)?.x ?? 0} y1={drawn.base} y2={drawn.base} />
      <line class="survey-nut" x1={drawn.nut} x2={drawn.nut} y1={drawn.open.y1} y2={drawn.base + 14} />
      {drawn.crowns.map((one) => (
        <line key={one.fret} class={`survey-crown ${one.fret === chosen.fret ? "survey-blue" : unread ? "survey-faint" : ""}`} x1={one.x} x2={one.x} y1={one.y} y2={one.y + 10} />
      ))}
      <line class={`survey-open ${unsure}`} {...ends(drawn.open)} />
      <line class={`survey-held ${unsure}`} {...ends(drawn.held)} />
      {next && (
        <g>
          <path class="survey-bracket" d={`M${next.x - 4} ${next.stringY - next.reach}h8M${next.x} ${next.stringY - next.reach}V${next.stringY + next.reach}M${next.x - 4} ${next.stringY + next.reach}h8`} />
        </g>
      )}
      {apart.map(({ fret, x }) => (
        <text key={fret} class={fret === chosen.fret ? "survey-letter" : "survey-soft"} x={x} y={drawn.height - 8 * text} text-anchor="middle">
          {fret}
        </text>
      ))}
    </svg>
  );
}
