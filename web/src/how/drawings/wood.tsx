// Wood, finish and the neck joint.

import { Cut, Dimension, Motion, Shape, Solid, Stroke, Word, box } from "../pen";
import { Camera, Eye, Finger, Hand, Lamp, Leaf, Magnifier, Palm, Rule, ScrewHead } from "../tools";
import { NutSide, Slab } from "../parts";
import type { Drawing } from "./drawing";

const bodyWood: Drawing = {
  title: "Two faces and an end",
  says: "A block of wood with lines on its face, other lines on its side and pores on the end grain, seen through a magnifier.",
  height: 168,
  draw: () => (
    <g>
      <Shape as="outline" d="M40 72L92 40H236L184 72Z" />
      <Shape as="outline" d="M40 72H184V132H40Z" />
      <Shape as="outline" d="M184 72L236 40V100L184 132Z" />
      <Stroke as="fine" d="M62 72C90 60 100 50 116 40M92 72C120 60 128 52 146 40M128 72C150 62 162 52 180 40M160 72C180 62 190 52 210 40" />
      <Stroke as="fine" d="M40 84H184M40 94H184M40 102H184M40 114H184M40 122H184" />
      <Stroke as="fine" d="M190 126C206 108 216 84 232 60M184 104C200 88 210 72 226 50" />
      <Solid d="M196 96a2 2 0 1 0 4 0a2 2 0 1 0 -4 0M208 86a2 2 0 1 0 4 0a2 2 0 1 0 -4 0M206 104a2 2 0 1 0 4 0a2 2 0 1 0 -4 0M220 92a2 2 0 1 0 4 0a2 2 0 1 0 -4 0M216 74a2 2 0 1 0 4 0a2 2 0 1 0 -4 0" />
      <Magnifier x={210} y={92} r={26} />
      <Word x={64} y={34} says="face" tone="look" strong />
      <Word x={44} y={152} says="side" tone="look" strong />
      <Word x={186} y={154} says="end grain" tone="look" strong />
      <Word x={10} y={16} says="paint proves nothing" tone="soft" />
    </g>
  ),
};

const boardWood: Drawing = {
  title: "Pores between frets, dye at the bare end",
  says: "A magnifier over the board between two frets, and a corner of damp white cloth touched to the bare end of the board.",
  height: 160,
  draw: () => (
    <g>
      <Shape as="outline" d="M10 44H214V116H10Z" />
      <Stroke as="outline" d="M58 44V116M112 44V116M160 44V116" />
      <Stroke as="fine" d="M66 60h14M70 72h26M64 84h20M84 92h20M68 102h24M90 62h16M120 58h20M126 76h24M120 98h18M170 66h22M168 90h30M16 64h26M22 92h26" />
      <Magnifier x={86} y={78} r={25} turn={125} />
      <Shape as="look" d="M214 66C234 56 262 50 286 62C272 74 280 88 268 100C250 96 232 98 214 92Z" />
      <Solid as="wrong" d="M214 70C222 68 226 74 224 80C222 86 218 88 214 88Z" />
      <Word x={216} y={126} says="white cloth," tone="look" />
      <Word x={216} y={144} says="damp: dye?" tone="look" />
      <Word x={10} y={30} says="between the frets, and at the end" strong />
    </g>
  ),
};

const neckGrain: Drawing = {
  title: "Follow the lines along the side",
  says: "A neck from the side with its grain; where the lines leave the wood at the bend of the head, it is short grained and weak.",
  height: 160,
  draw: () => (
    <g>
      <Shape as="outline" d="M78 50H290V66H258V92H270C282 92 290 94 290 94V66H258V78H92C76 78 70 86 52 98L14 122L8 112L54 72C62 64 66 58 78 56Z" />
      <Stroke as="fine" d="M84 58H286M80 66H256M78 72H256" />
      <Stroke as="wrong-fine" d="M18 116L60 88L92 74M14 112L58 80L84 66M24 104L62 76L80 60" />
      <Stroke as="wrong" d="M54 92a16 16 0 1 0 32 -16" />
      <Lamp x={196} y={20} turn={150} reach={90} />
      <Eye x={150} y={118} turn={-90} sight={40} />
      <Word x={64} y={132} says="runs out here" tone="wrong" strong />
      <Word x={200} y={114} says="heel" tone="soft" />
      <Word x={10} y={150} says="head" tone="soft" />
    </g>
  ),
};

