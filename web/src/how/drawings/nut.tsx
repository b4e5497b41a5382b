// Nut and head, and what comes back to pitch.

import { At, Cut, Dimension, Motion, Shape, Solid, Stroke, Word, box } from "../pen";
import { Caliper, Camera, Eye, Finger, Lamp, Magnifier } from "../tools";
import { Board, Crown, Head, NutSide, Numbers, Saddle, StringEnds, StringLine } from "../parts";
import type { Drawing } from "./drawing";

const nutSeat: Drawing = {
  title: "Light behind the nut, eye at the board",
  says: "The nut in its slot cut along the neck; a lamp behind it shows light under one corner, and a thumb nudges it sideways.",
  height: 158,
  draw: () => (
    <g>
      <Cut corners={[[112, 92], [112, 124], [20, 138], [20, 120], [86, 104], [92, 102], [92, 100], [112, 100]]} />
      <Cut corners={[[134, 78], [286, 78], [286, 124], [112, 124], [112, 100], [134, 100]]} />
      <Shape as="outline" d="M112 97L134 99V54L112 60Z" />
      <Solid as="wrong" d="M112 97L134 99V100H112Z" />
      <Crown x={214} y={78} />
      <Lamp x={84} y={92} turn={8} reach={36} />
      <Eye x={166} y={68} turn={152} sight={28} />
      <Word x={180} y={52} says="look from here" tone="look" strong />
      <Finger x={123} y={54} turn={0} long={36} />
      <Word x={132} y={20} says="nudge sideways" tone="look" />
      <Word x={136} y={150} says="light under it: not bedded" tone="wrong" />
    </g>
  ),
};

const nutMaterial: Drawing = {
  title: "An end of the nut under the magnifier",
  says: "Two nut ends under the magnifier: pores and a greasy sheen are bone, a raised line is a mould seam.",
  height: 150,
  draw: () => (
    <g>
      <At x={80} y={66}>
        <Magnifier x={0} y={0} r={44} turn={140} filled />
        <Shape as="outline" d="M-22 26V-14C-18 -26 12 -30 20 -20V26Z" />
        <Solid d="M-12 -6h5v1.5h-5zM2 -12h5v1.5h-5zM-6 6h6v1.5h-6zM6 0h6v1.5h-6zM-14 14h5v1.5h-5zM4 16h6v1.5h-6zM-8 -16h4v1.5h-4z" />
      </At>
      <At x={216} y={66}>
        <Magnifier x={0} y={0} r={44} turn={40} filled />
        <Shape as="outline" d="M-22 26V-14C-18 -26 12 -30 20 -20V26Z" />
        <Stroke as="wrong" d="M-2 26V-24" />
      </At>
      <Word x={80} y={130} says="pores: bone" hold="middle" strong />
      <Word x={196} y={130} says="mould seam: plastic" hold="middle" tone="wrong" />
      <Word x={150} y={147} says="no hot needle" hold="middle" tone="soft" />
    </g>
  ),
};

const nutWidth: Drawing = {
  title: "Across the nut, jaws just touching",
  says: "Caliper jaws close on both ends of the nut at its fingerboard side, seen along the neck.",
  height: 150,
  draw: () => (
    <g>
      <Caliper x={132} y={98} open={128} jaw={44} />
      <Shape as="outline" d="M68 84C100 76 164 76 196 84V112H68Z" />
      {[80, 101, 122, 143, 164, 185].map((x) => <Stroke key={x} as="edge" d={`M${x - 2} 79v6h4v-6`} />)}
      <Cut corners={[[68, 112], [196, 112], [188, 132], [76, 132]]} />
      <Dimension from={[68, 144]} to={[196, 144]} />
      <Word x={208} y={130} says="nut, board side" tone="look" strong />
      <Word x={10} y={22} says="no pressure" tone="soft" />
    </g>
  ),
};

