import { useEffect, useId, useState } from "preact/hooks";
import type { ProcedureCheckpoint } from "../api/types";
import type { Drawing } from "./drawings/drawing";
import { catalogue } from "../shop_state";
import "./how.css";
import { anchorSteps, cautionsFor, limitLines, stepsOf, wordLines } from "./words";

/** How a checkpoint is done by hand, why, and what counts as what. The drawings come as a file of their own. */
export function How({ checkpoint }: { checkpoint: ProcedureCheckpoint }) {
  return (
    <section class="how" aria-label={`How to: ${checkpoint.title}`}>
      <div class="how-columns">
        <Shown checkpoint={checkpoint.id} />
        <div class="how-text">
          <h3>How</h3>
          <ol class="how-steps">{stepsOf(checkpoint.how ?? "").map((step) => <li key={step}>{step}</li>)}</ol>
          {cautionsFor(checkpoint.disturbs).map((caution) => <p key={caution} class="how-caution">{caution}</p>)}
          <h3>Why</h3>
          <p>{checkpoint.why}</p>
          {checkpoint.needs && checkpoint.needs.length > 0 && <p><b>Needs</b> {checkpoint.needs.join(", ")}</p>}
        </div>
      </div>
      <Counts checkpoint={checkpoint} />
      <h3>If it fails</h3>
      <p>{checkpoint.remedy}</p>
    </section>
  );
}

/** The figure of a checkpoint, once its file is here; nothing for a checkpoint of the shop's own. */
function Shown({ checkpoint }: { checkpoint: string }) {
  const [found, setFound] = useState<Drawing | undefined>();
  const [failed, setFailed] = useState(false);
  useEffect(() => {
    let wanted = true;
    import("./drawings/all").then(
      (all) => { if (wanted) setFound(all.drawingFor(checkpoint)); },
      () => { if (wanted) setFailed(true); },
    );
    return () => { wanted = false; };
  }, [checkpoint]);
  if (failed) return <p class="how-missing">The drawing could not be fetched; the words below stand without it.</p>;
  return found ? <Figure drawing={found} /> : null;
}

export function Figure({ drawing }: { drawing: Drawing }) {
  const id = useId();
  return (
    <figure class="how-figure">
      <svg class="how-drawing" viewBox={`0 0 300 ${drawing.height}`} role="img" aria-labelledby={`${id}-t ${id}-d`}>
        <title id={`${id}-t`}>{drawing.title}</title>
        <desc id={`${id}-d`}>{drawing.says}</desc>
        {drawing.draw()}
      </svg>
      <figcaption>
        <b>{drawing.title}</b>
        {drawing.stretched && <span> {drawing.stretched}</span>}
      </figcaption>
    </figure>
  );
}

function Counts({ checkpoint }: { checkpoint: ProcedureCheckpoint }) {
  const steps = anchorSteps(checkpoint);
  const limits = limitLines(checkpoint.limits);
  const reads = checkpoint.reads ?? [];
  const known = (catalogue.value?.observables ?? []).filter((one) => reads.includes(one.name)).flatMap((one) => one.words ?? []);
  const words = wordLines(checkpoint, known);
  if (steps.length + limits.length + words.length === 0) return null;
  return (
    <div class="how-counts">
      <h3>What counts as what</h3>
      {(steps.length > 0 || words.length > 0) && (
        <table>
          <caption class="unseen">Answers, best first, and how heavy each weighs</caption>
          <tbody>
            {steps.map((one) => <tr key={one.step}><th scope="row">{one.says}</th><td>{one.counts}</td></tr>)}
            {words.map((one) => <tr key={one.word}><th scope="row">{one.word}</th><td>{one.counts}</td></tr>)}
          </tbody>
        </table>
      )}
      {limits.length > 0 && (
        <ul class="how-limits">
          {limits.map((limit) => (
            <li key={limit.when + limit.range}>
              {limit.when !== "" && <span class="how-when">{limit.when}: </span>}
              <b>{limit.range}</b>{limit.strict && <span> (decided at 95 in 100)</span>}
              <small> {limit.source}</small>
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}
