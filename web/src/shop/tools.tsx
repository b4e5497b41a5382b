import { useState } from "preact/hooks";
import { api } from "../api/client";
import type { Shop, ShopTool } from "../api/types";
import { bareNumber, takeQuantity } from "../entry/plain_number";
import { usualUnit } from "../entry/units";
import { Button, Choice, Field, type FieldProps } from "../look/parts";
import { catalogue } from "../shop_state";
import { dueOf, sortTools } from "./due";
import { FormEnd, OtherReasons, stated, useSaving } from "./save";

function KindField({
  value,
  onInput,
  refused,
}: {
  value: string;
  onInput: (kind: string) => void;
  refused?: string;
}) {
  const kinds = catalogue.value?.tools ?? [];
  return (
    <div class="field">
      <label class="label" for="tool-kind">
        Kind
      </label>
      <div class={`box ${refused ? "refused" : ""}`}>
        <select id="tool-kind" value={value} onChange={(event) => onInput(event.currentTarget.value)}>
          <option value="">choose</option>
          {kinds.map((kind) => (
            <option key={kind.id} value={kind.id}>
              {kind.name}
            </option>
          ))}
          {value !== "" && !kinds.some((kind) => kind.id === value) && <option value={value}>{value}</option>}
        </select>
      </div>
      {refused && (
        <p class="why" role="alert">
          {refused}
        </p>
      )}
    </div>
  );
}

/** "2" or "2,5" as typed; not stated when empty; null when it is no number. */
function factorOf(typed: string): number | undefined | null {
  if (typed.trim() === "") return undefined;
  const factor = bareNumber(typed);
  return factor === null ? null : Number(factor);
}

/** What a kind of tool reads; lengths where the kind is not known. */
const dimensionOf = (kind: string): string =>
  (catalogue.value?.tools ?? []).find((one) => one.id === kind)?.dimension ?? "length";

interface ToolFacts {
  id: string;
  kind: string;
  calibrated: string;
  due: string;
  certificate_u: string;
  certificate_k: string;
  remark: string;
}

const factsOf = (tool: ShopTool | null): ToolFacts => ({
  id: tool?.id ?? "",
  kind: tool?.kind ?? "",
  calibrated: tool?.calibrated ?? "",
  due: tool?.due ?? "",
  certificate_u: tool?.certificate_u ?? "",
  certificate_k: tool?.certificate_k === undefined ? "" : String(tool.certificate_k),
  remark: tool?.remark ?? "",
});

/** The fields of the form in order; name and kind stand apart. */
const toolFields: (Omit<FieldProps, "value" | "onInput"> & { key: keyof ToolFacts })[] = [
  { key: "calibrated", label: "Calibrated on", type: "date" },
  { key: "due", label: "Next due on", type: "date" },
  { key: "certificate_u", label: "Uncertainty on its certificate", hint: "Such as 0.03." },
  {
    key: "certificate_k",
    label: "k on its certificate",
    inputMode: "decimal",
    hint: "How many standard uncertainties the figure above is; 2 when the certificate says nothing.",
  },
  { key: "remark", label: "Remark" },
];

function ToolForm({ tool, onDone }: { tool: ShopTool | null; onDone: () => void }) {
  const [facts, setFacts] = useState(factsOf(tool));
  const [retired, setRetired] = useState(tool?.retired ?? false);
  const saving = useSaving();
  const factor = factorOf(facts.certificate_k);
  const noNumber = factor === null ? `"${facts.certificate_k}": expected a number such as 2` : undefined;
  const set = (key: keyof ToolFacts) => (text: string) => setFacts((before) => ({ ...before, [key]: text }));
  const u = takeQuantity(facts.certificate_u, dimensionOf(facts.kind));
  const wrong: Partial<Record<keyof ToolFacts, string>> = {
    ...(noNumber === undefined ? {} : { certificate_k: noNumber }),
    ...("says" in u ? { certificate_u: u.says } : {}),
    ...(dueTooEarly(facts) ? { due: "That is before the day of its calibration." } : {}),
  };
  const send = async () => {
    const trimmed = Object.fromEntries(Object.entries(facts).map(([key, text]) => [key, text.trim()]));
    const wish = { ...trimmed, certificate_u: "text" in u ? u.text : "", certificate_k: factor ?? undefined, retired: retired || undefined } as ShopTool;
    if (await saving.send(() => api.putTool(stated(wish)))) onDone();
  };
  const refused = (key: keyof ToolFacts) => wrong[key] ?? saving.refused(key);
  const ready =
    !saving.busy && facts.id.trim() !== "" && facts.kind !== "" && Object.keys(wrong).length === 0;
  return (
    <div class="form">
      <OtherReasons saving={saving} keys={Object.keys(facts)} />
      {tool === null && (
        <Field
          label="Name, as it is called here"
          value={facts.id}
          onInput={set("id")}
          refused={refused("id")}
          autoFocus
        />
      )}
      <KindField value={facts.kind} onInput={set("kind")} refused={refused("kind")} />
      {toolFields.map(({ key, ...field }) => (
        <Field
          key={key}
          {...field}
          value={facts[key]}
          onInput={set(key)}
          refused={refused(key)}
          unit={key === "certificate_u" && bareNumber(facts[key]) !== null ? usualUnit("", dimensionOf(facts.kind)) : ""}
        />
      ))}
      <Choice
        label="In use"
        value={retired ? "retired" : "on the wall"}
        onChoose={(word) => setRetired(word === "retired")}
        options={[{ value: "on the wall" }, { value: "retired" }]}
      />
      <FormEnd ready={ready} onStore={() => void send()} onLeave={onDone} />
    </div>
  );
}

/** Next due before it was calibrated: one of the two days is wrong. */
export const dueTooEarly = ({ calibrated, due }: { calibrated: string; due: string }): boolean =>
  calibrated !== "" && due !== "" && due < calibrated;

export function Tools({ shop }: { shop: Shop }) {
  const [open, setOpen] = useState<string | null>(null);
  const over = shop.tools.filter((tool) => !tool.retired && dueOf(tool, shop.today).over).length;
  return (
    <section aria-labelledby="tools-head">
      <h2 id="tools-head">Tools</h2>
      <p class="caption">
        {over === 0
          ? "No tool is past its day."
          : over === 1
            ? "1 tool is past its day."
            : `${over} tools are past their day.`}
      </p>
      <ul class="lines">
        {sortTools(shop.tools).map((tool) => {
          const due = dueOf(tool, shop.today);
          return (
            <li key={tool.id}>
              <div class={`line ${due.over && !tool.retired ? "over" : ""}`}>
                <b>{tool.id}</b>
                <span class="caption">
                  {[
                    tool.kind,
                    tool.certificate_u
                      ? `\u00b1${tool.certificate_u}${tool.certificate_k ? `, k ${tool.certificate_k}` : ""}`
                      : "",
                  ]
                    .filter(Boolean)
                    .join(", ")}
                </span>
                <span class={due.over && !tool.retired ? "red" : ""}>{tool.retired ? "retired" : due.words}</span>
                <Button label={`Change ${tool.id}`} onPress={() => setOpen(open === tool.id ? null : tool.id)}>
                  Change
                </Button>
              </div>
              {open === tool.id && <ToolForm tool={tool} onDone={() => setOpen(null)} />}
            </li>
          );
        })}
      </ul>
      {open === "" ? (
        <ToolForm tool={null} onDone={() => setOpen(null)} />
      ) : (
        <Button onPress={() => setOpen("")}>Add a tool</Button>
      )}
    </section>
  );
}