const nutTap: Drawing = {
  title: "Held between 2 and 3, tapped over fret 1",
  says: "A finger holds the string to the board between frets 2 and 3; over fret 1 a second finger taps and the string is dead, just moves, or shows a clear gap.",
  height: 168,
  stretched: "Heights drawn many times larger.",
  draw: () => (
    <g>
      <NutSide x={44} y={108} height={20} />
      <Board from={44} to={290} y={108} crowns={[118, 186, 250]} height={14} wide={18} />
      <StringLine through={[[14, 98], [30, 90], [44, 87], [186, 94], [216, 102], [250, 94], [290, 86]]} />
      <Finger x={216} y={101} />
      <Finger x={130} y={88} long={40} />
      <Motion d="M108 56V76" end={[108, 80]} angle={90} />
      <Stroke as="look-fine" d="M66 91L112 91M66 95H110M72 83V91M72 103V95" />
      <Word x={10} y={24} says="tap over 1: does it move?" tone="look" strong />
      <Word x={216} y={40} says="hold" hold="middle" tone="look" strong />
      <Word x={50} y={76} says="gap" hold="start" tone="look" />
      <Numbers y={146} at={[[36, "nut"], [118, "1"], [186, "2"], [250, "3"]]} />
      <Word x={10} y={164} says="dead, just moves, clear gap" tone="soft" />
    </g>
  ),
};

const nutWire: Drawing = {
  title: "The same wire, laid against the nut",
  says: "A piece of fret wire of this instrument's height lies on the board against the nut, pressed down, the string above it shows whether the slot is high, right or low.",
  height: 170,
  stretched: "Heights drawn many times larger.",
  draw: () => (
    <g>
      <NutSide x={58} y={104} height={22} />
      <Board from={58} to={290} y={104} crowns={[188, 264]} height={15} wide={20} />
      <path class="pen-look pen-filled" d="M62 104C62 84 84 84 84 104Z" />
      <StringLine through={[[16, 98], [40, 87], [58, 83], [290, 72]]} />
      <Stroke as="look-dashed" d="M40 89L58 89L290 78" />
      <Motion d="M73 46V70" end={[73, 74]} angle={90} />
      <Word x={10} y={24} says="fret wire on the board" tone="look" strong />

      <Numbers y={142} at={[[48, "nut"], [188, "1"], [264, "2"]]} />
      <Word x={84} y={58} says="press down" tone="look" />
      <Word x={292} y={42} says="loose on it: slot high" hold="end" />
      <Word x={10} y={164} says="held and rings: right. Lifted: low" />
    </g>
  ),
};

const slotShape: Drawing = {
  title: "Half the string free, falling to the tuner",
  says: "Left, a slot from the front holds the string by its lower half; right, the slot along the string falls from the front edge toward the tuner.",
  height: 160,
  stretched: "Drawn many times larger.",
  draw: () => (
    <g>
      <Cut corners={[[14, 66], [46, 66], [48, 78], [54, 86], [62, 88], [70, 86], [76, 78], [78, 66], [112, 66], [112, 124], [14, 124]]} />
      <StringEnds at={[62]} y={87} r={14} />
      <Dimension from={[92, 73]} to={[92, 59]} />
      <Word x={64} y={44} says="half stands free" hold="middle" tone="look" strong />
      <Word x={62} y={144} says="from the board" hold="middle" tone="soft" />
      <Cut corners={[[178, 92], [254, 74], [254, 124], [178, 124]]} />
      <StringLine through={[[134, 106], [178, 90], [254, 72], [296, 70]]} thick={3.5} />
      <Magnifier x={254} y={74} r={20} turn={130} />
      <Word x={296} y={44} says="breaks here" hold="end" tone="look" strong />
      <Stroke as="look-fine" d="M258 49V62" />
      <Word x={130} y={92} says="tuner" tone="soft" />
      <Word x={216} y={144} says="along the string" hold="middle" tone="soft" />
    </g>
  ),
};

const nutSpacing: Drawing = {
  title: "Gaps between edges, not centres",
  says: "Strings over the nut grow thicker to the bass side; caliper jaws close on the gap between the edges of two neighbours.",
  height: 150,
  draw: () => {
    const strings: readonly (readonly [number, number])[] = [[38, 9], [86, 7.5], [132, 6], [176, 5], [219, 4], [261, 3]];
    return (
      <g>
        <Shape as="outline" d="M14 88C80 76 210 76 286 88V124H14Z" />
        {strings.map(([x, r]) => (
          <g key={x}>
            <path class="pen-edge pen-filled" d={`M${x + r} ${80}A${r} ${r} 0 1 1 ${x - r} ${80}A${r} ${r} 0 1 1 ${x + r} ${80}Z`} />
          </g>
        ))}
        <Stroke as="look" d="M93.5 84V38M126 84V38M93.5 38H70M126 38H152" />
        <Dimension from={[93.5, 50]} to={[126, 50]} />
        <Word x={160} y={44} says="edge to edge" tone="look" strong />
        {[[47, 78.5], [138, 171], [181, 215], [223, 258]].map(([a, b]) => (
          <Dimension key={a} as="fine" from={[a!, 104]} to={[b!, 104]} />
        ))}
        <Word x={150} y={144} says="write the largest difference" hold="middle" tone="soft" />
        <Word x={14} y={66} says="bass" tone="soft" />
      </g>
    );
  },
};

