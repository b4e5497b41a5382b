// Frets and how the notes ring.

import { cap, pathOf } from "../hatch";
import { Cut, Dimension, Motion, Shape, Solid, Stroke, Word, box } from "../pen";
import { Caliper, Dial, Eye, Finger, Lamp, Pick, Sound } from "../tools";
import { BoardAcross, Crown, Numbers, Plan, Slab, StringLine, planHalf, planX, type PlanShape } from "../parts";
import type { Drawing } from "./drawing";

const board: PlanShape = { nut: 24, end: 280, y: 78, nutHalf: 22, endHalf: 31, last: 22 };

const fretCount: Drawing = {
  title: "Counted twice, a zero fret not at all",
  says: "A board in plan with frets numbered from the first after the nut to the last; a zero fret beside the nut is struck out.",
  height: 150,
  draw: () => (
    <g>
      <Plan plan={board} strings={0} />
      <Stroke as="wrong" d="M28 52V104M20 44L36 112" />
      <Stroke as="look" d={[1, 5, 12, 22].map((n) => {
        const x = planX(board, n);
        return `M${x} ${78 - planHalf(board, x)}V${78 + planHalf(board, x)}`;
      }).join("")} />
      {[1, 5, 12, 22].map((n) => (
        <Word key={n} x={planX(board, n)} y={128} says={String(n)} hold="middle" tone="look" strong />
      ))}
      <Word x={10} y={32} says="zero fret: not counted" tone="wrong" />
      <Word x={288} y={32} says="last" hold="end" tone="look" strong />
    </g>
  ),
};

const fretWire: Drawing = {
  title: "Across the crown, at the wood",
  says: "A fret cut across with its tang in the board; caliper jaws close on its width just above the wood, without pressing in.",
  height: 168,
  stretched: "Drawn many times larger.",
  draw: () => (
    <g>
      <Cut corners={box(20, 112, 280, 152)} />
      <Shape d="M134 112V140H146V112Z" />
      <Stroke as="fine" d="M130 122h4M146 122h4M130 132h4M146 132h4" />
      <Shape as="outline" d="M110 112C110 76 170 76 170 112Z" />
      <Caliper x={140} y={107} open={60} jaw={62} />
      <Dimension as="look" from={[110, 70]} to={[170, 70]} />
      <Word x={140} y={64} says="width" hold="middle" tone="look" strong />
      <Word x={290} y={98} says="just touching" hold="end" tone="look" />
      <Word x={10} y={18} says="near the end of the board" tone="soft" />
      <Word x={10} y={166} says="a magnet proves no metal" tone="soft" />
    </g>
  ),
};

const fretSeat: Drawing = {
  title: "Light under the crown, then a soft stick",
  says: "A fret over the board cut across; under one end there is light, and a soft stick pressed on that end makes it move.",
  height: 158,
  stretched: "Gap drawn many times larger.",
  draw: () => {
    const lifted = cap(40, 260, 88, 16).map(([x, y]) => [x, x > 180 ? y - (x - 180) * 0.12 : y] as const);
    const top = lifted.map(([x, y]) => [x, y - 11] as const).slice(1, -1);
    return (
      <g>
        <BoardAcross from={40} to={260} y={92} rise={16} thick={30} />
        <Shape as="outline" d={pathOf([lifted[0]!, ...top, lifted[lifted.length - 1]!, ...lifted.slice(1, -1).reverse()])} />
        <Solid as="wrong" d="M190 82L258 79L260 90Z" />
        <Lamp x={269} y={91} turn={188} reach={30} />
        <Eye x={20} y={86} turn={0} />
        <Shape as="look" d="M238 70L232 26H248L244 70Z" />
        <Motion d="M262 28V54" end={[262, 58]} angle={90} />
        <Word x={224} y={22} says="soft stick" hold="end" tone="look" strong />
        <Word x={286} y={148} says="light under one end" hold="end" tone="wrong" />
        <Word x={14} y={148} says="from both edges" tone="look" />
      </g>
    );
  },
};