const boardCracks: Drawing = {
  title: "Along the slots and at both ends",
  says: "Low light along the board shows a crack that starts at a fret slot and another at the end of the board.",
  height: 152,
  draw: () => (
    <g>
      <Shape as="outline" d="M20 40H232V112H20Z" />
      <Stroke as="outline" d="M70 40V112M122 40V112M172 40V112" />
      <Stroke as="wrong" d="M122 66L134 67L146 65L158 67M232 92L216 93L204 91L190 93" />
      <Lamp x={268} y={76} turn={180} reach={120} />
      <Eye x={140} y={22} turn={80} />
      <Word x={20} y={26} says="bare or lacquered?" tone="soft" />
      <Word x={104} y={132} says="from a slot" tone="wrong" />
      <Word x={292} y={132} says="at the end" hold="end" tone="wrong" />
    </g>
  ),
};

const heatShade: Drawing = {
  title: "Dark all through, or only outside",
  says: "Two cut pieces: on the left the shade goes right through the wood as heat leaves it, on the right only the skin is stained.",
  height: 164,
  draw: () => {
    const through = box(24, 52, 124, 104);
    return (
      <g>
        <Cut corners={through} />
        <Stroke as="fine" d="M24 60H124M24 68H124M24 76H124M24 84H124M24 92H124M24 99H124" />
        <Shape d="M62 52H84V104H62Z" />
        <Word x={74} y={124} says="even in the hole" hold="middle" />
        <Shape as="outline" d="M176 52H276V104H176Z" />
        <Solid as="wrong" d="M176 52H276V57H176ZM176 99H276V104H176Z" />
        <Shape d="M214 52H236V104H214Z" />
        <Word x={226} y={124} says="stain on light wood" hold="middle" tone="wrong" />
        <Eye x={73} y={30} turn={90} />
        <Eye x={225} y={30} turn={90} />
        <Word x={92} y={26} says="tuner hole" tone="look" strong />
        <Word x={10} y={152} says="look for dents that are there; make none" tone="soft" />
      </g>
    );
  },
};

const seam: Drawing = {
  title: "Fingernail, lamp, then the thinnest leaf",
  says: "A glued seam between two pieces: a fingertip crosses it, light falls along it, and the thinnest leaf is tried without force.",
  height: 166,
  draw: () => (
    <g>
      <Cut corners={box(14, 78, 146, 126)} />
      <Cut corners={[[154, 78], [286, 78], [286, 126], [148, 126]]} />
      <Solid as="wrong" d="M146 78H154L148 126H146Z" />
      <Leaf x={150} y={96} turn={-90} long={38} />
      <Finger x={104} y={78} turn={-12} />
      <Motion d="M60 64H84" end={[88, 64]} angle={0} />
      <Lamp x={256} y={44} turn={160} reach={80} />
      <Word x={190} y={18} says="0.05 mm leaf" tone="look" strong />
      <Word x={150} y={148} says="open" hold="middle" tone="wrong" strong />
      <Word x={10} y={22} says="nail across" tone="look" />
      <Word x={292} y={148} says="name the place" hold="end" tone="soft" />
    </g>
  ),
};

const binding: Drawing = {
  title: "A fingernail along the binding",
  says: "The edge of a body cut across: a strip of binding stands a hair away from the wood where the fingernail catches.",
  height: 160,
  draw: () => (
    <g>
      <Cut corners={[[20, 64], [196, 64], [196, 92], [214, 92], [214, 138], [20, 138]]} />
      <Shape as="outline" d="M201 64H216V90H199Z" />
      <Solid as="wrong" d="M196 64H201L199 90H196Z" />
      <Finger x={205} y={63} turn={24} />
      <Stroke as="wrong-fine" d="M190 44L198 62" />
      <Word x={184} y={40} says="gap" hold="end" tone="wrong" strong />
      <Word x={222} y={84} says="binding" />
      <Word x={20} y={50} says="top" tone="soft" />
      <Word x={14} y={156} says="waist, cutaway, fret ends" tone="look" />
    </g>
  ),
};

