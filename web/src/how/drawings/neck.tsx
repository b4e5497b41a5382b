// The neck: relief, rod, twist, end, radius, fan, and heights over the frets.

import { cap, pathOf } from "../hatch";
import { Cut, Dimension, Motion, Shape, Solid, Stroke, Word, box } from "../pen";
import { Dial, Eye, Finger, Lamp, Leaf, Rule } from "../tools";
import { Crown, NutSide, Numbers, StringEnds, StringLine } from "../parts";
import type { Drawing } from "./drawing";

const places = [64, 94, 122, 148, 172, 194, 215, 234, 252];

/** A neck cut along its length whose middle lies `sag` below a straight line (above it when negative). */
function BowedNeck({ sag, y }: { sag: number; y: number }) {
  const top = cap(36, 276, y, -sag);
  return (
    <g>
      <Cut corners={[...top, [276, y + 22], ...cap(36, 276, y + 22, -sag).reverse()]} />
      {places.map((x) => <Crown key={x} x={x} y={onBow(x, y, sag)} height={10} wide={11} />)}
      <NutSide x={36} y={y} height={14} thick={12} />
    </g>
  );
}

const onBow = (x: number, y: number, sag: number): number => {
  const t = (x - 156) / 120;
  return Math.round((y + sag * (1 - t * t)) * 10) / 10;
};

const relief: Drawing = {
  title: "Held at fret 1 and the last, leaf at 7",
  says: "Fingers hold the string on fret 1 and on the last fret; it is straight, the neck falls away below, and a leaf slid in about fret 7 just moves the string.",
  height: 166,
  stretched: "Bow drawn many times larger.",
  draw: () => (
    <g>
      <BowedNeck sag={22} y={96} />
      <StringLine through={[[14, 88], [36, 82], [58, 96], [64, 92.5], [252, 92.5], [262, 97], [292, 84]]} />
      <Finger x={56} y={94} />
      <Finger x={263} y={95} />
      <Leaf x={168} y={100} turn={-52} long={26} />
      <Dimension from={[148, 92.5]} to={[148, onBow(148, 96, 22) - 10]} />
      <Stroke as="chain" d="M148 62V160" />
      <Word x={140} y={76} says="gap" hold="end" tone="look" strong />
      <Word x={56} y={38} says="1" hold="middle" tone="look" strong />
      <Word x={263} y={38} says="last" hold="middle" tone="look" strong />
      <Word x={140} y={22} says="leaf just moves the string" hold="middle" tone="look" />
      <Numbers y={160} at={[[64, "1"], [148, "7"], [252, "last"]]} />
    </g>
  ),
};

const backBow: Drawing = {
  title: "The string as straight edge: does it lie hard?",
  says: "The string is held on fret 1 and on the last fret and lies hard on the middle frets of a neck that bows back; an eye looks along the edge.",
  height: 170,
  stretched: "Bow drawn many times larger.",
  draw: () => (
    <g>
      <BowedNeck sag={-12} y={106} />
      <StringLine through={[[14, 98], [36, 91], [58, 104], [64, onBow(64, 106, -12) - 10], [122, 85], [172, 84.6], [215, 87], [252, onBow(252, 106, -12) - 10], [262, 106], [292, 94]]} />
      <Finger x={57} y={102} />
      <Finger x={263} y={104} />
      <Finger x={152} y={82} long={34} />
      <Stroke as="wrong" d="M116 84H196" />
      <Word x={176} y={62} says="hard on these" tone="wrong" strong />
      <Word x={152} y={34} says="tap over 7 or 8" hold="middle" tone="look" strong />
      <Eye x={22} y={128} turn={-6} sight={250} />
      <Word x={40} y={160} says="along the edge: bow is minus" tone="look" />
    </g>
  ),
};

const reliefLater: Drawing = {
  title: "Same place, same tool, a day apart",
  says: "A straight edge with a dial in its middle stands on the board at the same place twice, twelve hours apart; the later figure less the earlier one is the change.",
  height: 178,
  stretched: "Bow drawn many times larger.",
  draw: () => (
    <g>
      <Cut corners={[...cap(20, 280, 112, -16), [280, 138], ...cap(20, 280, 138, -16).reverse()]} />
      <Shape as="outline" d="M30 92H144V80H30ZM156 92H270V80H156ZM30 112V92H36V112ZM264 112V92H270V112Z" />
      <Shape d="M144 94V78H156V94Z" />
      <Dial x={150} y={127} stem={54} r={22} />
      <Stroke as="chain" d="M33 68V160M150 130V160M267 68V160" />
      <Word x={14} y={24} says="today" strong />
      <Word x={14} y={44} says="0.26 mm" />
      <Word x={222} y={24} says="12 h later" strong />
      <Word x={222} y={44} says="0.29 mm" tone="look" strong />
      <Word x={150} y={174} says="later less earlier, plus = more" hold="middle" tone="look" />
    </g>
  ),
};

