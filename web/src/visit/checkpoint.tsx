// The checkpoint in hand: what is asked, what to mind, the place where it is answered.

import { useSignal } from "@preact/signals";
import type { ProcedureCheckpoint } from "../api/types";
import { How } from "../how/how";
import { Button, NoticeLine } from "../look/parts";
import { directionFor, setDirection } from "../settings";
import { checkpointNamed, isWords } from "./catalogue";
import { WhileOpen } from "./closing";
import type { Desk } from "./desk";
import { Ways } from "./entry_tools";
import { Heard } from "./heard";
import { Judged } from "./judged";
import { Measured } from "./measured";
import { barred as barredBy, passedOver } from "./order";
import { directionWords } from "./places";

export function Checkpoint({ desk, checkpoint }: { desk: Desk; checkpoint: ProcedureCheckpoint }) {
  const how = useSignal(false);
  const barred = barredBy(desk.view.value, desk.catalogue, checkpoint.id);
  return (
    <article
      class={`checkpoint ${desk.observable.value ? "checkpoint-measured" : ""}`}
      aria-labelledby="checkpoint-title">
      <Head
        desk={desk}
        checkpoint={checkpoint}
        how={how.value}
        onHow={() => {
          how.value = !how.value;
        }}
      />
      {how.value && <How checkpoint={checkpoint} />}
      <PassedOver desk={desk} id={checkpoint.id} />
      <Cautions desk={desk} checkpoint={checkpoint} barred={barred} />
      {!barred && (
        <WhileOpen desk={desk}>
          <Answering desk={desk} checkpoint={checkpoint} />
        </WhileOpen>
      )}
      {barred && (
        <Button go onPress={desk.onward}>
          Next checkpoint
        </Button>
      )}
    </article>
  );
}

function Answering({ desk, checkpoint }: { desk: Desk; checkpoint: ProcedureCheckpoint }) {
  if (checkpoint.id === "ring-test" || desk.observable.value?.name === "note")
    return <Heard desk={desk} checkpoint={checkpoint} />;
  if (desk.observable.value) return <Measured desk={desk} checkpoint={checkpoint} />;
  return <Judged desk={desk} checkpoint={checkpoint} />;
}

function Head({
  desk,
  checkpoint,
  how,
  onHow,
}: {
  desk: Desk;
  checkpoint: ProcedureCheckpoint;
  how: boolean;
  onHow: () => void;
}) {
  const observable = desk.observable.value;
  const heard = observable?.name === "note" || observable?.name === "dead spot";
  const direction = observable && !heard ? directionWords(desk.cells.value) : "";
  const turn = () => {
    if (observable)
      setDirection(
        observable.name,
        directionFor(observable.name) === "bass first" ? "treble first" : "bass first",
      );
    desk.active.value = 0;
  };
  return (
    <header class="checkpoint-head">
      <h2 id="checkpoint-title" tabIndex={-1}>
        {checkpoint.title}
        {observable && !isWords(observable) ? openWords(checkpoint) : ""}
      </h2>
      <p class="checkpoint-asks">
        <StageKey desk={desk} />{" "}
        {direction && (
          <button type="button" class="plain" onClick={turn} aria-label={`${direction} Turn round`}>
            {direction}
          </button>
        )}{" "}
        {checkpoint.question}
      </p>
      {!heard && <Ways desk={desk} checkpoint={checkpoint} />}
      <button type="button" class="plain how-key" aria-expanded={how} onClick={onHow}>
        {how ? "Close how" : "How and why"}
      </button>
    </header>
  );
}

const stageWords: Record<string, string> = {
  arrival: "As it came in.",
  before: "Before any work.",
  after: "After the work.",
  "hand-over": "At the hand-over.",
};

/** What is read now counts for this stage; a tap changes it. */
function StageKey({ desk }: { desk: Desk }) {
  const stage = desk.stage.value;
  return (
    <button
      type="button"
      class={`plain stage-key ${stage === "arrival" ? "stage-usual" : ""}`}
      aria-label={`Stage of what is read now: ${stage}. Change`}
      onClick={() => {
        desk.panel.value = "visit";
      }}>
      {stageWords[stage] ?? stage}
    </button>
  );
}

const openWords = (checkpoint: ProcedureCheckpoint) =>
  checkpoint.each === "string" && checkpoint.reads?.includes("string height") ? ", open" : "";

/** What the step onward left out before this one, so that nobody looks for it. */
function PassedOver({ desk, id }: { desk: Desk; id: string }) {
  const passed = passedOver(desk.view.value, desk.catalogue, id);
  if (passed.length === 0) return null;
  const titled = passed.map((one) => `${checkpointNamed(desk.catalogue, one.id)?.title ?? one.id} (${one.why})`);
  return <p class="caption">Passed over, not allowed with these hands: {titled.join("; ")}.</p>;
}

const disturbs: Record<string, string> = {
  "slackens strings":
    "This slackens the strings. Take everything that needs them at pitch before it, and never cut them over a face.",
  "turns a screw": "This turns a screw. A quarter turn at most, retune, read again; never force it.",
  "opens a cavity": "This opens a cavity. Lead out, hands off solder and springs, note where every screw sat.",
};

function Cautions({ desk, checkpoint, barred }: { desk: Desk; checkpoint: ProcedureCheckpoint; barred: string }) {
  const words = disturbs[checkpoint.disturbs ?? ""];
  const change = {
    says: "What hands may do",
    onPress: () => {
      desk.panel.value = "visit";
    },
  };
  if (barred)
    return (
      <NoticeLine strong="Not allowed with these hands." cures={[change]}>
        {barred}.
      </NoticeLine>
    );
  const said = desk.view.value.assessment.cautions;
  return (
    <>
      {words && <NoticeLine strong="Mind.">{words}</NoticeLine>}
      {words &&
        said.map((one) => (
          <NoticeLine key={one} strong="Mind.">
            {one}
          </NoticeLine>
        ))}
    </>
  );
}