const inlays: Drawing = {
  title: "Count, then feel each one",
  says: "A board cut across two inlays: one flush, one standing proud under a fingertip; below, the dots in plan are counted.",
  height: 172,
  draw: () => (
    <g>
      <Cut corners={box(14, 66, 286, 96)} />
      <Shape as="outline" d="M56 66H106V80H56Z" />
      <Shape as="wrong" d="M186 61H236V80H186Z" />
      <Word x={81} y={54} says="flush" hold="middle" />
      <Finger x={186} y={60} turn={-22} />
      <Motion d="M146 40H164" end={[168, 40]} angle={0} />
      <Word x={216} y={48} says="proud" tone="wrong" strong />
      <Shape as="outline" d="M14 116H286V150H14Z" />
      <Stroke as="rule" d="M52 116V150M88 116V150M122 116V150M154 116V150M184 116V150M212 116V150M238 116V150M262 116V150" />
      <Stroke as="edge" d="M101 133a4 4 0 1 0 8 0a4 4 0 1 0 -8 0M165 133a4 4 0 1 0 8 0a4 4 0 1 0 -8 0M221 133a4 4 0 1 0 8 0a4 4 0 1 0 -8 0" />
      <Solid as="look" d="M103 150a3 3 0 1 0 6 0a3 3 0 1 0 -6 0M166 150a3 3 0 1 0 6 0a3 3 0 1 0 -6 0M222 150a3 3 0 1 0 6 0a3 3 0 1 0 -6 0" />
      <Word x={292} y={168} says="face and edge" hold="end" tone="look" />
    </g>
  ),
};

const headBreak: Drawing = {
  title: "Low light behind the nut, never bend it",
  says: "The back of a tilted head under a low lamp with a magnifier where head and neck meet, a fingertip passed across, a knuckle tapped and listened to.",
  height: 186,
  draw: () => (
    <g>
      <Shape as="outline" d="M294 84H128C112 84 102 92 88 102L24 142L14 128L84 72C96 62 108 58 124 58H294Z" />
      <NutSide x={136} y={58} height={12} thick={8} />
      <Stroke as="wrong" d="M92 99L97 92L95 84L101 78" />
      <Magnifier x={96} y={90} r={24} turn={-112} />
      <Lamp x={230} y={120} turn={192} reach={104} />
      <Finger x={74} y={112} turn={152} />
      <Word x={18} y={30} says="light, magnifier, fingertip" tone="look" strong />
      <Word x={18} y={48} says="tap and listen" tone="look" />
      <Word x={150} y={160} says="line across the grain" tone="wrong" />
      <Stroke as="wrong-fine" d="M146 154L104 104" />
      <Word x={292} y={180} says="strings slack when in doubt" hold="end" tone="soft" />
    </g>
  ),
};

const finishMark: Drawing = {
  title: "The rule beside the mark",
  says: "A mark in the finish with a rule laid beside it under one lamp, photographed from square above.",
  height: 160,
  draw: () => (
    <g>
      <Shape as="outline" d="M20 148V58Q20 44 36 44H292" />
      <Stroke as="wrong" d="M116 84L128 96L124 100L140 112M120 98L130 106" />
      <Rule x={60} y={120} long={150} />
      <Stroke as="chain" d="M114 74V134M142 74V134" />
      <Dimension from={[114, 78]} to={[142, 78]} />
      <Word x={152} y={74} says="largest length" tone="look" strong />
      <Camera x={128} y={36} turn={90} />
      <Lamp x={268} y={104} turn={180} reach={96} />
      <Word x={10} y={26} says="one lamp, square" tone="soft" />
    </g>
  ),
};

const tacky: Drawing = {
  title: "A warm hand for half a minute, then a cloth",
  says: "A flat hand rests on the finish, and a thumb presses a cloth onto it; what sticks or takes a print is noted.",
  height: 140,
  draw: () => (
    <g>
      <Cut corners={box(14, 88, 286, 116)} />
      <Stroke as="outline" d="M14 86H286" />
      <Palm x={84} y={85} />
      <Shape d="M176 85C190 80 232 80 254 85L248 78C236 74 196 74 184 78Z" />
      <Finger x={216} y={76} />
      <Stroke as="fine" d="M180 81h70" />
      <Word x={84} y={48} says="half a minute" hold="middle" tone="look" strong />
      <Word x={204} y={48} says="cloth," hold="end" tone="look" />
      <Word x={230} y={48} says="thumb" tone="look" />
      <Word x={14} y={134} says="neck and back" tone="soft" />
    </g>
  ),
};

