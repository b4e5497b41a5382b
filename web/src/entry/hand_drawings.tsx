// Our own small drawings of what the hand feels or the ear hears: one for each word of the observables that have words.
// 108 by 44 units; strings, crowns and parts as in the figures of the neck.

import type { ComponentChildren } from "preact";

const crown = (x: number, y: number, r = 13) => (
  <path class="d-edge" d={`M${x - r} ${y}a${r} ${r * 0.95} 0 0 1 ${2 * r} 0`} />
);
const base = (y: number) => <line class="d-edge" x1="6" y1={y} x2="102" y2={y} />;
const string = (y1: number, y2 = y1) => <line class="d-string" x1="6" y1={y1} x2="102" y2={y2} />;
const dash = (y1: number, y2 = y1) => <line class="d-dash" x1="6" y1={y1} x2="102" y2={y2} />;
const edge = (d: string) => <path class="d-edge" d={d} />;
const heavy = (d: string) => <path class="d-string" d={d} />;
const gapMark = (x: number, top: number, bottom: number) => (
  <path class="d-fine" d={`M${x} ${top}V${bottom}M${x - 4} ${top + 4}l8-8M${x - 4} ${bottom + 4}l8-8`} />
);

/** A note along its string, as on the ring map, larger. */
const note = (what: ComponentChildren) => (
  <g>
    <path class="d-fine" d="M12 30l8-16" />
    {what}
  </g>
);

