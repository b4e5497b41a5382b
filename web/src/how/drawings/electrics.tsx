// Electrics: everything is read at the free plug first, the cavity stays closed as long as it can.

import { At, Motion, Shape, Solid, Stroke, Word } from "../pen";
import { Amplifier, Camera, Finger, Meter, Plug, Probe, ScrewHead, Sound } from "../tools";
import { Slab } from "../parts";
import type { Drawing } from "./drawing";

/** Body end with the lead in its jack, the free plug at the lower left. */
function LeadOut() {
  return (
    <g>
      <g transform="translate(176 44) scale(0.7)"><Slab x={0} y={0} /></g>
      <Stroke as="outline" d="M262 44H276Q290 44 290 60V112Q290 130 272 130H206" />
      <Plug x={94} y={130} />
    </g>
  );
}

const ground: Drawing = {
  title: "Sleeve of the free plug to bare metal",
  says: "A lead is in the jack; one tip of the meter touches the sleeve of its free plug, the other bare metal at the bridge, scratched through any coating.",
  height: 200,
  draw: () => (
    <g>
      <LeadOut />
      <Meter x={10} y={100} says="0.4 ohm" />
      <Stroke as="edge" d="M26 92C26 116 44 130 60 172C66 188 120 196 134 178" />
      <Probe x={134} y={137} turn={180} long={30} />
      <Stroke as="edge" d="M64 92C84 108 150 116 204 98C232 90 244 86 246 82" />
      <Probe x={245} y={46} turn={176} long={30} />
      <Word x={150} y={158} says="sleeve" tone="look" strong />
      <Word x={294} y={106} says="bare metal" hold="end" tone="look" strong />
      <Word x={10} y={26} says="to 2 ohm" strong />
      <Word x={294} y={192} says="graphite saddles do not count" hold="end" tone="soft" />
    </g>
  ),
};

const ohms: Drawing = {
  title: "At the plug end of the lead, strings still",
  says: "A lead is in the jack; the meter's tips touch tip and sleeve of its free plug, once for each switch position.",
  height: 200,
  draw: () => (
    <g>
      <LeadOut />
      <Meter x={10} y={100} says="7.15 k" />
      <Stroke as="edge" d="M26 92C26 120 60 118 98 102" />
      <Probe x={102} y={124} turn={4} long={24} />
      <Stroke as="edge" d="M64 92C84 96 96 188 134 180" />
      <Probe x={134} y={137} turn={180} long={30} />
      <Word x={112} y={106} says="tip" tone="look" strong />
      <Word x={150} y={158} says="sleeve" tone="look" strong />
      <Word x={10} y={26} says="each switch" strong />
      <Word x={10} y={40} says="position" strong />
      <Word x={294} y={192} says="write the room's temperature" hold="end" tone="soft" />
    </g>
  ),
};

const insideOhms: Drawing = {
  title: "Hot lead off, then read",
  says: "An open cavity with a control; the pickup's hot lead is unsoldered from its tag and the meter reads across the two free leads.",
  height: 186,
  draw: () => (
    <g>
      <Shape as="outline" d="M100 34Q100 20 116 20H270Q288 20 288 38V122Q288 140 270 140H116Q100 140 100 122Z" />
      <Shape as="outline" d="M252 82a28 28 0 1 1 -56 0a28 28 0 1 1 56 0" />
      <Shape d="M204 106h10v22h-10ZM219 110h10v22h-10ZM234 106h10v22h-10Z" />
      <Stroke as="outline" d="M100 60C140 60 150 66 156 78" />
      <Stroke as="outline" d="M100 72C120 72 126 96 138 106" />
      <Stroke as="look-dashed" d="M156 78C176 108 190 128 206 126" />
      <Stroke as="wrong" d="M170 96L184 112M184 96L170 112" />
      <Meter x={10} y={152} says="7.15 k" />
      <Probe x={156} y={78} turn={150} long={24} />
      <Probe x={138} y={106} turn={196} long={24} />
      <Stroke as="edge" d="M26 144C40 176 120 168 140 136M64 144C96 170 190 150 172 108" />
      <Word x={112} y={46} says="hot lead off its tag" tone="look" strong />
      <Word x={104} y={180} says="hold the leads, not the tags" tone="soft" />
      <Camera x={52} y={40} turn={0} />
      <Word x={10} y={80} says="photo first" tone="look" />
    </g>
  ),
};