const rocker: Drawing = {
  title: "Three frets, rock and listen",
  says: "A short straight edge stands on three frets, the middle one is higher, and the edge rocks on it with a click.",
  height: 170,
  stretched: "Heights drawn many times larger.",
  draw: () => (
    <g>
      <Cut corners={box(10, 106, 290, 128)} />
      <Crown x={40} y={106} height={16} wide={22} />
      <Crown x={96} y={106} height={16} wide={22} />
      <Crown x={150} y={106} height={21} wide={22} />
      <Crown x={202} y={106} height={16} wide={22} />
      <Crown x={252} y={106} height={16} wide={22} />
      <Shape as="outline" d="M82 46L216 56V89L82 79Z" />
      <Stroke as="wrong" d="M144 84H158" />
      <Solid as="wrong" d="M88 80L106 81.5V89H88Z" />
      <Stroke as="look-dashed" d="M82 57L216 47M82 90L216 80" />
      <Motion d="M226 44Q236 60 228 78" end={[228, 80]} angle={112} />
      <Sound x={56} y={70} turn={180} />
      <Word x={14} y={24} says="click" tone="look" strong />
      <Word x={150} y={30} says="name the middle fret" hold="middle" tone="look" />
      <Numbers y={148} at={[[96, "8"], [202, "10"]]} />
      <Word x={150} y={148} says="9" hold="middle" tone="wrong" strong />
      <Word x={292} y={166} says="along two or three lines" hold="end" tone="soft" />
    </g>
  ),
};

const fretHeight: Drawing = {
  title: "From the board to the top of the crown",
  says: "A dial indicator stands with its feet on the crown's neighbours and its point on the board, then on the crown; the difference is the height of the fret.",
  height: 172,
  stretched: "Drawn many times larger.",
  draw: () => (
    <g>
      <Cut corners={box(10, 128, 290, 150)} />
      <Crown x={66} y={128} height={24} wide={34} />
      <Crown x={232} y={128} height={24} wide={34} flat />
      <Shape as="outline" d="M94 128V96H102V84H190V96H198V128H188V104H104V128Z" />
      <Crown x={146} y={128} height={24} wide={34} />
      <Dial x={146} y={102} stem={38} r={20} />
      <Dimension as="look" from={[120, 102]} to={[120, 128]} />
      <Stroke as="look-fine" d="M112 102H140" />
      <Word x={176} y={40} says="foot on the board" tone="look" strong />
      <Stroke as="look-fine" d="M212 46L194 92" />
      <Word x={66} y={168} says="looks new" hold="middle" />
      <Word x={232} y={168} says="looks worn" hold="middle" tone="wrong" />
      <Word x={10} y={40} says="point on top" tone="look" />
    </g>
  ),
};

const fretHeightAll: Drawing = {
  title: "The middle of each, both sides where it clicked",
  says: "A board in plan without strings; a mark on the middle of every fret, and two more at both sides of the frets where the rocker clicked.",
  height: 158,
  draw: () => {
    const tick = (x: number, y: number): string => `M${x - 4} ${y + 4}L${x + 4} ${y - 4}`;
    return (
      <g>
        <Plan plan={board} strings={0} />
        <Stroke as="look" d={Array.from({ length: 22 }, (_, i) => tick(planX(board, i + 1), 78)).join("")} />
        <Stroke as="wrong" d={[9, 14].map((n) => tick(planX(board, n), 58) + tick(planX(board, n), 98)).join("")} />
        <Word x={10} y={30} says="strings off" strong />
        <Word x={10} y={132} says="middle of each" tone="look" strong />
        <Word x={292} y={132} says="clicked: both sides too" hold="end" tone="wrong" />
        <Stroke as="chain" d="M10 78H292" />
        <Numbers y={152} at={[[planX(board, 9), "9"], [planX(board, 14), "14"]]} />
      </g>
    );
  },
};