const drawings: Record<string, ComponentChildren> = {
  "nut tap/dead": (
    <g>
      {base(34)}
      {crown(54, 34)}
      {heavy("M6 18Q54 24 102 18")}
    </g>
  ),
  "nut tap/just moves": (
    <g>
      {base(34)}
      {crown(54, 34)}
      {string(16)}
      {dash(20.5)}
    </g>
  ),
  "nut tap/clear gap": (
    <g>
      {base(36)}
      {crown(54, 36)}
      {string(8)}
      {gapMark(54, 10, 23)}
    </g>
  ),

  "nut wire/loose": (
    <g>
      {base(38)}
      {edge("M8 38V8H24V38")}
      {crown(42, 38)}
      {string(14)}
      {gapMark(42, 16, 26)}
    </g>
  ),
  "nut wire/held and rings": (
    <g>
      {base(38)}
      {edge("M8 38V16H24V38")}
      {crown(42, 38)}
      {string(25)}
    </g>
  ),
  "nut wire/string lifts": (
    <g>
      {base(38)}
      {edge("M8 38V28H24V38")}
      {crown(42, 38)}
      {heavy("M6 28L30 27 42 25 102 22")}
      {dash(29, 26)}
    </g>
  ),
  "nut wire/rattles": (
    <g>
      {base(38)}
      {edge("M8 38V16H24V38")}
      {crown(42, 38)}
      {heavy("M42 25L56 20 66 28 76 20 86 28 102 24")}
      {heavy("M6 25H42")}
    </g>
  ),

  "rocker/no click": (
    <g>
      {base(40)}
      {crown(22, 40, 9)}
      {crown(54, 40, 9)}
      {crown(86, 40, 9)}
      {edge("M12 20H96V30.8H12Z")}
    </g>
  ),
  "rocker/click": (
    <g>
      {base(40)}
      {crown(22, 40, 9)}
      <path class="d-edge" d="M45 40a9 13 0 0 1 18 0" />
      {crown(86, 40, 9)}
      {edge("M11 22L95 12 96.400 22.500 12.300 32Z")}
      {<path class="d-fine" d="M8 14a50 50 0 0 1 0 22M2 17a40 40 0 0 1 0 16" />}
    </g>
  ),

  "fret end/clean": (
    <g>
      {base(34)}
      {heavy("M8 14H100")}
      <path class="d-edge" d="M54 34V24Q54 20 50 20H12" />
    </g>
  ),
  "fret end/cloth marks": (
    <g>
      {base(34)}
      {heavy("M8 16H48L54 13 60 16H100")}
      <path class="d-edge" d="M54 34V20H12" />
    </g>
  ),
  "fret end/catches": (
    <g>
      {base(34)}
      {heavy("M8 16H46Q54 4 62 16H100")}
      <path class="d-edge" d="M58 34V20H12M54 34V24" />
    </g>
  ),
  "fret end/tears": (
    <g>
      {base(34)}
      {heavy("M8 16H46L52 8")}
      {heavy("M66 16H100M66 16l-3-7M71 16l-2-6")}
      <path class="d-edge" d="M62 34V20H12M54 34V24" />
    </g>
  ),

  "neck joint/firm": (
    <g>
      {edge("M6 14H70V24H6")}
      {edge("M44 24V38H102V8H76V24H44")}
    </g>
  ),
  "neck joint/moves": (
    <g>
      {edge("M6 11L70 14V24L6 21")}
      {<path class="d-dash" d="M6 17L70 14" />}
      {edge("M44 24V38H102V8H76V24H44")}
      {<path class="d-fine" d="M12 4v6M9 7l3 4 3-4M12 34v-8" />}
    </g>
  ),

  "pole alignment/centred": (
    <g>
      <circle class="d-edge" cx="30" cy="22" r="10" />
      <circle class="d-edge" cx="78" cy="22" r="10" />
      {string(22)}
    </g>
  ),
  "pole alignment/a little off": (
    <g>
      <circle class="d-edge" cx="30" cy="22" r="10" />
      <circle class="d-edge" cx="78" cy="22" r="10" />
      {string(27)}
    </g>
  ),
  "pole alignment/off": (
    <g>
      <circle class="d-edge" cx="30" cy="22" r="10" />
      <circle class="d-edge" cx="78" cy="22" r="10" />
      {string(36)}
    </g>
  ),

  "switch sound/works as claimed": (
    <g>
      {heavy("M6 22H40L70 10")}
      <circle class="d-edge" cx="40" cy="22" r="3" />
      <circle class="d-edge" cx="72" cy="9" r="3" />
      {heavy("M75 9H102")}
    </g>
  ),
  "switch sound/works otherwise": (
    <g>
      {heavy("M6 22H40L70 34")}
      <circle class="d-edge" cx="40" cy="22" r="3" />
      <circle class="d-edge" cx="72" cy="9" r="3" />
      <circle class="d-edge" cx="72" cy="35" r="3" />
      {heavy("M75 35H102")}
      {<path class="d-dash" d="M43 21L69 11M75 9H102" />}
    </g>
  ),
  "switch sound/weak": (
    <g>
      {heavy("M6 22H40L70 10")}
      <circle class="d-edge" cx="40" cy="22" r="3" />
      <circle class="d-edge" cx="72" cy="9" r="3" />
      <path class="d-fine" d="M75 9H102" />
    </g>
  ),
  "switch sound/dead": (
    <g>
      {heavy("M6 22H40L64 22")}
      <circle class="d-edge" cx="40" cy="22" r="3" />
      <circle class="d-edge" cx="72" cy="9" r="3" />
      <path class="d-dash" d="M75 9H102" />
    </g>
  ),

  "note/rings": note(heavy("M20 22H98")),
  "note/rattles when struck hard": note(heavy("M20 22H54M64 22H98")),
  "note/buzzes": note(heavy("M20 22l6-8 8 16 8-16 8 16 8-16 8 16 6-8")),
  "note/chokes": note(heavy("M20 22H52M30 14L42 30M42 14L30 30")),
  "dead spot/none": note(heavy("M20 22H98")),
  "dead spot/dead spot": note(
    <g>
      {heavy("M20 16H56")}
      <path class="d-edge" d="M20 28L60 34 20 40" />
    </g>,
  ),
};

export function HandDrawing({ observable, word }: { observable: string; word: string }) {
  const drawn = drawings[`${observable}/${word}`];
  if (!drawn) return null;
  return (
    <svg class="hand-drawing" viewBox="0 0 108 44" aria-hidden="true">
      {drawn}
    </svg>
  );
}