const tapPickup: Drawing = {
  title: "Tap each pickup in each position",
  says: "A small steel blade taps the poles of one pickup after another; an amplifier at low volume tells which one sounds in this switch position.",
  height: 170,
  draw: () => (
    <g>
      <Shape as="outline" d="M20 40H190V60H20ZM20 104H190V124H20Z" />
      {[36, 66, 96, 126, 156].map((x) => (
        <Stroke key={x} as="edge" d={`M${x} 50a5 5 0 1 0 10 0a5 5 0 1 0 -10 0M${x} 114a5 5 0 1 0 10 0a5 5 0 1 0 -10 0`} />
      ))}
      <At x={131} y={114} turn={24}><Shape as="look" d="M-2 0V-40H-6V-70H6V-40H2V0Z" /></At>
      <Motion d="M112 74V92" end={[112, 96]} angle={90} />
      <g transform="translate(224 112)"><Amplifier x={0} y={0} /></g>
      <Sound x={226} y={40} turn={-60} />
      <Word x={20} y={30} says="neck" />
      <Word x={20} y={144} says="bridge" />
      <Word x={20} y={84} says="small blade" tone="look" strong />
      <Word x={292} y={134} says="low volume" hold="end" tone="look" />
      <Word x={20} y={164} says="off the strings" tone="soft" />
    </g>
  ),
};

const sweep: Drawing = {
  title: "End to end twice, strings damped",
  says: "A hand lies on the strings; a control is turned from end to end and the switch is clicked, while the amplifier is listened to.",
  height: 164,
  draw: () => (
    <g>
      <Stroke as="outline" d="M10 112H220" />
      <Shape as="outline" d="M46 112V104H94V112ZM52 104V74H88V104Z" />
      <Shape d="M56 112H84V134H56ZM64 134H76V142H64Z" />
      <Stroke as="chain" d="M70 60V152" />
      <Finger x={51} y={88} turn={-76} long={34} />
      <Finger x={89} y={88} turn={76} long={34} />
      <Motion d="M44 58A28 10 0 0 1 96 58" end={[97, 60]} angle={60} />
      <Motion d="M96 58A28 10 0 0 0 44 58" end={[43, 60]} angle={120} />
      <Shape as="outline" d="M152 112V104H196V112Z" />
      <Shape d="M170 104L160 78H168L178 104Z" />
      <Motion d="M154 66H190" end={[194, 66]} angle={0} />
      <g transform="translate(230 118)"><Amplifier x={0} y={0} /></g>
      <Word x={14} y={24} says="0 to 10 and back, twice" tone="look" strong />
      <Word x={292} y={48} says="click the switch" hold="end" tone="look" />
      <Word x={110} y={150} says="a hand damps the strings" tone="soft" />
    </g>
  ),
};

const phase: Drawing = {
  title: "Each alone, then both",
  says: "Levels of neck pickup, bridge pickup and both together; both should not fall hollow below one, and hum should drop where that was promised.",
  height: 172,
  draw: () => (
    <g>
      <Stroke as="edge" d="M14 122H286" />
      <Stroke as="fine" d="M24 122V56H66V122M90 122V58H132V122M156 122V50H198V122" />
      <Stroke as="outline" d="M24 56H66M90 58H132M156 50H198" />
      <Stroke as="wrong" d="M222 122V96H264V122" />
      <Stroke as="look-dashed" d="M14 57H286" />
      <Word x={45} y={142} says="neck" hold="middle" />
      <Word x={111} y={142} says="bridge" hold="middle" />
      <Word x={177} y={142} says="both" hold="middle" tone="look" strong />
      <Word x={243} y={142} says="hollow" hold="middle" tone="wrong" strong />
      <Word x={14} y={24} says="same level, same chord" tone="look" strong />
      <Word x={14} y={166} says="then hum: touch the strings, turn round" tone="soft" />
    </g>
  ),
};

