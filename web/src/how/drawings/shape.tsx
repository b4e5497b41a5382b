// Shape, comfort and playing.

import { Dimension, Motion, Shape, Stroke, Word } from "../pen";
import { Amplifier, Caliper, Hand, Sound } from "../tools";
import { NeckAcross, Slab } from "../parts";
import type { Drawing } from "./drawing";

const neckCarve: Drawing = {
  title: "Square to the board, over wood, not over a fret",
  says: "A neck cut across between two frets; caliper jaws touch the board beside the middle strings and the back of the neck.",
  height: 204,
  draw: () => (
    <g>
      <NeckAcross x={120} y={66} half={68} deep={70} />
      <Stroke as="edge" d="M92 50a3 3 0 1 0 6 0a3 3 0 1 0 -6 0M68 52a3 3 0 1 0 6 0a3 3 0 1 0 -6 0" />
      <Caliper x={116} y={97} turn={90} open={78} jaw={92} />
      <Dimension as="look" from={[262, 58]} to={[262, 136]} />
      <Stroke as="fine" d="M120 58H268M120 136H268" />
      <Word x={294} y={52} says="thickness" hold="end" tone="look" strong />
      <Word x={10} y={24} says="between two frets" tone="look" />
      <Word x={10} y={186} says="beside the middle strings" tone="soft" />
    </g>
  ),
};

const edgeFeel: Drawing = {
  title: "Eyes closed, up and down, light pressure",
  says: "A neck cut across with a hand round it: the palm follows the back, fingertip and thumb feel both edges of the board.",
  height: 166,
  draw: () => (
    <g>
      <path class="pen-look pen-filled" d="M70 74C58 110 84 152 140 154C196 152 222 110 210 74C206 64 196 64 196 74C204 106 180 134 140 136C100 134 76 106 84 74C84 64 74 64 70 74Z" />
      <NeckAcross x={140} y={70} half={56} deep={56} />
      <Stroke as="wrong" d="M84 72l8 -10M188 62l8 10" />
      <Word x={140} y={34} says="edges of the board" hold="middle" tone="wrong" strong />
      <Stroke as="wrong-fine" d="M94 38L88 60M186 38L192 60" />
      <Word x={226} y={110} says="hand slides" tone="look" strong />
      <Word x={226} y={128} says="nut to heel" tone="look" />
      <Word x={10} y={162} says="stop where something is felt" tone="soft" />
    </g>
  ),
};

const upperReach: Drawing = {
  title: "Standing and seated, once each",
  says: "A hand reaches the last frets beside the body where the thumb passes the heel.",
  height: 172,
  draw: () => (
    <g>
      <Shape as="outline" d="M292 20H220C196 20 186 34 190 50C192 60 196 66 206 68H220V104H206C196 106 192 112 190 122C186 138 196 152 220 152H292" />
      <Shape as="outline" d="M10 66L232 62V110L10 106Z" />
      <Stroke as="rule" d="M44 66V106M74 65V107M100 65V107M124 64V108M146 64V108M164 63V109M180 63V109M194 63V109M206 63V109M216 62V110M224 62V110" />
      <Hand x={206} y={118} turn={-12} />
      <Stroke as="look" d="M206 110l8 -8M218 110l8 -8M212 96l8 -8" />
      <Word x={150} y={40} says="last frets" hold="end" tone="look" strong />
      <Stroke as="look-fine" d="M152 36L212 84" />
      <Word x={172} y={150} says="thumb" hold="end" tone="look" />
      <Word x={10} y={168} says="with the strap, then on the knee" tone="soft" />
    </g>
  ),
};

const headDive: Drawing = {
  title: "Hung from the strap, nut held level by a scale",
  says: "The instrument hangs on its strap; a spring scale at the nut holds the neck level and reads the force, no dive is nought.",
  height: 178,
  draw: () => (
    <g>
      <Slab x={150} y={118} />
      <Stroke as="outline" d="M270 112C268 60 226 18 186 30C160 40 150 78 174 84" />
      <Stroke as="edge" d="M68 112V92" />
      <Shape as="outline" d="M54 92V42H82V92Z" />
      <Stroke as="fine" d="M60 52h8M60 60h12M60 68h8M60 76h8M60 84h12" />
      <Stroke as="edge" d="M68 42V28" />
      <Motion d="M40 124V148" end={[40, 152]} angle={90} />
      <Word x={90} y={62} says="N" tone="look" strong />
      <Word x={10} y={22} says="until level" tone="look" strong />
      <Stroke as="chain" d="M14 118H290" />
      <Word x={292} y={22} says="strap" hold="end" tone="soft" />
      <Word x={52} y={172} says="no dive is 0 N" tone="soft" />
    </g>
  ),
};

const play: Drawing = {
  title: "Unplugged first, then through the amplifier",
  says: "A list of pieces is played unplugged, then through an amplifier; amplifier, controls, level, lead and pick are written down.",
  height: 170,
  draw: () => (
    <g>
      <g transform="translate(84 56) scale(0.6)"><Slab x={0} y={0} /></g>
      <Sound x={150} y={40} turn={-20} />
      <Word x={14} y={20} says="1 unplugged" tone="look" strong />
      <g transform="translate(84 124) scale(0.6)"><Slab x={0} y={0} /></g>
      <Stroke as="outline" d="M156 124C166 124 160 146 172 146H182" />
      <g transform="translate(182 154) scale(0.8)"><Amplifier x={0} y={0} /></g>
      <Word x={14} y={94} says="2 amplifier" tone="look" strong />
      <Shape as="outline" d="M198 10H290V86H198Z" />
      <Word x={206} y={28} says="same list" strong />
      <Stroke as="fine" d="M206 40h74M206 52h74M206 64h60M206 76h68" />
      <Word x={240} y={108} says="write" tone="look" />
      <Word x={240} y={126} says="the set" tone="look" />
      <Word x={240} y={144} says="of it" tone="look" />
      <Word x={14} y={168} says="amplifier, controls, level, lead, pick" tone="soft" />
    </g>
  ),
};

export const shape = { neckCarve, edgeFeel, upperReach, headDive, play } satisfies Record<string, Drawing>;