const ripples = "M20 96C34 92 46 100 60 96C74 92 86 100 100 96C114 92 126 100 140 96C154 92 166 100 180 96H282";

const rakingNeck: Drawing = {
  title: "Lamp almost flat to the wood",
  says: "Light skims along the wood near the heel, so that sanding ripples throw shadows; then the place is felt with eyes closed.",
  height: 156,
  stretched: "Ripples drawn many times larger.",
  draw: () => (
    <g>
      <Shape as="outline" d={`${ripples}V128H20Z`} />
      <Stroke as="wrong" d="M40 97L46 98M80 97L86 98M120 97L126 98M160 97L166 98" />
      <Lamp x={262} y={82} turn={177} reach={220} />
      <Eye x={110} y={44} turn={90} sight={40} />
      <Finger x={212} y={95} turn={-26} long={36} />
      <Word x={14} y={32} says="turn the neck" tone="look" strong />
      <Word x={20} y={148} says="shadows: sanding left" tone="wrong" />
      <Word x={292} y={36} says="eyes closed, feel" hold="end" tone="look" />
    </g>
  ),
};

const rakingCutaway: Drawing = {
  title: "Along the inner wall of the cutaway",
  says: "A body with a cutaway: the lamp shines along the inner wall and round the horn, and a fingertip follows.",
  height: 170,
  draw: () => (
    <g>
      <Shape as="outline" d="M288 20C250 12 200 12 160 18C136 22 120 26 104 22C92 20 90 34 100 42C120 56 142 56 152 72C158 82 152 94 132 94H60V120H134C150 122 148 138 136 150" />
      <Stroke as="rule" d="M60 94V120M80 94V120M100 94V120M118 94V120" />
      <Stroke as="wrong" d="M118 48l-3 6M126 51l-3 7M134 55l-4 7M142 60l-5 6" />
      <Lamp x={52} y={66} turn={-8} reach={92} />
      <Finger x={152} y={72} turn={112} long={60} />
      <Word x={14} y={20} says="horn" tone="look" strong />
      <Stroke as="look-fine" d="M46 18L92 28" />
      <Word x={292} y={60} says="fingertip after" hold="end" tone="look" />
      <Word x={180} y={144} says="inner wall of each" tone="soft" />
    </g>
  ),
};

const neckJoint: Drawing = {
  title: "Gently sideways, feel at the heel",
  says: "The body on the lap, one hand at the heel, the other at the seventh fret pushing gently sideways; a click at the heel means the joint moves.",
  height: 176,
  draw: () => (
    <g>
      <Shape as="outline" d="M182 44C200 40 240 40 288 42M288 136C240 138 200 138 182 134C196 120 196 108 188 104H208V74H188C196 70 196 58 182 44" />
      <Shape d="M10 78L208 74V104L10 100Z" />
      <Stroke as="rule" d="M50 77V101M72 77V101M92 76V102M110 76V102M128 76V102M144 75V103M158 75V103" />
      <Stroke as="wrong" d="M188 70L200 74M188 108L200 104" />
      <Hand x={118} y={126} />
      <Motion d="M118 60V34" end={[118, 30]} angle={-90} />
      <Motion d="M118 34V60" end={[118, 64]} angle={90} />
      <Finger x={194} y={106} turn={160} long={52} />
      <Word x={132} y={30} says="gently, both ways" tone="look" strong />
      <Word x={214} y={164} says="feel here" tone="look" strong />
      <Word x={56} y={168} says="at fret 7" tone="look" />
      <Word x={224} y={94} says="a click" tone="wrong" />
    </g>
  ),
};