const fretCrown: Drawing = {
  title: "Round, flat, grooved",
  says: "Three crowns under low light: round and bright, worn to a wide flat, and grooved by a plain string where a fingernail catches.",
  height: 160,
  stretched: "Drawn many times larger.",
  draw: () => (
    <g>
      <Cut corners={box(10, 106, 290, 126)} />
      <Crown x={52} y={106} height={26} wide={44} />
      <Stroke as="fine" d="M46 86Q52 82 58 86" />
      <Crown x={140} y={106} height={26} wide={44} flat />
      <Stroke as="wrong" d="M121 86H159" />
      <Shape d="M206 106C206 74 214 80 218 80C222 82 222 88 228 88C234 88 234 82 238 80C242 80 250 74 250 106Z" />
      <Stroke as="wrong" d="M218 80C222 82 222 88 228 88C234 88 234 82 238 80" />
      <Lamp x={24} y={52} turn={18} reach={70} />
      <Finger x={224} y={84} turn={-24} />
      <Word x={52} y={146} says="round" hold="middle" strong />
      <Word x={140} y={146} says="wide flat" hold="middle" tone="wrong" />
      <Word x={228} y={146} says="groove" hold="middle" tone="wrong" />
      <Word x={292} y={26} says="nail, 1 to 5" hold="end" tone="look" strong />
      <Word x={66} y={36} says="low light" tone="look" />
    </g>
  ),
};

const fretEnds: Drawing = {
  title: "A thin cloth along each edge",
  says: "A hand draws a thin cloth once along the edge of the neck from nut to body; at one fret end a thread stays behind.",
  height: 166,
  draw: () => (
    <g>
      <Shape as="outline" d="M14 70L286 56V140L14 128Z" />
      <Stroke as="outline" d="M58 68V130M102 65V132M142 63V134M180 61V135M214 60V137M246 58V138M274 57V139" />
      <Shape as="look" d="M186 68C176 60 180 44 194 42C216 40 236 48 244 58C246 66 240 70 232 70C222 74 198 74 186 68Z" />
      <Stroke as="look-fine" d="M192 60C206 52 222 54 236 62M190 52C200 46 214 46 224 50" />
      <Finger x={210} y={50} turn={16} long={36} />
      <Motion d="M30 48H150" end={[156, 48]} angle={0} />
      <Stroke as="wrong" d="M140 62C132 50 146 46 138 36" />
      <Word x={14} y={36} says="nut to body, once" tone="look" strong />
      <Word x={150} y={28} says="thread" tone="wrong" />
      <Word x={14} y={158} says="clean, marks, catches, tears: which frets" tone="soft" />
    </g>
  ),
};

const overhang: Drawing = {
  title: "From the wood out to the fret end",
  says: "The edge of a board cut across with a fret end standing out past the wood; a dial reads first the wood, then the fret end.",
  height: 160,
  stretched: "Drawn many times larger.",
  draw: () => (
    <g>
      <Cut corners={[[10, 62], [150, 70], [150, 138], [10, 138]]} />
      <Shape as="outline" d="M10 44C70 44 120 46 148 54L164 72H150L10 62Z" />
      <Solid as="wrong" d="M150 62L156 64L164 72H150Z" />
      <g transform="rotate(90 164 70)"><Dial x={164} y={70} stem={36} r={20} /></g>
      <Stroke as="look-dashed" d="M150 108H196" />
      <Stroke as="look" d="M146 112l8 -8" />
      <Stroke as="chain" d="M150 30V148M164 30V148" />
      <Dimension as="look" from={[150, 36]} to={[164, 36]} />
      <Word x={172} y={40} says="past the wood" tone="look" strong />
      <Word x={172} y={130} says="first the wood," tone="look" />
      <Word x={172} y={148} says="then the fret" tone="look" />
      <Word x={10} y={156} says="note the humidity" tone="soft" />
    </g>
  ),
};