const rodAccess: Drawing = {
  title: "Lamp in, key seated, nothing turned",
  says: "The end of a truss rod in its channel behind the nut; a key is seated in the nut without turning, and the free thread is measured.",
  height: 160,
  draw: () => (
    <g>
      <Cut corners={[[160, 58], [292, 58], [292, 88], [160, 88]]} />
      <Cut corners={[[160, 104], [292, 104], [292, 126], [140, 126], [20, 150], [20, 138], [104, 118], [160, 112]]} />
      <NutSide x={176} y={48} height={10} />
      <Shape d="M158 92H292V100H158Z" />
      <Stroke as="fine" d="M164 92l4 8M172 92l4 8M180 92l4 8M188 92l4 8" />
      <Shape as="outline" d="M124 86H158V106H124Z" />
      <Stroke as="edge" d="M124 92H138V100H124" />
      <Shape as="look" d="M138 93H62V70H68V87" />
      <Shape as="look" d="M138 93H58V99H138Z" />
      <Shape as="look" d="M58 99V62H64V93" />
      <Lamp x={40} y={72} turn={14} reach={70} />
      <Dimension from={[158, 116]} to={[194, 116]} />
      <Word x={198} y={122} says="thread" tone="look" strong />
      <Word x={70} y={62} says="key seats?" tone="look" strong />
      <Word x={292} y={150} says="write key size, do not turn" hold="end" tone="soft" />
      <Word x={214} y={48} says="nut, board" tone="soft" />
    </g>
  ),
};

const rodAnswers: Drawing = {
  title: "An eighth, retune, read",
  says: "A rod nut seen from its end: the key goes an eighth of a turn, never past a quarter before the next reading; then retune and read relief.",
  height: 176,
  draw: () => (
    <g>
      <Shape as="outline" d="M126 96a40 40 0 1 1 -80 0a40 40 0 1 1 80 0" />
      <Shape d="M86 82L98 89V103L86 110L74 103V89Z" />
      <Stroke as="outline" d="M86 82V22" />
      <Stroke as="look" d="M95 87L132 50" />
      <Stroke as="wrong" d="M98 96H150" />
      <Motion d="M86 40A56 56 0 0 1 122 53" end={[124, 55]} angle={48} />
      <Word x={134} y={44} says="1/8, then read" tone="look" strong />
      <Word x={156} y={101} says="1/4: never past here" tone="wrong" />
      <Word x={156} y={119} says="before a reading" tone="wrong" />
      <Word x={80} y={18} says="now" hold="end" />
      <Word x={14} y={156} says="stiff: slacken the strings first" tone="soft" />
      <Word x={14} y={173} says="a creak: stop" tone="wrong" />
    </g>
  ),
};

const twist: Drawing = {
  title: "Two sticks, one line of sight",
  says: "Sticks lie square across fret 1 and fret 12; looking along the neck one end of the far stick stands higher, and the gauge reads the angle of each.",
  height: 166,
  stretched: "Angle drawn many times larger.",
  draw: () => (
    <g>
      <Shape as="outline" d="M30 78L170 70V118L30 110Z" />
      <Stroke as="rule" d="M58 76V112M84 75V113M126 73V115M146 72V117" />
      <Stroke as="chain" d="M20 94H180" />
      <Shape as="look" d="M38 52H46V136H38ZM106 50H114V138H106Z" />
      <Word x={42} y={44} says="1" hold="middle" tone="look" strong />
      <Word x={110} y={44} says="12" hold="middle" tone="look" strong />
      <Word x={100} y={158} says="square to the centre line" hold="middle" tone="soft" />
      <Shape as="outline" d="M200 110C220 102 268 102 288 110V122H200Z" />
      <Stroke as="look" d="M194 96H294" />
      <Stroke as="wrong" d="M194 82L294 94" />
      <Dimension as="wrong-fine" from={[204, 83]} to={[204, 96]} />
      <Word x={196} y={70} says="bass up: plus" tone="wrong" />
      <Word x={292} y={142} says="from the body" hold="end" tone="soft" />
      <Word x={192} y={24} says="keep it still" tone="look" />
      <Word x={192} y={42} says="between the two" tone="look" />
    </g>
  ),
};

