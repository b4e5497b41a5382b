// The fingerboard in plan, small, over figures that are taken fret by fret: the fret in hand is the one in blue.

import type { Neck } from "../api/types";

export function NeckPlan({ neck, fret }: { neck: Neck; fret: number | undefined }) {
  const right = Math.max(...neck.edge.map((corner) => corner.x));
  const left = Math.min(...neck.edge.map((corner) => corner.x));
  const turned = neck.left ? `translate(${left + right} 0) scale(-1 1)` : undefined;
  return (
    <svg
      class="neck-plan"
      viewBox={`${left - 4} -4 ${right - left + 8} ${neck.height + 8}`}
      preserveAspectRatio="none"
      role="img"
      aria-label={fret === undefined ? "The fingerboard" : `The fingerboard, fret ${fret} in hand`}>
      <g transform={turned}>
        <polygon class="neck-board" points={neck.edge.map((corner) => `${corner.x},${corner.y}`).join(" ")} />
        {neck.frets.map((line) => (
          <line
            key={line.fret}
            class={line.fret === fret ? "fret-in-hand" : line.fret === 0 ? "neck-nut" : "line-fret"}
            x1={line.x1}
            y1={line.y1}
            x2={line.x2}
            y2={line.y2}
          />
        ))}
      </g>
    </svg>
  );
}