const jackHold: Drawing = {
  title: "Circle the plug gently",
  says: "A plug in the jack is moved in a small circle with the volume low; a turning jack, a crackle or a plug that falls out is noted.",
  height: 158,
  draw: () => (
    <g>
      <Shape as="outline" d="M96 16V142M96 16H20M96 142H20" />
      <Shape d="M88 52H96V108H88Z" />
      <Shape d="M96 62H106V98H96Z" />
      <Stroke as="fine" d="M88 70H52V76M88 90H64V84" />
      <At x={52} y={80}><Plug x={0} y={0} /></At>
      <Motion d="M214 52A16 30 0 1 1 212 108" end={[210, 108]} angle={190} />
      <Finger x={130} y={68} />
      <Finger x={130} y={92} turn={180} />
      <Word x={150} y={32} says="small circle" tone="look" strong />
      <Word x={150} y={142} says="crackle? falls out?" tone="wrong" />
      <Stroke as="wrong-fine" d="M102 120L102 102" />
      <Word x={14} y={134} says="turns?" tone="wrong" />
    </g>
  ),
};

const cavity: Drawing = {
  title: "Photograph first, each screw by its hole",
  says: "A cavity with its plate laid beside it and every screw lying by its hole; a dull joint and a bare lead are marked.",
  height: 178,
  draw: () => (
    <g>
      <Shape as="outline" d="M14 40Q14 26 28 26H150Q166 26 166 42V128Q166 144 150 144H28Q14 144 14 128Z" />
      <Shape as="outline" d="M84 68a20 20 0 1 1 -40 0a20 20 0 1 1 40 0M144 100a20 20 0 1 1 -40 0a20 20 0 1 1 40 0" />
      <Solid d="M52 92a4 4 0 1 0 8 0a4 4 0 1 0 -8 0M68 92a4 4 0 1 0 8 0a4 4 0 1 0 -8 0" />
      <Solid as="wrong" d="M112 124a5 5 0 1 0 10 0a5 5 0 1 0 -10 0" />
      <Stroke as="edge" d="M56 92C54 112 90 122 116 124M72 92C80 104 92 100 104 100" />
      <Stroke as="wrong" d="M30 120C40 116 50 126 58 118L66 122" />
      <Shape as="outline" d="M206 50Q206 40 216 40H276Q286 40 286 50V116Q286 126 276 126H216Q206 126 206 116Z" />
      <ScrewHead x={216} y={50} r={5} />
      <ScrewHead x={276} y={50} r={5} />
      <ScrewHead x={216} y={116} r={5} />
      <ScrewHead x={276} y={116} r={5} />
      <Camera x={186} y={92} turn={180} />
      <Word x={246} y={30} says="cover" hold="middle" />
      <Word x={292} y={146} says="screw by its hole" hold="end" tone="look" strong />
      <Word x={14} y={164} says="bare lead, dull joint" tone="wrong" />
      <Word x={14} y={18} says="photo before touching" tone="look" strong />
    </g>
  ),
};

const battery: Drawing = {
  title: "Nine volts, and no white crust",
  says: "A nine volt block in its box is read with the meter across both terminals; under about seven and a half volts it is done, white crust is a leak.",
  height: 170,
  draw: () => (
    <g>
      <Shape as="outline" d="M132 74H270V146H132Z" />
      <Shape as="outline" d="M154 86H262V136H154Z" />
      <Shape d="M142 96H154V106H142ZM142 116H154V126H142Z" />
      <Word x={208} y={117} says="9 V" hold="middle" strong />
      <Meter x={10} y={84} says="9.1 V" />
      <Probe x={143} y={101} turn={-70} long={26} />
      <Probe x={143} y={121} turn={-112} long={26} />
      <Stroke as="edge" d="M26 76C26 96 72 88 104 86M64 76C60 108 80 136 106 136" />
      <Stroke as="wrong" d="M258 128l8 4M256 134l8 6M262 124l8 2" />
      <Word x={292} y={164} says="white crust: leaked" hold="end" tone="wrong" />
      <Word x={92} y={34} says="under about 7.5 V: done" tone="wrong" />
      <Word x={92} y={54} says="held still in its box?" tone="look" />
    </g>
  ),
};

export const electrics = { ground, ohms, insideOhms, tapPickup, sweep, phase, jackHold, cavity, battery } satisfies
  Record<string, Drawing>;
