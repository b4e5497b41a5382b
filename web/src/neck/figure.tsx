// One figure and the line it stands on. The line says how sure it is; colour only repeats it.

import type { ComponentChildren } from "preact";
import { trueMinus } from "../look/words";
import type { Cell } from "../visit/figures";
import "./figure.css";

export interface Refused {
  typed: string;
  says: string;
}

interface Props {
  cell: Cell;
  active?: boolean;
  draft?: string; // what is being typed here
  landing?: boolean; // part of a row that is being typed: falls here with Enter
  refused?: Refused | undefined;
  onPick?: () => void;
  limits?: boolean; // beside each figure its limit: the row is done
  unitShown?: string; // the unit of the group, written once; another one stands beside the figure
  id?: string;
}

export function FigureCell({
  cell,
  active = false,
  draft = "",
  landing = false,
  refused,
  onPick,
  unitShown = "",
  limits = false,
  id,
}: Props) {
  const kind = refused ? "refused" : (active || landing) && draft !== "" ? "typing" : cell.state;
  const classes = ["figure", `figure-${kind}`];
  if (active) classes.push("figure-active");
  if (cell.outside && !refused && kind !== "typing") classes.push("figure-outside");
  if (isWord(cell)) classes.push("figure-word");
  return (
    <button
      type="button"
      id={id}
      class={classes.join(" ")}
      onClick={onPick}
      aria-current={active ? "true" : undefined}
      aria-label={refused ? `${refused.typed} refused: ${refused.says}` : cell.says}
      tabIndex={active ? 0 : -1}>
      <Body cell={cell} kind={kind} draft={draft} refused={refused} active={active} unitShown={unitShown} limits={limits} />
      {!active && <Rule kind={kind} />}
    </button>
  );
}

const isWord = (cell: Cell) => cell.figure !== "" && !/\d/.test(cell.figure);

function Body({
  cell,
  kind,
  draft,
  refused,
  active,
  unitShown,
  limits,
}: {
  cell: Cell;
  kind: string;
  draft: string;
  refused: Refused | undefined;
  active: boolean;
  unitShown: string;
  limits: boolean;
}) {
  if (refused) return <Pair figure={<s>{refused.typed}</s>} beside={active ? "" : "refused"} />;
  if (kind === "typing")
    return (
      <Pair
        figure={
          <>
            {draft}
            {active && <i class="caret" />}
          </>
        }
        beside={before(cell)}
      />
    );
  if (active && (kind === "blank" || kind === "assumed"))
    return <Pair figure={<i class="caret" />} beside={before(cell)} />;
  if (kind === "two") return <TwoSay cell={cell} />;
  if (kind === "blank")
    return (
      <>
        <i class="corner" />
        <i class="corner" />
        <i class="corner" />
        <i class="corner" />
      </>
    );
  const unit = cell.unit !== unitShown && cell.unit !== "" ? ` ${cell.unit}` : "";
  const shown = kind === "assumed" ? `[${cell.figure}${unit}]` : `${cell.figure}${unit}`;
  return (
    <Pair
      figure={
        <>
          {fraction(trueMinus(shown))}
          {active && <i class="caret" />}
        </>
      }
      beside={besides(cell, kind, limits)}
    />
  );
}

/** "1.70 ±0.05", or what else must be known of it: the limit it breaks first. */
function besides(cell: Cell, kind: string, limits: boolean): string {
  if (kind === "assumed") return cell.reason;
  if (cell.repeats > 1 && !limits) return `mean of ${cell.repeats}`;
  if ((cell.outside || (limits && kind === "measured")) && cell.limit) return cell.limit.replace(/ mm$/, "").replace(/^up to /, "to ");
  if (kind === "accepted") return cell.reason.replace(/^accepted by ([^,:]+).*$/, "$1");
  if (kind === "stale") return "stale";
  if (cell.beside) return cell.beside;
  return cell.u;
}

const before = (cell: Cell) => {
  const now = cell.state === "blank" || cell.state === "assumed" ? "" : `was ${cell.figure}`;
  return now || (cell.last ? `${cell.stage || "last"} ${cell.last}` : "");
};

function fraction(text: string): ComponentChildren {
  return /\d\/\d/.test(text) ? <span class="frac">{text}</span> : text;
}

function Pair({ figure, beside }: { figure: ComponentChildren; beside: string }) {
  return (
    <>
      <b class="figure-number">{figure}</b>
      <small class="figure-beside">{beside}</small>
    </>
  );
}

function TwoSay({ cell }: { cell: Cell }) {
  return (
    <span class="figure-two">
      {cell.two.map((one) => (
        <b key={one.id}>{one.figure}</b>
      ))}
    </span>
  );
}

function Rule({ kind }: { kind: string }) {
  if (kind === "blank" || kind === "typing") return null;
  if (kind === "stale")
    return (
      <span class="rule rule-stale" aria-hidden="true">
        <i />
        <svg width="14" height="10">
          <path d="M2 9 6 1M8 9l4-8" />
        </svg>
        <i />
      </span>
    );
  return <span class={`rule rule-${kind}`} aria-hidden="true" />;
}
