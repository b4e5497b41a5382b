// Bridge, strings over the body, and set-up.

import { At, Cut, Dimension, Motion, Shape, Solid, Stroke, Word, box } from "../pen";
import { Caliper, Eye, Finger, Magnifier, Pick, Rule } from "../tools";
import { Board, Numbers, Pickup, Saddle, StringLine } from "../parts";
import type { Drawing } from "./drawing";

const bridgeFixings: Drawing = {
  title: "From the side, along the top",
  says: "A bridge on two posts from the side: light under the plate, a post that leans toward the neck and a crack before it.",
  height: 158,
  draw: () => (
    <g>
      <Cut corners={box(10, 92, 290, 136)} />
      <Shape d="M142 94L132 56H144L154 94V124H142Z" />
      <Stroke as="chain" d="M148 40V146" />
      <Stroke as="wrong" d="M138 92L128 98L124 96L114 104" />
      <Shape as="outline" d="M120 70H218V80H120Z" />
      <Shape d="M136 70V58H150V70ZM182 70V58H196V70Z" />
      <Stroke as="string" d="M10 54L143 57L232 78" />
      <Solid as="wrong" d="M156 81H218V86L156 91Z" />
      <Motion d="M116 40H92" end={[88, 40]} angle={180} />
      <Word x={152} y={34} says="leans to the neck" tone="wrong" strong />
      <Word x={16} y={120} says="crack" tone="wrong" strong />
      <Eye x={274} y={88} turn={180} sight={50} />
      <Word x={224} y={116} says="light?" tone="look" strong />
      <Word x={14} y={154} says="touch, do not turn" tone="soft" />
    </g>
  ),
};

const saddleRoom: Drawing = {
  title: "Thread left, both ways and both directions",
  says: "A saddle from the side with its height screw and length screw; what is left in front, behind, above and below is read and the smallest written.",
  height: 166,
  draw: () => (
    <g>
      <Saddle x={104} y={62} drop={56} />
      <StringLine through={[[10, 56], [104, 62], [186, 92]]} />
      <Dimension as="look" from={[64, 140]} to={[90, 140]} />
      <Stroke as="fine" d="M64 110V146M90 84V146" />
      <Dimension as="look" from={[130, 140]} to={[186, 140]} />
      <Stroke as="fine" d="M130 84V146M186 126V146" />
      <Dimension as="look" from={[224, 84]} to={[224, 118]} />
      <Stroke as="fine" d="M130 84H230M196 118H230" />
      <Word x={76} y={160} says="forth" hold="middle" tone="look" strong />
      <Word x={158} y={160} says="back" hold="middle" tone="look" strong />
      <Word x={234} y={106} says="down" tone="look" strong />
      <Word x={118} y={44} says="up: thread in the saddle" tone="look" strong />
      <Stroke as="look-fine" d="M130 50L106 72" />
      <Word x={14} y={24} says="write the smallest" tone="soft" />
    </g>
  ),
};

const saddleBurrs: Drawing = {
  title: "The break point, and a cotton thread",
  says: "A saddle's break point under the magnifier shows a burr; a cotton thread drawn through the groove catches on it.",
  height: 164,
  draw: () => (
    <g>
      <Saddle x={86} y={74} drop={44} />
      <StringLine through={[[10, 66], [84, 74], [168, 104]]} />
      <Magnifier x={86} y={74} r={22} turn={-126} />
      <At x={226} y={66}>
        <Magnifier x={0} y={0} r={46} turn={-150} filled />
        <Cut corners={[[-30, 34], [-26, 6], [-10, -8], [2, -12], [6, -18], [9, -10], [24, -4], [36, 22], [30, 34]]} />
        <Stroke as="wrong" d="M2 -12L6 -18L9 -10" />
        <Stroke as="look" d="M-42 8C-26 -6 -14 -18 4 -19C20 -18 30 -8 42 2" />
      </At>
      <Word x={228} y={132} says="burr catches cotton" hold="middle" tone="wrong" />
      <Word x={10} y={150} says="each break point" tone="look" strong />
    </g>
  ),
};

const pivotSprings: Drawing = {
  title: "Level first, then springs and claw",
  says: "Above, the base plate of a pivot bridge from the side against the top of the body; below, the open cavity with springs hooked to a claw held by two screws.",
  height: 190,
  draw: () => (
    <g>
      <Cut corners={box(10, 58, 180, 76)} />
      <Cut corners={box(252, 58, 290, 76)} />
      <Shape d="M160 44H168V76H160Z" />
      <Shape as="outline" d="M168 48H244V54H176L168 51Z" />
      <Shape d="M204 54H216V96H204Z" />
      <Stroke as="look-dashed" d="M120 48H292M120 58H292" />
      <Eye x={100} y={52} turn={0} />
      <Word x={14} y={24} says="plate level with the top?" tone="look" strong />
      <Shape as="outline" d="M24 116H276V178H24Z" />
      <Shape d="M60 126H68V168H60Z" />
      <Shape d="M30 132H60V138H30ZM30 156H60V162H30Z" />
      <Stroke as="fine" d="M34 132l3 6M40 132l3 6M46 132l3 6M34 156l3 6M40 156l3 6M46 156l3 6" />
      {[130, 147, 164].map((y) => (
        <Stroke key={y} as="edge" d={`M68 ${y}h14${Array.from({ length: 14 }, () => "l4 -5l4 10l2 -5").join("")}h16`} />
      ))}
      <Shape d="M236 124H252V170H236Z" />
      <Word x={292} y={106} says="springs fly: eye protection" hold="end" tone="wrong" />
      <Word x={30} y={110} says="claw" tone="look" />
      <Stroke as="look-fine" d="M62 108L64 124" />
    </g>
  ),
};

