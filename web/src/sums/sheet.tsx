import { useEffect, useRef, useState } from "preact/hooks";
import { ApiError } from "../api/client";
import { bareNumber, unitOfBare } from "../entry/plain_number";
import { Button, Choice, ErrorLine, Field } from "../look/parts";
import { trueMinus } from "../look/words";
import {
  copyText, inputsOf, laidOut, missing, refusedAt, sumsApi, type Refused, type Sum, type SumAnswer, type SumField,
} from "./sums";

const askAfterMs = 220;

interface Worked {
  answer: SumAnswer;
  inputs: Record<string, string>;
}

/** One sum: what goes in at the left, what comes out beside it, asked again as one types. */
export function SumSheet({ sum }: { sum: Sum }) {
  const [typed, setTyped] = useState<Record<string, string>>({});
  const { worked, refused, down } = useAnswer(sum, typed);
  const at = (name: string): string | undefined => refused.find((one) => one.field === name)?.says;
  const whole = refused.filter((one) => one.field === "");
  const known = new Set(Object.keys(sum.example));
  return (
    <section class="sum-sheet" aria-labelledby="sum-title">
      <h2 id="sum-title">{sum.title}</h2>
      <p class="sum-says">{sum.says}</p>
      <div class="sum-columns">
        <div class="sum-inputs">
          {sum.inputs.map((field) => (
            <Input key={field.name} field={field} value={typed[field.name] ?? ""} refused={at(field.name)}
                   onInput={(text) => setTyped((now) => ({ ...now, [field.name]: text }))} />
          ))}
          <div class="row">
            <Button onPress={() => setTyped(Object.fromEntries([...known].map((name) => [name, sum.example[name] ?? ""])))}>
              Fill in an example
            </Button>
            <Button onPress={() => setTyped({})}>Empty the fields</Button>
          </div>
        </div>
        <div class="sum-outputs">
          {whole.map((one) => <ErrorLine key={one.says} strong="This does not work out.">{one.says}</ErrorLine>)}
          {down !== "" && <ErrorLine strong="No answer.">{down} What was typed is kept here.</ErrorLine>}
          <Answer sum={sum} worked={worked} stale={refused.length > 0 || down !== ""} />
        </div>
      </div>
      <Ground sum={sum} answer={worked?.answer} />
    </section>
  );
}

/** The answer to what is typed now; the last one stays, marked as such, while a field is refused. */
function useAnswer(sum: Sum, typed: Record<string, string>): { worked: Worked | null; refused: Refused[]; down: string } {
  const [worked, setWorked] = useState<Worked | null>(null);
  const [refused, setRefused] = useState<Refused[]>([]);
  const [down, setDown] = useState("");
  useEffect(() => {
    const inputs = inputsOf(typed, sum.inputs);
    setRefused([]);
    if (missing(inputs, sum.inputs).length > 0) {
      setWorked(null);
      return undefined;
    }
    const stop = new AbortController();
    const timer = setTimeout(() => {
      sumsApi.run(sum.name, inputs, stop.signal).then(
        (answer) => { setWorked({ answer, inputs }); setDown(""); },
        (error: unknown) => {
          if (!(error instanceof ApiError)) return;
          if (error.mayPass) setDown(error.message.charAt(0).toUpperCase() + error.message.slice(1) + ".");
          else setRefused(refusedAt(error, sum.inputs));
        },
      );
    }, askAfterMs);
    return () => {
      clearTimeout(timer);
      stop.abort();
    };
  }, [sum, typed]);
  return { worked, refused, down };
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

function Input({ field, value, refused, onInput }: {
  field: SumField; value: string; refused: string | undefined; onInput: (text: string) => void;
}) {
  const label = `${capital(field.says)}${field.required ? "" : ", may be left out"}`;
  if (field.kind === "word" && field.words) {
    return <Choice label={label} value={value || (field.usual ?? "")} onChoose={onInput}
                   options={field.words.map((word) => ({ value: word }))} />;
  }
  const usual = field.usual ? ` Without it ${field.usual}.` : "";
  const expects = field.expects.replace(/^expected /, "");
  // What the label says is not said again below it.
  const hint = `${field.says.includes(expects) ? "" : `${trueMinus(expects)}.`}${usual}`.trim();
  const bare = value.trim() === "" || bareNumber(value) !== null;
  const unit = bare && field.name !== "thread" ? unitOfBare(field, value.trim() === "" ? "1" : value) : "";
  return <Field label={label} value={value} onInput={onInput} hint={hint} name={field.name} unit={unit}
                lines={field.kind === "table"} {...(refused === undefined ? {} : { refused })} />;
}

function Answer({ sum, worked, stale }: { sum: Sum; worked: Worked | null; stale: boolean }) {
  const [copied, setCopied] = useState("");
  const area = useRef<HTMLTextAreaElement>(null);
  useEffect(() => setCopied(""), [worked]);
  if (!worked) return <div class="empty-frame"><p class="text"><b>{capital([...new Set(sum.outputs.map((one) => one.says))].filter((says) => says !== "the same").join(", "))}</b>: to come, once the fields are filled.</p></div>;
  const { lines, table } = laidOut(sum, worked.answer);
  const text = copyText(sum, worked.inputs, worked.answer);
  const copy = (): void => {
    const byHand = (): void => {
      setCopied("Select and copy it here:");
      requestAnimationFrame(() => area.current?.select());
    };
    // Only a page over https or loopback may write to the clipboard.
    if (navigator.clipboard) navigator.clipboard.writeText(text).then(() => setCopied("Copied."), byHand);
    else byHand();
  };
  return (
    <div class={`sum-answer ${stale ? "stale" : ""}`}>
      <div role="status">
        {stale && <p class="caption">Of what was typed before.</p>}
        <dl>{lines.map((line) => <div key={line.says}><dt>{capital(line.says)}</dt><dd>{trueMinus(line.text)}</dd></div>)}</dl>
        {worked.answer.notes.map((note) => <p key={note}>{note}</p>)}
      </div>
      {table && (
        <div class="sum-table" role="region" aria-label={`${sum.title}, table`} tabIndex={0}>
          <table>
            <thead><tr>{table.heads.map((head) => <th key={head} scope="col">{head}</th>)}</tr></thead>
            <tbody>{table.rows.map((row, nth) => <tr key={nth}>{row.map((cell, i) => <td key={i}>{cell}</td>)}</tr>)}</tbody>
          </table>
        </div>
      )}
      <div class="row">
        <Button onPress={copy}>Copy</Button>
        {copied !== "" && <p role="status" class="sum-copied">{copied}</p>}
      </div>
      {copied !== "" && copied !== "Copied." && <textarea ref={area} readOnly aria-label="The answer as text" rows={4} value={text} />}
    </div>
  );
}

function Ground({ sum, answer }: { sum: Sum; answer: SumAnswer | undefined }) {
  const cautions = answer?.cautions ?? sum.cautions;
  return (
    <div class="sum-ground">
      {cautions.length > 0 && <><h3>Take care</h3><ul>{cautions.map((line) => <li key={line}>{line}</li>)}</ul></>}
      <h3>Formula</h3>
      <p>{sum.formula}</p>
      <p class="caption">{sum.source}</p>
    </div>
  );
}