const pocket: Drawing = {
  title: "A leaf beside the neck, no force",
  says: "The neck in its pocket seen from above; a leaf is tried in the gap on each side.",
  height: 184,
  draw: () => (
    <g>
      <Shape as="outline" d="M122 22H286V142H122V116H232V48H122Z" />
      <Shape as="outline" d="M14 56L226 52V112L14 106Z" />
      <Stroke as="rule" d="M60 55V107M104 54V109M144 54V110M180 53V111M212 53V111" />
      <Stroke as="chain" d="M8 82H240" />
      <Leaf x={168} y={50} turn={-140} long={34} />
      <Leaf x={168} y={114} turn={140} long={34} />
      <Dimension from={[204, 42]} to={[204, 58]} />
      <Word x={212} y={40} says="gap" tone="look" strong />
      <Word x={240} y={86} says="body" tone="soft" />
      <Word x={20} y={86} says="neck" tone="soft" />
      <Word x={14} y={176} says="both sides; mind the finish" tone="soft" />
    </g>
  ),
};

const neckScrews: Drawing = {
  title: "Look only, no driver",
  says: "The plate on the back with four screws: one head is chewed, one stands crooked with the wood cracked round it.",
  height: 152,
  draw: () => (
    <g>
      <Shape as="outline" d="M66 36H206V124H66Z" />
      <ScrewHead x={90} y={58} r={11} />
      <ScrewHead x={182} y={58} chewed r={11} />
      <ScrewHead x={90} y={102} r={11} />
      <Shape as="wrong" d="M172 96C178 88 194 94 194 104C192 112 178 116 174 110Z" />
      <Stroke as="wrong" d="M206 112L222 118L218 124L234 130" />
      <Word x={216} y={62} says="chewed" tone="wrong" />
      <Word x={216} y={106} says="crooked" tone="wrong" />
      <Word x={238} y={144} says="crack" tone="wrong" />
      <Eye x={136} y={22} turn={90} sight={0} />
      <Word x={10} y={146} says="tried only when slack" tone="soft" />
    </g>
  ),
};

const strapButtons: Drawing = {
  title: "Pull and rock, over a cloth",
  says: "A strap button in a cut: its screw in the wood; fingers pull it out along the screw and rock it to the sides.",
  height: 158,
  draw: () => (
    <g>
      <Cut corners={box(14, 40, 150, 116)} />
      <Shape d="M84 74H150V82H84L78 78Z" />
      <Stroke as="fine" d="M90 74l5 8M100 74l5 8M110 74l5 8M120 74l5 8M130 74l5 8M140 74l5 8" />
      <Shape as="outline" d="M152 58H160C160 68 172 68 180 64V92C172 88 160 88 160 98H152Z" />
      <Finger x={172} y={64} turn={18} />
      <Finger x={172} y={92} turn={162} />
      <Motion d="M206 78H238" end={[244, 78]} angle={0} />
      <Motion d="M246 106Q256 78 246 50" end={[246, 50]} angle={-110} />
      <Word x={248} y={36} says="rock" tone="look" strong />
      <Word x={206} y={70} says="pull" tone="look" strong />
      <Word x={14} y={154} says="does the screw hold in the wood?" tone="soft" />
    </g>
  ),
};

const looseHardware: Drawing = {
  title: "Touch every part, then knock and listen",
  says: "The instrument in plan with marks at tuner bushings, pickup springs, saddle screws, knobs and strap buttons; a knuckle knocks on the body.",
  height: 168,
  draw: () => (
    <g>
      <Slab x={144} y={82} />
      <Stroke as="look" d="M34 66l8 -8M46 66l8 -8M34 108l8 -8M194 72l8 -8M216 72l8 -8M194 106l8 -8M240 74l8 -8M240 104l8 -8M256 114l8 -8M262 86l8 -8" />
      <Finger x={180} y={116} turn={196} long={34} />
      <Word x={10} y={46} says="bushings" tone="look" />
      <Word x={156} y={22} says="springs" tone="look" />
      <Stroke as="look-fine" d="M184 28L198 62" />
      <Word x={294} y={22} says="saddle screws" hold="end" tone="look" />
      <Stroke as="look-fine" d="M254 28L246 64" />
      <Word x={90} y={160} says="knock" tone="look" strong />
    </g>
  ),
};

export const wood = {
  bodyWood, boardWood, neckGrain, boardCracks, heatShade, seam, binding, inlays, headBreak, finishMark, tacky,
  rakingNeck, rakingCutaway, neckJoint, pocket, neckScrews, strapButtons, looseHardware,
} satisfies Record<string, Drawing>;