const stringGauge: Drawing = {
  title: "Over the open string, near the bridge",
  says: "Caliper jaws just touch an open string near the saddle; a known set may be written as a set instead.",
  height: 150,
  draw: () => (
    <g>
      <Shape as="outline" d="M10 120H150" />
      <path class="pen-edge pen-filled" d="M147 88a13 13 0 1 1 -26 0a13 13 0 1 1 26 0" />
      <Stroke as="edge" d="M140 88a6 6 0 1 1 -12 0a6 6 0 1 1 12 0" />
      <Caliper x={134} y={96} open={26} jaw={46} />
      <Dimension as="look" from={[121, 122]} to={[147, 122]} />
      <Stroke as="fine" d="M121 104V128M147 104V128" />
      <Word x={134} y={146} says="gauge" hold="middle" tone="look" strong />
      <Word x={196} y={86} says="just touching" tone="look" />
      <Word x={14} y={22} says="string cut across, near the bridge" tone="soft" />
      <Word x={196} y={146} says="winding counts" tone="soft" />
    </g>
  ),
};

const intonation: Drawing = {
  title: "Open octave against the note held at 12",
  says: "Above, the open string is touched over fret 12 and rings as its octave; below, the string is held at fret 12 with a light finger; the second pitch less the first is written.",
  height: 204,
  draw: () => (
    <g>
      <Board from={20} to={206} y={62} thick={12} crowns={[84, 120, 152, 182]} />
      <StringLine through={[[20, 40], [150, 42], [292, 38]]} />
      <Stroke as="look-dashed" d="M20 40Q86 24 152 41Q222 58 290 38M20 40Q86 54 152 41Q222 26 290 38" />
      <Finger x={152} y={40} long={26} />
      <Pick x={252} y={38} />
      <Word x={10} y={20} says="1 touched: octave" tone="look" strong />
      <Board from={20} to={206} y={150} thick={12} crowns={[84, 120, 152, 182]} />
      <StringLine through={[[20, 128], [142, 144], [152, 141], [292, 126]]} />
      <Finger x={140} y={144} long={40} />
      <Pick x={252} y={129} />
      <Word x={10} y={108} says="2 held, light finger" tone="look" strong />
      <Stroke as="chain" d="M152 44V178" />
      <Numbers y={182} at={[[152, "12"]]} />
      <Word x={10} y={200} says="2 less 1, mean of three; plus is sharp" tone="look" />
    </g>
  ),
};

const pickupGap: Drawing = {
  title: "String held at the last fret",
  says: "A finger holds the string at the last fret; the gap from the top of the pole to the underside of the string is read, bass side and treble side.",
  height: 168,
  stretched: "Heights drawn larger.",
  draw: () => (
    <g>
      <Board from={10} to={112} y={92} crowns={[34, 68, 98]} height={12} wide={16} />
      <Shape as="outline" d="M112 118H290" />
      <StringLine through={[[10, 74], [88, 86], [98, 82], [290, 64]]} thick={3} />
      <Finger x={86} y={85} />
      <Pickup x={196} y={98} half={30} poles={[0]} />
      <Rule x={201} y={98} turn={-90} long={52} every={4} wide={24} />
      <Dimension as="look" from={[180, 98]} to={[180, 75]} />
      <Stroke as="look-fine" d="M172 98H196" />
      <Word x={14} y={30} says="held at the last fret" tone="look" strong />
      <Word x={172} y={66} says="gap" hold="end" tone="look" strong />
      <Word x={14} y={158} says="pole top to underside, bass and treble" tone="look" />
      <Word x={234} y={116} says="pole" tone="soft" />
      <Eye x={274} y={80} turn={180} sight={44} />
    </g>
  ),
};

const poles: Drawing = {
  title: "Eye straight above, string by string",
  says: "A pickup seen from above with six poles; four strings run over the middle of their poles, the outer ones run beside them.",
  height: 150,
  draw: () => {
    const offset = [9, 3, 1, -1, -3, -9];
    return (
      <g>
        <Shape as="outline" d="M108 14H176Q182 14 182 20V120Q182 126 176 126H108Q102 126 102 120V20Q102 14 108 14Z" />
        {offset.map((d, i) => (
          <g key={i}>
            <path class="pen-edge pen-filled" d={`M150 ${25 + i * 18}a8 8 0 1 1 -16 0a8 8 0 1 1 16 0`} />
            <path class={Math.abs(d) > 5 ? "pen-wrong" : "pen-string"} d={`M20 ${25 + i * 18 + d}H262`} />
          </g>
        ))}
        <Word x={292} y={22} says="off" hold="end" tone="wrong" strong />
        <Word x={292} y={76} says="over" hold="end" strong />
        <Word x={292} y={122} says="off" hold="end" tone="wrong" strong />
        <Word x={14} y={146} says="seen from straight above" tone="look" strong />
      </g>
    );
  },
};

export const bridge = {
  bridgeFixings, saddleRoom, saddleBurrs, pivotSprings, stringGauge, intonation, pickupGap, poles,
} satisfies Record<string, Drawing>;
