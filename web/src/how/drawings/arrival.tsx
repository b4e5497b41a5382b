// Arrival and identity: before anything is touched.

import { At, Cut, Dimension, Motion, Shape, Solid, Stroke, Word, box } from "../pen";
import { Camera, Eye, Hand, Lamp, Pick, Rule, ScrewHead, Thermometer } from "../tools";
import { Head, Plan, Slab, planX, type PlanShape } from "../parts";
import type { Drawing } from "./drawing";

const carton: Drawing = {
  title: "Six faces before it is opened",
  says: "A long carton with a label and a dented corner, a camera pointed at each of its faces.",
  height: 198,
  draw: () => (
    <g>
      <Shape as="outline" d="M60 70H222V128H60Z" />
      <Shape as="outline" d="M60 70L92 44H254L222 70Z" />
      <Shape as="outline" d="M222 70L254 44V102L222 128Z" />
      <Stroke as="fine" d="M60 96H222L254 70M140 70L172 44" />
      <Shape d="M76 78H118V90H76Z" />
      <Stroke as="fine" d="M80 82h30M80 86h20" />
      <Shape as="wrong" d="M60 128V112L68 118L64 122L76 128Z" />
      <Word x={60} y={147} says="dent" tone="wrong" />
      <Camera x={44} y={96} />
      <Camera x={150} y={160} turn={-90} />
      <Camera x={262} y={124} turn={-150} />
      <Camera x={218} y={36} turn={90} />
      <Word x={10} y={20} says="all six and the label" strong />
    </g>
  ),
};

const rest: Drawing = {
  title: "Closed case, resting in the room",
  says: "A closed case stands beside a clock, a thermometer and a hygrometer; heat goes into it slowly.",
  height: 160,
  draw: () => (
    <g>
      <Stroke as="edge" d="M8 136H292" />
      <Shape as="outline" d="M24 136V96Q24 88 32 88H176Q184 88 184 96V136Z" />
      <Stroke as="edge" d="M24 110H184M52 106v9h8v-9zM148 106v9h8v-9z" />
      <Shape d="M88 88V82H120V88" />
      <Stroke as="look-dashed" d="M104 64V84M14 112H40M198 112H168" />
      <Word x={104} y={56} says="12 h, closed" hold="middle" strong tone="look" />
      <Thermometer x={214} y={136} />
      <Shape d="M240 84H288V116H240Z" />
      <Word x={264} y={106} says="46 %" hold="middle" strong />
      <Stroke as="edge" d="M264 116V136" />
      <Shape as="outline" d="M264 66a18 18 0 1 0 -0.1 0Z" />
      <Stroke as="edge" d="M264 38V48L271 52" />
      <Word x={8} y={154} says="note time, temperature and humidity" tone="soft" />
    </g>
  ),
};

const openPitch: Drawing = {
  title: "Every open string as it arrived",
  says: "A pick strikes an open string between nut and saddle; below, six strokes show how far each string lies from pitch.",
  height: 178,
  draw: () => (
    <g>
      <Shape d="M24 58V38H34V58ZM262 58V40H274V58Z" />
      <Stroke as="string" d="M10 44L34 40Q148 26 264 42L290 50" />
      <Stroke as="look-dashed" d="M34 40Q148 56 264 42" />
      <Stroke as="edge" d="M10 58H290" />
      <Pick x={206} y={36} />
      <Word x={20} y={20} says="open, nothing turned yet" strong />
      <Stroke as="chain" d="M150 92V164" />
      <Stroke as="fine" d="M50 92V164M250 92V164" />
      {[-12, -10, -16, -11, -13, -70].map((cents, i) => (
        <g key={i}>
          <Stroke as="fine" d={`M50 ${98 + i * 12}H250`} />
          <Stroke as={cents < -50 ? "wrong" : "outline"} d={`M${150 + cents} ${94 + i * 12}v8`} />
        </g>
      ))}
      <Word x={150} y={86} says="at pitch" hold="middle" tone="soft" />
      <Word x={50} y={86} says="100 cents flat" hold="middle" tone="soft" />
      <Word x={292} y={86} says="100 sharp" hold="end" tone="soft" />
      <Word x={14} y={103} says="1" tone="soft" />
      <Word x={14} y={163} says="6" tone="soft" />
      <Word x={92} y={176} says="one off: its tuner or windings" tone="wrong" />
    </g>
  ),
};