function CentsLine({ y, after, what }: { y: number; after: number; what: string }) {
  return (
    <g>
      <Stroke as="edge" d={`M40 ${y}H260`} />
      <Stroke as="chain" d={`M150 ${y - 22}V${y + 12}`} />
      <Stroke as="outline" d={`M150 ${y - 9}v18`} />
      <Stroke as="look" d={`M${150 + after} ${y - 9}v18`} />
      <Dimension from={[150 + after, y - 16]} to={[150, y - 16]} />
      <Word x={154} y={y + 26} says="before" />
      <Word x={146 + after} y={y + 26} says={what} hold="end" tone="look" strong />
      <Word x={36} y={y + 5} says="flat" hold="end" tone="soft" />
      <Word x={264} y={y + 5} says="sharp" tone="soft" />
    </g>
  );
}

const bendReturn: Drawing = {
  title: "Tune, bend three times, read again",
  says: "A finger at fret 7 pushes the string sideways three times; a line of cents shows pitch before and after.",
  height: 170,
  draw: () => (
    <g>
      <Shape as="outline" d="M20 30H292V92H20Z" />
      <Solid d="M16 28H21V94H16Z" />
      <Stroke as="rule" d="M60 30V92M98 30V92M132 30V92M164 30V92M194 30V92M222 30V92M248 30V92M272 30V92" />
      <Stroke as="look-dashed" d="M20 46H292" />
      <StringLine through={[[20, 46], [239, 72], [292, 46]]} />
      <Finger x={239} y={74} turn={180} long={34} />
      <Motion d="M262 48V74" end={[262, 78]} angle={90} />
      <Word x={250} y={22} says="at 7, three times" hold="end" tone="look" strong />
      <CentsLine y={134} after={-42} what="after" />
    </g>
  ),
};

const diveReturn: Drawing = {
  title: "Dive, let come back, read; then pull",
  says: "The lever of a pivot bridge is pushed until the strings hang loose and let back; a line of cents shows pitch before and after.",
  height: 178,
  draw: () => (
    <g>
      <Stroke as="outline" d="M16 84H292" />
      <Shape as="outline" d="M176 66H236V74L214 84H176Z" />
      <Solid as="look" d="M171 78L178 72V84Z" />
      <Shape d="M166 70H172V92H166Z" />
      <Stroke as="outline" d="M216 66C214 44 190 36 130 32" />
      <StringLine through={[[16, 60], [200, 56], [232, 66]]} />
      <Stroke as="look-dashed" d="M16 62Q110 80 198 60" />
      <Finger x={140} y={33} turn={-52} long={34} />
      <Motion d="M118 36V66" end={[118, 70]} angle={90} />
      <Word x={292} y={24} says="till they hang loose" hold="end" tone="look" strong />
      <Word x={244} y={62} says="bridge" tone="soft" />
      <CentsLine y={140} after={-30} what="after the dive" />
    </g>
  ),
};

const breakAngle: Drawing = {
  title: "From the line of the board",
  says: "Nut and head from the side; the angle is read between the line of the fingerboard and the string behind the nut, on one photo taken square.",
  height: 184,
  draw: () => (
    <g>
      <Cut corners={[[170, 74], [290, 74], [290, 98], [152, 98], [22, 134], [22, 120], [138, 84], [152, 84], [152, 74]]} />
      <NutSide x={170} y={74} height={16} />
      <Shape as="outline" d="M52 110V92H66V107Z" />
      <StringLine through={[[290, 54], [170, 58], [154, 62], [62, 96]]} />
      <Stroke as="look-dashed" d="M170 60H30" />
      <Stroke as="look" d="M72 61A92 92 0 0 0 78 89" />
      <Word x={44} y={50} says="break angle" tone="look" strong />
      <Camera x={150} y={146} turn={-90} />
      <Word x={178} y={142} says="square, one photo" tone="look" />
      <Word x={190} y={44} says="line of the board" tone="soft" />
    </g>
  ),
};