const boardEnd: Drawing = {
  title: "Straight edge from fret 5 to the end",
  says: "A straight edge lies from fret 5 to the end of the board with a lamp behind; light under it at the end means the board falls away, light before the end means a ramp.",
  height: 178,
  stretched: "Heights drawn many times larger.",
  draw: () => (
    <g>
      <Shape as="outline" d="M20 40H290V54H20Z" />
      <Cut corners={[[10, 64], [180, 64], [290, 74], [290, 90], [10, 90]]} />
      {[30, 80, 126, 168].map((x) => <Crown key={x} x={x} y={64} height={10} wide={12} />)}
      <Crown x={206} y={67} height={10} wide={12} />
      <Crown x={240} y={70} height={10} wide={12} />
      <Crown x={272} y={73} height={10} wide={12} />
      <Solid as="look" d="M200 55H284V62L206 57Z" />
      <Word x={294} y={32} says="falls away: right" hold="end" tone="look" strong />
      <Lamp x={56} y={22} turn={14} reach={60} />
      <Shape as="outline" d="M20 114L290 104V116L20 126Z" />
      <Cut corners={[[10, 138], [170, 138], [290, 124], [290, 150], [10, 150]]} />
      {[30, 80, 126, 168].map((x) => <Crown key={x} x={x} y={138} height={10} wide={12} />)}
      <Crown x={240} y={130} height={10} wide={12} />
      <Crown x={272} y={126} height={10} wide={12} />
      <Solid as="wrong" d="M90 124L220 119V121L176 127H96Z" />
      <Word x={294} y={172} says="light before the end: a ramp" hold="end" tone="wrong" />
      <Word x={30} y={172} says="fret 5" hold="middle" tone="soft" />
    </g>
  ),
};

const boardRadius: Drawing = {
  title: "One rocks, the next shows light",
  says: "Radius gauges on the board between frets, cut across: a gauge flatter than the board rocks on its middle, a rounder one shows light in the middle; the truth is between.",
  height: 186,
  stretched: "Curve drawn larger.",
  draw: () => (
    <g>
      <Cut corners={[...cap(30, 270, 70, 20), [270, 84], [30, 84]]} />
      <g transform="rotate(3 150 50)">
        <Shape d={pathOf([...cap(40, 260, 58, 9), [260, 22], [40, 22]])} />
      </g>
      <Motion d="M44 14Q36 30 38 44" end={[38, 46]} angle={84} />
      <Word x={150} y={40} says="flatter: rocks" hold="middle" strong />
      <Cut corners={[...cap(30, 270, 160, 20), [270, 174], [30, 174]]} />
      <Solid as="look" d={pathOf([...cap(58, 242, 149, 20), ...cap(58, 242, 150, 9).reverse()])} />
      <Shape d={pathOf([...cap(46, 254, 153, 29), [254, 100], [46, 100]])} />
      <Word x={150} y={118} says="rounder: light here" hold="middle" tone="look" strong />
    </g>
  ),
};

const fan: Drawing = {
  title: "Slant of nut and bridge against the frets",
  says: "A fanned board in plan, bass side below: frets lean away on both sides of the one square fret, nut and bridge continue the same fan.",
  height: 176,
  draw: () => {
    const lean = (x: number): number => (x - 118) * 0.16;
    const line = (x: number, half: number): string => `M${x - lean(x)} ${74 - half}L${x + lean(x)} ${74 + half}`;
    return (
      <g>
        <Shape as="outline" d="M44 46L190 36L212 112L14 102Z" />
        <Stroke as="rule" d={[52, 74, 96, 138, 156, 172, 186].map((x) => line(x, 28 + x / 20)).join("")} />
        <Stroke as="look" d="M118 24V124" />
        <Solid d="M39 46H46L17 102H10Z" />
        <Stroke as="string" d="M42 52L252 50M36 63L258 62M30 74L264 74M24 86L270 86M18 97L276 97" />
        <Shape d="M250 45H258V55H250ZM256 57H264V67H256ZM262 69H270V79H262ZM268 81H276V91H268ZM274 92H282V102H274Z" />
        <Stroke as="look-dashed" d="M50 30L6 116M248 30L290 118" />
        <Word x={118} y={18} says="the square fret" hold="middle" tone="look" strong />
        <Word x={14} y={146} says="nut, bridge: do they lean with it?" tone="look" />
        <Word x={14} y={166} says="each saddle inside its range?" tone="soft" />
      </g>
    );
  },
};