const promises: Drawing = {
  title: "One line for each promise",
  says: "An advert beside the instrument; each promise is joined by a line to the place where it can be checked.",
  height: 176,
  draw: () => (
    <g>
      <At x={166} y={132}><g transform="scale(0.96)"><Slab x={0} y={0} /></g></At>
      <Shape as="outline" d="M10 10H116V96H10Z" />
      <Word x={18} y={28} says="advert" strong />
      <Stroke as="fine" d="M18 34H108" />
      <Word x={18} y={51} says="nut 43 mm" />
      <Word x={18} y={69} says="body of ash" />
      <Word x={18} y={87} says="weighs 3.4 kg" />
      <Stroke as="look" d="M116 46H134V84L92 122" />
      <Stroke as="look" d="M116 64H250V94" />
      <Stroke as="look" d="M116 82H170V124" />
      <Stroke as="look" d="M87 127l9 -10M245 99l10 -10M165 129l10 -10" />
      <Word x={292} y={44} says="which line, from whom" hold="end" tone="soft" />
    </g>
  ),
};

const marks: Drawing = {
  title: "Marks under a slanting lamp",
  says: "Head, neck plate and label are photographed while a lamp shines flat across them.",
  height: 202,
  draw: () => (
    <g>
      <At x={128} y={72}><Head x={0} y={0} /></At>
      <Shape d="M128 58L168 56V88L128 86Z" />
      <Word x={74} y={77} says="No. 0412" hold="middle" strong />
      <Shape as="outline" d="M196 76H284V126H196Z" />
      <ScrewHead x={206} y={86} r={6} />
      <ScrewHead x={274} y={86} r={6} />
      <ScrewHead x={206} y={116} r={6} />
      <ScrewHead x={274} y={116} r={6} />
      <Word x={240} y={106} says="0412" hold="middle" strong />
      <Lamp x={268} y={30} turn={152} reach={120} />
      <Camera x={76} y={164} turn={-90} />
      <Camera x={240} y={164} turn={-90} />
      <Word x={130} y={150} says="do they agree?" tone="look" strong />
    </g>
  ),
};

const changedParts: Drawing = {
  title: "Traces of another part",
  says: "Spare screw holes beside a bridge plate, a chewed screw head, and a patch that glows differently under the ultraviolet lamp.",
  height: 170,
  draw: () => (
    <g>
      <Shape as="outline" d="M34 48H136V112H34Z" />
      <ScrewHead x={50} y={62} />
      <ScrewHead x={120} y={62} chewed />
      <ScrewHead x={50} y={98} />
      <ScrewHead x={120} y={98} />
      <Solid as="wrong" d="M20 62a4 4 0 1 0 8 0a4 4 0 1 0 -8 0M20 98a4 4 0 1 0 8 0a4 4 0 1 0 -8 0" />
      <Word x={10} y={136} says="spare holes" tone="wrong" />
      <Stroke as="wrong-fine" d="M24 124V104" />
      <Word x={90} y={30} says="chewed head" tone="wrong" />
      <Stroke as="wrong-fine" d="M124 34L121 52" />
      <Shape as="outline" d="M176 150V66Q176 54 190 54H292" />
      <Stroke as="edge" d="M292 150H176" />
      <Cut tone="wrong" corners={[[212, 96], [236, 84], [264, 92], [270, 118], [248, 132], [220, 124]]} />
      <Lamp x={202} y={32} turn={62} reach={58} />
      <Word x={226} y={30} says="ultraviolet" />
      <Word x={184} y={146} says="glows differently" tone="wrong" />
      <Word x={34} y={158} says="never look into it" tone="soft" />
    </g>
  ),
};

const scalePlan: PlanShape = { nut: 26, end: 214, y: 66, nutHalf: 22, endHalf: 30, last: 22 };

