// The checkpoint in hand: what is asked, what to mind, the place where it is answered.

import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import type { ProcedureCheckpoint } from "../api/types";
import { How } from "../how/how";
import { Button, NoticeLine } from "../look/parts";
import { directionFor, setDirection } from "../settings";
import { isWords } from "./catalogue";
import type { Desk } from "./desk";
import { Ways } from "./entry_tools";
import { isOpen } from "./figures";
import { Heard } from "./heard";
import { Judged } from "./judged";
import { Measured } from "./measured";
import { barred as barredBy } from "./order";
import { directionWords } from "./places";

export function Checkpoint({ desk, checkpoint }: { desk: Desk; checkpoint: ProcedureCheckpoint }) {
  const how = useSignal(false);
  useEffect(() => {
    // The first place that is still open, once, when the sheet comes to this checkpoint.
    const open = desk.cells.peek().findIndex((cell) => isOpen(cell, desk.stage.peek()));
    desk.active.value = Math.max(0, open);
  }, []);
  const barred = barredBy(desk.view.value, checkpoint.id, checkpoint.disturbs);
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
      <Cautions desk={desk} checkpoint={checkpoint} barred={barred} />
      {!barred && <Answering desk={desk} checkpoint={checkpoint} />}
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
      <h2 id="checkpoint-title">
        {checkpoint.title}
        {observable && !isWords(observable) ? openWords(checkpoint) : ""}
      </h2>
      <p class="checkpoint-asks">
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

const openWords = (checkpoint: ProcedureCheckpoint) =>
  checkpoint.each === "string" && checkpoint.reads?.includes("string height") ? ", open" : "";

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