/** Height of the string over one fret: from the top of the fret to the underside of the string. */
function heightOver(fret: string, title: string, says: string): Drawing {
  return {
    title, says, height: 184, stretched: "Heights drawn larger.",
    draw: () => (
      <g>
        <Cut corners={box(10, 118, 290, 140)} />
        <Crown x={56} y={118} height={18} wide={26} />
        <Crown x={236} y={118} height={18} wide={26} />
        <Rule x={150} y={100} turn={-90} long={78} every={5} wide={40} />
        <Crown x={150} y={118} height={18} wide={26} />
        <StringLine through={[[10, 66], [290, 58]]} thick={5} />
        <Stroke as="look-dashed" d="M96 64.5H250" />
        <Dimension as="look" from={[122, 100]} to={[122, 66]} />
        <Stroke as="look-fine" d="M114 100H150" />
        <Eye x={272} y={76} turn={187} sight={70} />
        <Word x={16} y={22} says="underside of the string" tone="look" strong />
        <Stroke as="look-fine" d="M86 27L100 62" />
        <Word x={16} y={92} says="top of the fret" tone="look" strong />
        <Word x={200} y={38} says="eye level" tone="look" />
        <Numbers y={160} at={[[150, fret]]} />
        <Word x={292} y={178} says="no frets: from the board" hold="end" tone="soft" />
      </g>
    ),
  };
}

const action = heightOver("fret 12", "Top of the fret to the underside of the string",
  "A rule stands on fret 12; the eye, level with the string, reads from the top of the fret to the underside of the string.");
const openHeight = heightOver("fret 1", "Over fret 1, string open",
  "A gauge stands on fret 1 with the string open; read from the top of the fret to the underside of the string.");

const edgeRoom: Drawing = {
  title: "Outer string to where the bevel starts",
  says: "Neck and fret cut across at the treble edge: the first dimension goes from the outer edge of the string to the start of the fret's bevel, the second on to the edge of the board.",
  height: 170,
  stretched: "Drawn larger.",
  draw: () => (
    <g>
      <Cut corners={[[14, 92], [80, 86], [150, 90], [232, 100], [232, 140], [14, 140]]} />
      <Shape as="outline" d="M14 74C80 66 130 70 206 80L232 100C160 90 90 84 14 92" />
      <StringEnds at={[124]} y={70} r={7} />
      <StringEnds at={[30]} y={68} r={9} />
      <Stroke as="chain" d="M131 30V76M206 30V84M232 44V104" />
      <Dimension as="look" from={[131, 38]} to={[206, 38]} />
      <Dimension as="fine" from={[131, 54]} to={[232, 54]} />
      <Word x={168} y={28} says="1 room" hold="middle" tone="look" strong />
      <Word x={240} y={60} says="2 board" />
      <Stroke as="look" d="M206 76v8" />
      <Word x={238} y={92} says="bevel" tone="soft" />
      <Word x={14} y={162} says="from the outer edge of the string" tone="look" />
    </g>
  ),
};

const fretlessBoard: Drawing = {
  title: "Low light across the strings' tracks",
  says: "A fretless board cut across: the strings have worn grooves, low light throws shadows there, a fingertip is drawn across.",
  height: 158,
  stretched: "Grooves drawn larger.",
  draw: () => (
    <g>
      <Cut corners={[[30, 100], [56, 92], [62, 96], [68, 90], [112, 83], [118, 88], [124, 82], [174, 82], [180, 87], [186, 83], [230, 90], [236, 95], [242, 92], [270, 100], [270, 126], [30, 126]]} />
      <Stroke as="wrong" d="M56 92L62 96L68 90M112 83L118 88L124 82M174 82L180 87L186 83M230 90L236 95L242 92" />
      <StringEnds at={[62, 118, 180, 236]} y={68} r={5} />
      <Lamp x={262} y={78} turn={178} reach={70} />
      <Finger x={90} y={86} turn={-14} />
      <Motion d="M88 26H140" end={[146, 26]} angle={0} />
      <Word x={152} y={31} says="across the tracks" tone="look" strong />
      <Word x={30} y={148} says="grooves; and the mark at position 12" tone="wrong" />
    </g>
  ),
};

export const neck = {
  relief, backBow, reliefLater, rodAccess, rodAnswers, twist, boardEnd, boardRadius, fan, action, openHeight, edgeRoom,
  fretlessBoard,
} satisfies Record<string, Drawing>;