const scale: Drawing = {
  title: "Front of the nut to the last fret",
  says: "A rule lies along the middle of the neck from the front edge of the nut to the centre of the last fret; the saddle is not used.",
  height: 160,
  draw: () => (
    <g>
      <Plan plan={scalePlan} stringEnd={272} />
      <Shape d="M262 38H268V94H262Z" />
      <Rule x={26} y={58} long={222} wide={16} />
      <Stroke as="chain" d={`M26 32V132M${planX(scalePlan, 22)} 26V132`} />
      <Dimension from={[26, 120]} to={[planX(scalePlan, 22), 120]} />
      <Word x={118} y={142} says="nut to last fret" hold="middle" tone="look" strong />
      <Stroke as="wrong" d="M256 30L276 102M276 30L256 102" />
      <Word x={294} y={122} says="no end mark" hold="end" tone="wrong" />
      <Word x={26} y={20} says="front edge of the nut" tone="soft" />
    </g>
  ),
};

const weight: Drawing = {
  title: "Hung still, over something soft",
  says: "The instrument hangs by its strap button from a hanging scale above a cushion, with a hand held below.",
  height: 214,
  draw: () => (
    <g>
      <Stroke as="outline" d="M84 8H176" />
      <Stroke as="edge" d="M130 8V16" />
      <Shape as="outline" d="M106 16H154V44H106Z" />
      <Word x={130} y={36} says="3.46" hold="middle" strong />
      <Stroke as="edge" d="M130 44V52C138 52 138 60 130 60" />
      <g transform="translate(130 118) rotate(-90) scale(0.48)"><Slab x={0} y={0} /></g>
      <Hand x={188} y={158} turn={-78} />
      <Shape as="outline" d="M60 204C52 186 66 190 90 188H172C196 190 208 186 200 204Z" />
      <Word x={168} y={36} says="kg, when it is still" tone="look" />
      <Word x={214} y={190} says="hand ready" tone="soft" />
    </g>
  ),
};

const leftHanded: Drawing = {
  title: "Everything turned for the left hand",
  says: "Seen from above with the head at the right: thick slots and the saddles set further back belong to the bass strings, the side dots sit on the bass edge.",
  height: 178,
  draw: () => {
    const bass = [1, 1.4, 1.8, 2.2, 2.7, 3.2];
    return (
      <g>
        <Shape as="outline" d="M60 44L232 52V112L60 120Z" />
        <Solid d="M232 50H239V114H232Z" />
        <Stroke as="rule" d="M208 51V113M184 50V114M160 49V115M136 48V116M112 47V117M88 46V118" />
        {bass.map((w, i) => (
          <path key={i} class="pen-string" style={{ strokeWidth: `${w}px` }}
            d={`M${24 + i * -1.5} ${56 + i * 10.4}L290 ${60 + i * 8.8}`} />
        ))}
        {bass.map((_, i) => <Shape key={i} d={`M${28 - i * 2.5} ${52 + i * 10.4}h10v8h-10Z`} />)}
        <Solid as="look" d="M168 117a3 3 0 1 0 6 0a3 3 0 1 0 -6 0M120 119a3 3 0 1 0 6 0a3 3 0 1 0 -6 0" />
        <Stroke as="look-fine" d="M236 122V136M22 128V140M148 122V152" />
        <Word x={294} y={150} says="widest slot" hold="end" tone="look" />
        <Word x={6} y={156} says="furthest back" tone="look" />
        <Word x={150} y={168} says="side dots" hold="middle" tone="look" />
        <Eye x={148} y={30} turn={90} />
        <Word x={6} y={18} says="head at the right" tone="soft" />
        <Word x={294} y={36} says="string 1" hold="end" tone="soft" />
      </g>
    );
  },
};