const ringTest: Drawing = {
  title: "Every fret, same pick; hold the other parts first",
  says: "A finger behind each fret in turn while a pick strikes with one strength; spots at rod, springs, saddles and posts are held one after another to rule them out.",
  height: 196,
  draw: () => (
    <g>
      <Cut corners={box(14, 74, 200, 92)} />
      {[44, 82, 118, 152, 184].map((x) => <Crown key={x} x={x} y={74} height={12} wide={14} />)}
      <StringLine through={[[14, 58], [108, 69], [118, 65], [290, 50]]} />
      <Finger x={106} y={69} />
      <Motion d="M112 22H150" end={[154, 22]} angle={0} />
      <Pick x={248} y={50} />
      <Word x={14} y={26} says="fret by fret" tone="look" strong />
      <g transform="translate(150 146) scale(0.8)"><Slab x={0} y={0} /></g>
      <Stroke as="wrong" d="M54 142l8 -8M72 146l8 -8M54 158l8 -8M190 142l8 -8M208 142l8 -8M226 142l8 -8M226 158l8 -8" />
      <Word x={10} y={122} says="posts, rod" tone="wrong" />
      <Word x={292} y={106} says="springs, saddles" hold="end" tone="wrong" />
      <Word x={10} y={190} says="hold each: still there?" tone="look" />
    </g>
  ),
};

/** A note that dies away, drawn as its two edges. */
function Dying({ x, y, long, wide }: { x: number; y: number; long: number; wide: number }) {
  const edge = (sign: number): string => Array.from({ length: 20 }, (_, i) => {
    const t = i / 19;
    return `${i === 0 ? "M" : "L"}${Math.round(x + t * long)} ${Math.round((y + sign * wide * Math.exp(-3 * t)) * 10) / 10}`;
  }).join("");
  return <Stroke as="outline" d={edge(1) + edge(-1)} />;
}

const ringTime: Drawing = {
  title: "Three strikes, nothing touching the body",
  says: "A pick strikes an open string near a microphone three times; each note dies away between two edges that close in.",
  height: 160,
  draw: () => (
    <g>
      <StringLine through={[[14, 44], [200, 44]]} />
      <Pick x={60} y={43} />
      <Shape as="outline" d="M118 62H134V92H118ZM116 76H136" />
      <Stroke as="edge" d="M126 92V104M116 104H136" />
      <Word x={144} y={84} says="recorder" />
      <Word x={214} y={34} says="open" tone="look" strong />
      <Word x={214} y={52} says="and fret 12" tone="look" strong />
      <Stroke as="fine" d="M14 130H292" />
      <Dying x={16} y={130} long={84} wide={18} />
      <Dying x={110} y={130} long={84} wide={18} />
      <Dying x={204} y={130} long={84} wide={18} />
      <Word x={14} y={108} says="same place" tone="soft" />
      <Numbers y={158} at={[[40, "1"], [134, "2"], [228, "3"]]} />
    </g>
  ),
};

const noiseFloor: Drawing = {
  title: "Lead alone, damped, strummed",
  says: "Three levels side by side: the lead alone, the instrument with damped strings, a strum; the distance from the damped strings to the strum is read.",
  height: 170,
  draw: () => (
    <g>
      <Stroke as="edge" d="M14 128H206" />
      <Stroke as="outline" d="M24 118H68M86 108H130M148 34H192" />
      <Stroke as="fine" d="M24 128V118M68 128V118M86 128V108M130 128V108M148 128V34M192 128V34" />
      <Stroke as="look-dashed" d="M130 108H240M192 34H240" />
      <Dimension as="look" from={[228, 34]} to={[228, 108]} />
      <Word x={236} y={76} says="dB" tone="look" strong />
      <Word x={46} y={148} says="lead" hold="middle" />
      <Word x={108} y={148} says="damped" hold="middle" />
      <Word x={172} y={148} says="strum" hold="middle" />
      <Word x={14} y={24} says="same lead, same place" tone="soft" />
      <Word x={14} y={167} says="hum that falls as you turn: the room" tone="look" />
    </g>
  ),
};

export const frets = {
  fretCount, fretWire, fretSeat, rocker, fretHeight, fretHeightAll, fretCrown, fretEnds, overhang, ringTest, ringTime,
  noiseFloor,
} satisfies Record<string, Drawing>;
