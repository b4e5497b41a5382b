import { useState } from "preact/hooks";
import { api } from "../api/client";
import type { Shop, ShopTool } from "../api/types";
import { Button, Choice, Field } from "../look/parts";
import { catalogue } from "../shop_state";
import { dueOf, sortTools } from "./due";
import { OtherReasons, stated, useSaving } from "./save";

const formKeys = ["id", "kind", "calibrated", "due", "certificate_u", "certificate_k", "remark"];

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

function ToolForm({ tool, onDone }: { tool: ShopTool | null; onDone: () => void }) {
  const [id, setId] = useState(tool?.id ?? "");
  const [kind, setKind] = useState(tool?.kind ?? "");
  const [calibrated, setCalibrated] = useState(tool?.calibrated ?? "");
  const [due, setDue] = useState(tool?.due ?? "");
  const [u, setU] = useState(tool?.certificate_u ?? "");
  const [k, setK] = useState(tool?.certificate_k === undefined ? "" : String(tool.certificate_k));
  const [remark, setRemark] = useState(tool?.remark ?? "");
  const [retired, setRetired] = useState(tool?.retired ?? false);
  const [kTrouble, setKTrouble] = useState<string | undefined>(undefined);
  const saving = useSaving();
  const send = async () => {
    const factor = k.trim() === "" ? undefined : Number(k.replace(",", "."));
    if (factor !== undefined && !Number.isFinite(factor))
      return setKTrouble(`"${k}": expected a number such as 2`);
    setKTrouble(undefined);
    const wish = stated<ShopTool>({
      id: id.trim(),
      kind,
      calibrated,
      due,
      certificate_u: u.trim(),
      certificate_k: factor,
      remark: remark.trim(),
      retired: retired || undefined,
    });
    if (await saving.send(() => api.putTool(wish))) onDone();
  };
  return (
    <div class="form">
      <OtherReasons saving={saving} keys={formKeys} />
      {tool === null && (
        <Field
          label="Name, as it is called here"
          value={id}
          onInput={setId}
          refused={saving.refused("id")}
          autoFocus
        />
      )}
      <KindField value={kind} onInput={setKind} refused={saving.refused("kind")} />
      <Field
        label="Calibrated on"
        type="date"
        value={calibrated}
        onInput={setCalibrated}
        refused={saving.refused("calibrated")}
      />
      <Field label="Next due on" type="date" value={due} onInput={setDue} refused={saving.refused("due")} />
      <Field
        label="Uncertainty on its certificate"
        value={u}
        onInput={setU}
        refused={saving.refused("certificate_u")}
        hint={'With its unit: "0.03 mm".'}
      />
      <Field
        label="Coverage factor k"
        value={k}
        onInput={setK}
        inputMode="decimal"
        refused={kTrouble ?? saving.refused("certificate_k")}
        hint="2 when the certificate says nothing."
      />
      <Field label="Remark" value={remark} onInput={setRemark} refused={saving.refused("remark")} />
      <Choice
        label="In use"
        value={retired ? "retired" : "on the wall"}
        onChoose={(word) => setRetired(word === "retired")}
        options={[{ value: "on the wall" }, { value: "retired" }]}
      />
      <div class="row">
        <Button go disabled={saving.busy || id.trim() === "" || kind === ""} onPress={() => void send()}>
          Store
        </Button>
        <Button onPress={onDone}>Leave it</Button>
      </div>
    </div>
  );
}

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