const accessories: Drawing = {
  title: "Laid out and counted",
  says: "Case, strap, keys and papers lie side by side, each ticked on the list or marked as missing.",
  height: 150,
  draw: () => (
    <g>
      <Shape as="outline" d="M14 34Q14 26 22 26H108Q116 26 116 34V82H14Z" />
      <Stroke as="edge" d="M14 48H116M52 26V20H78V26M34 44v9h8v-9zM88 44v9h8v-9z" />
      <Stroke as="outline" d="M20 104V128M20 106H44" />
      <Stroke as="outline" d="M62 104V128M62 106H78" />
      <Shape d="M96 98H134V134H96Z" />
      <Stroke as="fine" d="M102 106h26M102 114h26M102 122h14" />
      <Shape as="outline" d="M176 12H290V138H176Z" />
      {["case", "keys, 2", "papers", "lever"].map((what, i) => (
        <g key={what}>
          <Word x={204} y={36 + i * 28} says={what} />
          {i < 3
            ? <Stroke as="look" d={`M184 ${30 + i * 28}l4 6l9 -12`} />
            : <Stroke as="wrong" d="M184 108v-4h4M197 108v-4h-4M184 117v4h4M197 117v4h-4" />}
        </g>
      ))}
      <Word x={238} y={120} says="missing" tone="wrong" />
      <Motion d="M122 70H160" end={[166, 70]} angle={0} />
    </g>
  ),
};

const outline: Drawing = {
  title: "Length, width, depth",
  says: "The instrument in plan and from the side, with its longest length, widest body and depth over bridge and knobs.",
  height: 196,
  draw: () => (
    <g>
      <Slab x={142} y={62} />
      <Shape d="M262 58H268V66H262Z" />
      <Stroke as="fine" d="M20 62V122M268 70V122" />
      <Dimension from={[20, 116]} to={[268, 116]} />
      <Word x={110} y={110} says="length" hold="middle" tone="look" strong />
      <Dimension from={[282, 18]} to={[282, 106]} />
      <Stroke as="fine" d="M232 18H288M232 106H288" />
      <Word x={296} y={13} says="width" hold="end" tone="look" strong />
      <SideView />
      <Dimension from={[282, 134]} to={[282, 176]} />
      <Stroke as="fine" d="M250 134H288M262 176H288" />
      <Word x={292} y={193} says="depth over all" hold="end" tone="look" strong />
    </g>
  ),
};

function SideView() {
  return (
    <g>
      <Shape as="outline" d="M162 142H262V176H166Q162 176 162 172Z" />
      <Shape d="M58 140H182V144H162V156H66C52 156 46 160 20 166V158C38 152 48 147 58 147Z" />
      <Shape d="M232 142V134H248V142Z" />
    </g>
  );
}

const price: Drawing = {
  title: "The asked price among real sales",
  says: "Sales of like instruments stand on one line with their span; the asked price and the cost of repairs are set against it.",
  height: 140,
  draw: () => (
    <g>
      <Stroke as="edge" d="M14 84H286" />
      <Stroke as="outline" d="M60 76v16M104 76v16M122 76v16M160 76v16M184 76v16" />
      <Dimension from={[60, 106]} to={[184, 106]} />
      <Word x={122} y={128} says="sales, with place and date" hold="middle" tone="look" />
      <Stroke as="look" d="M196 40V92" />
      <Word x={196} y={34} says="asked" hold="middle" tone="look" strong />
      <Stroke as="wrong" d="M196 62H252M252 56v12" />
      <Word x={294} y={54} says="with repairs" hold="end" tone="wrong" />
      <Word x={14} y={34} says="at least three" tone="soft" />
    </g>
  ),
};

const secondLook: Drawing = {
  title: "Again, without the first answers",
  says: "Eight lines drawn by lot are looked at once more by a second person while the first answers are covered.",
  height: 150,
  draw: () => (
    <g>
      <Shape as="outline" d="M14 14H118V138H14ZM182 14H286V138H182Z" />
      <Word x={24} y={34} says="first" strong />
      <Word x={192} y={34} says="second" strong />
      {Array.from({ length: 8 }, (_, i) => (
        <g key={i}>
          <Stroke as="fine" d={`M192 ${56 + i * 10}H276`} />
          {i < 5 && <Stroke as="look" d={`M258 ${52 + i * 10}h16`} />}
        </g>
      ))}
      <Cut corners={box(22, 46, 110, 130)} />
      <Word x={66} y={92} says="covered" hold="middle" strong />
      <Motion d="M128 82H166" end={[172, 82]} angle={0} />
      <Word x={150} y={72} says="8 by lot" hold="middle" tone="look" />
    </g>
  ),
};

export const arrival = {
  carton, rest, openPitch, promises, marks, changedParts, scale, weight, leftHanded, accessories, outline, price,
  secondLook,
} satisfies Record<string, Drawing>;