const tuners: Drawing = {
  title: "Feel the knob, press the post",
  says: "A tuner from the side: the post is pressed sideways and shows play at its bushing, the knob is felt while turning.",
  height: 168,
  draw: () => (
    <g>
      <Cut corners={box(20, 88, 122, 112)} />
      <Cut corners={box(148, 88, 216, 112)} />
      <Shape as="outline" d="M126 40H144V112H126Z" />
      <Shape d="M116 82H154V90H116Z" />
      <Shape as="outline" d="M108 112H162V134H108Z" />
      <Shape d="M162 119H212V126H162Z" />
      <Shape as="outline" d="M212 108Q240 104 242 122Q240 140 212 138Z" />
      <Stroke as="string" d="M20 56H126M126 52H144M126 58H144M126 64H144" />
      <Stroke as="wrong-fine" d="M122 88V112M148 88V112" />
      <Finger x={145} y={48} turn={68} />
      <Motion d="M100 30H74" end={[70, 30]} angle={180} />
      <Motion d="M70 30H100" end={[104, 30]} angle={0} />
      <Word x={14} y={24} says="press both ways" tone="look" strong />
      <Word x={20} y={80} says="play here" tone="wrong" />
      <Stroke as="wrong-fine" d="M84 78L118 94" />
      <Motion d="M256 104Q270 122 256 142" end={[256, 142]} angle={120} />
      <Word x={292} y={164} says="dead place, slip, stiff" hold="end" tone="look" />
    </g>
  ),
};

const headless: Drawing = {
  title: "Down a tone and up, thread left",
  says: "A tuning screw at the body end pulls a jaw on its thread; a dimension shows how much thread is left, and the clamp at the head is checked.",
  height: 158,
  draw: () => (
    <g>
      <Stroke as="outline" d="M14 112H292" />
      <Shape as="outline" d="M22 76H62V112H22Z" />
      <Shape d="M32 76V62H46V76Z" />
      <Stroke as="edge" d="M33 58H45M39 58V50" />
      <Word x={14} y={42} says="clamp holds?" tone="look" />
      <StringLine through={[[62, 84], [168, 84], [188, 90]]} />
      <Stroke as="chain" d="M104 74V100M112 74V100" />
      <Shape as="outline" d="M160 112V86H172V104H262V112Z" />
      <Shape d="M184 84H202V104H184Z" />
      <Shape d="M202 92H262V98H202Z" />
      <Stroke as="fine" d="M206 92l4 6M214 92l4 6M222 92l4 6M230 92l4 6M238 92l4 6M246 92l4 6" />
      <Shape as="outline" d="M262 82H284V108H262Z" />
      <Stroke as="fine" d="M262 88h22M262 95h22M262 102h22" />
      <Finger x={273} y={81} />
      <Dimension from={[202, 128]} to={[262, 128]} />
      <Word x={232} y={150} says="thread left" hold="middle" tone="look" strong />
      <Word x={14} y={140} says="by fingers, strings slack" tone="soft" />
    </g>
  ),
};

const stringAge: Drawing = {
  title: "Windings, dents and ball ends",
  says: "Where strings tell their age: dents over frets 1 to 5 on the underside, windings on the post, the ball end at the bridge.",
  height: 176,
  draw: () => (
    <g>
      <g transform="translate(112 62) scale(0.85)"><Head x={0} y={0} /></g>
      <Stroke as="string" d="M40 46L112 52H150M64 48L112 58H150M40 78L112 72H150" />
      <Magnifier x={42} y={45} r={17} turn={200} />
      <Board from={170} to={290} y={70} crowns={[196, 232, 264]} />
      <StringLine through={[[170, 56], [196, 57], [232, 57], [264, 57], [290, 54]]} thick={3} />
      <Stroke as="wrong" d="M192 60h8M228 60h8M260 60h8" />
      <Eye x={232} y={34} turn={90} />
      <Word x={292} y={20} says="underside, 1 to 5" hold="end" tone="look" strong />
      <Word x={292} y={108} says="dents" hold="end" tone="wrong" />
      <Word x={10} y={124} says="windings on the posts" tone="look" />
      <Saddle x={150} y={128} drop={30} />
      <StringLine through={[[20, 138], [150, 128], [236, 150]]} />
      <Stroke as="look" d="M244 152a6 6 0 1 1 -12 0a6 6 0 1 1 12 0" />
      <Word x={250} y={148} says="ball" tone="look" strong />
    </g>
  ),
};

export const nut = {
  nutSeat, nutMaterial, nutWidth, nutTap, nutWire, slotShape, nutSpacing, bendReturn, diveReturn, breakAngle, tuners,
  headless, stringAge,
} satisfies Record<string, Drawing>;
