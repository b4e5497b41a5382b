import { useState } from "preact/hooks";
import { api } from "../api/client";
import type { BassToTreble, LimitOverride, Rate, Shop } from "../api/types";
import { bareNumber, currencyOf, takeMoney, takeQuantity } from "../entry/plain_number";
import { Button, Choice, EmptyFrame, Field } from "../look/parts";
import { catalogue } from "../shop_state";
import { FormEnd, OtherReasons, stated, useSaving } from "./save";

function Pick({
  id,
  label,
  value,
  options,
  onInput,
}: {
  id: string;
  label: string;
  value: string;
  options: { value: string; says: string }[];
  onInput: (value: string) => void;
}) {
  return (
    <div class="field">
      <label class="label" for={id}>
        {label}
      </label>
      <div class="box">
        <select id={id} value={value} onChange={(event) => onInput(event.currentTarget.value)}>
          <option value="">choose</option>
          {options.map((one) => (
            <option key={one.value} value={one.value}>
              {one.says}
            </option>
          ))}
        </select>
      </div>
    </div>
  );
}

function RateForm({ rate, currency, onDone }: { rate: Rate | null; currency: string; onDone: () => void }) {
  const [work, setWork] = useState(rate?.work ?? "");
  const [amount, setAmount] = useState(rate?.amount ?? "");
  const [remark, setRemark] = useState(rate?.remark ?? "");
  const [noAmount, setNoAmount] = useState("");
  const saving = useSaving();
  const send = async () => {
    const taken = takeMoney(amount, currency);
    setNoAmount("says" in taken ? taken.says : "");
    if ("says" in taken) return;
    if (await saving.send(() => api.putRate(stated({ work, amount: taken.text, remark: remark.trim() })))) onDone();
  };
  return (
    <div class="form">
      <OtherReasons saving={saving} keys={["amount", "remark"]} />
      {rate === null && (
        <Pick
          id="rate-work"
          label="Work"
          value={work}
          onInput={setWork}
          options={(catalogue.value?.work ?? []).map(({ name }) => ({ value: name, says: name }))}
        />
      )}
      <Field
        label="Amount"
        value={amount}
        onInput={setAmount}
        inputMode="decimal"
        unit={bareNumber(amount) !== null || amount.trim() === "" ? currency : ""}
        refused={noAmount || saving.refused("amount")}
        hint={`A plain number is in ${currency}.`}
      />
      <Field label="Remark" value={remark} onInput={setRemark} refused={saving.refused("remark")} />
      <FormEnd
        ready={!saving.busy && work !== "" && amount.trim() !== ""}
        onStore={() => void send()}
        onLeave={onDone}
      />
    </div>
  );
}

export function Rates({ shop }: { shop: Shop }) {
  const [open, setOpen] = useState<string | null>(null);
  const saving = useSaving();
  return (
    <section aria-labelledby="rates-head">
      <h2 id="rates-head">Rates</h2>
      <OtherReasons saving={saving} keys={[]} />
      {shop.rates.length === 0 && open === null && (
        <EmptyFrame strong="No rates yet.">Job sheets then show built-in ones, marked as assumed.</EmptyFrame>
      )}
      <ul class="lines">
        {shop.rates.map((rate) => (
          <li key={rate.work}>
            <div class="line">
              <b>{rate.work}</b>
              <span>{rate.amount}</span>
              <span class="caption">{rate.remark ?? ""}</span>
              <span class="row">
                <Button
                  label={`Change ${rate.work}`}
                  onPress={() => setOpen(open === rate.work ? null : rate.work)}>
                  Change
                </Button>
                <Button
                  label={`Take out ${rate.work}`}
                  onPress={() => void saving.send(() => api.dropRate(rate.work))}>
                  Take out
                </Button>
              </span>
            </div>
            {open === rate.work && <RateForm rate={rate} currency={currencyOf(shop.rates)} onDone={() => setOpen(null)} />}
          </li>
        ))}
      </ul>
      {open === "" ? (
        <RateForm rate={null} currency={currencyOf(shop.rates)} onDone={() => setOpen(null)} />
      ) : (
        <Button onPress={() => setOpen("")}>Add a rate</Button>
      )}
    </section>
  );
}

const limitedCheckpoints = () =>
  (catalogue.value?.procedure.checkpoints ?? []).filter((one) => (one.limits ?? []).length > 0);

/** What holds without a limit of the shop's own: "from 1.5 mm to 2.0 mm". */
function usualLimit(checkpoint: string): string {
  const usual = limitedCheckpoints().find((one) => one.id === checkpoint)?.limits?.[0];
  const words = (side: string | BassToTreble) =>
    typeof side === "string" ? side : `${side.bass} at the bass, ${side.treble} at string 1`;
  return [usual?.low && `from ${words(usual.low)}`, usual?.high && `to ${words(usual.high)}`]
    .filter(Boolean)
    .join(" ");
}

/** The unit of a plain number: that of the procedure's own limit. */
function unitOfLimit(checkpoint: string): string {
  const usual = limitedCheckpoints().find((one) => one.id === checkpoint)?.limits?.[0];
  const said = usual?.low ?? usual?.high ?? "";
  return /[^\d\s.,/+-].*$/.exec(typeof said === "string" ? said : said.bass)?.[0] ?? "";
}

/** A limit as it is kept; with another unit than usual the shop's computer judges it. */
function takeLimit(typed: string, unit: string): { text: string; says?: string } {
  const number = bareNumber(typed);
  if (number !== null) return { text: unit === "" ? number : `${number} ${unit}` };
  const dimension = dimensionOf[unit];
  if (dimension === undefined) return { text: typed.trim().replace(/(\d),(\d)/g, "$1.$2") };
  const taken = takeQuantity(typed, dimension, unit);
  return "says" in taken ? { text: "", says: taken.says } : taken;
}

const dimensionOf: Record<string, string> = {
  mm: "length",
  in: "length",
  cents: "interval",
  kohm: "resistance",
  deg: "angle",
};

function LimitForm({ shop, limit, onDone }: { shop: Shop; limit: LimitOverride | null; onDone: () => void }) {
  const [checkpoint, setCheckpoint] = useState(limit?.checkpoint ?? "");
  const [low, setLow] = useState(limit?.low ?? "");
  const [high, setHigh] = useState(limit?.high ?? "");
  const [strings, setStrings] = useState<"all" | "bass" | "treble">(limit?.strings ?? "all");
  const [source, setSource] = useState(limit?.source ?? (shop.name === "" ? "own rule" : `${shop.name}: own rule`));
  const saving = useSaving();
  const withLimits = limitedCheckpoints();
  const usual = usualLimit(checkpoint);
  const unit = unitOfLimit(checkpoint);
  const [wrong, setWrong] = useState({ low: "", high: "" });
  const send = async () => {
    const [least, most] = [low, high].map((text) => takeLimit(text, unit));
    setWrong({ low: least?.says ?? "", high: most?.says ?? "" });
    if (!least || !most || least.says || most.says) return;
    const wish = stated<LimitOverride>({
      checkpoint,
      low: least.text,
      high: most.text,
      source: source.trim(),
      ...(strings === "all" ? {} : { strings }),
    });
    if (await saving.send(() => api.putLimit(wish))) onDone();
  };
  return (
    <div class="form">
      <OtherReasons saving={saving} keys={["low", "high", "source"]} />
      {limit === null && (
        <Pick
          id="limit-checkpoint"
          label="Checkpoint"
          value={checkpoint}
          onInput={setCheckpoint}
          options={withLimits.map((one) => ({ value: one.id, says: one.title }))}
        />
      )}
      {usual !== "" && <p class="caption">{`The procedure says: ${usual}.`}</p>}
      <Field
        label="Lowest that passes"
        value={low}
        onInput={setLow}
        refused={wrong.low || saving.refused("low")}
        hint={`${unit === "" ? "With its unit" : `A plain number is in ${unit}`}; empty: no such limit.`}
      />
      <Field
        label="Highest that passes"
        value={high}
        onInput={setHigh}
        refused={wrong.high || saving.refused("high")}
      />
      <Choice
        label="Holds for"
        value={strings}
        onChoose={setStrings}
        options={[
          { value: "all", says: "all strings" },
          { value: "bass", says: "bass side" },
          { value: "treble", says: "treble side" },
        ]}
      />
      <Field label="Whose rule" value={source} onInput={setSource} refused={saving.refused("source")} />
      <FormEnd
        ready={!saving.busy && checkpoint !== "" && low.trim() + high.trim() !== ""}
        onStore={() => void send()}
        onLeave={onDone}
      />
    </div>
  );
}

export function Limits({ shop }: { shop: Shop }) {
  const [open, setOpen] = useState<string | null>(null);
  const saving = useSaving();
  const title = (id: string) => catalogue.value?.procedure.checkpoints.find((one) => one.id === id)?.title ?? id;
  return (
    <section aria-labelledby="limits-head">
      <h2 id="limits-head">Own limits</h2>
      <OtherReasons saving={saving} keys={[]} />
      {shop.limits.length === 0 && open === null && (
        <EmptyFrame strong="No limits of this shop's own.">
          Those of the procedure hold, each with its source.
        </EmptyFrame>
      )}
      <ul class="lines">
        {shop.limits.map((limit) => (
          <li key={limit.checkpoint}>
            <div class="line">
              <b>{title(limit.checkpoint)}</b>
              <span>
                {[
                  limit.low && `from ${limit.low}`,
                  limit.high && `to ${limit.high}`,
                  limit.strings && `${limit.strings} side`,
                ]
                  .filter(Boolean)
                  .join(" ")}
              </span>
              <span class="caption">{limit.source}</span>
              <span class="row">
                <Button
                  label={`Change the limit of ${title(limit.checkpoint)}`}
                  onPress={() => setOpen(open === limit.checkpoint ? null : limit.checkpoint)}>
                  Change
                </Button>
                <Button
                  label={`Take out the limit of ${title(limit.checkpoint)}`}
                  onPress={() => void saving.send(() => api.dropLimit(limit.checkpoint))}>
                  Take out
                </Button>
              </span>
            </div>
            {open === limit.checkpoint && <LimitForm shop={shop} limit={limit} onDone={() => setOpen(null)} />}
          </li>
        ))}
      </ul>
      {open === "" ? (
        <LimitForm shop={shop} limit={null} onDone={() => setOpen(null)} />
      ) : (
        <Button onPress={() => setOpen("")}>Add a limit</Button>
      )}
    </section>
  );
}
