// A field for what is set once ("/wants/promised", "/instrument/scale"): kept when it is left or Enter is pressed, taken
// out when it is emptied, refused with the reason and the text kept.

import { useSignal } from "@preact/signals";
import { currencyOf, takeQuantity } from "../entry/plain_number";
import { Button, Field, type Cure } from "../look/parts";
import { shop } from "../shop_state";
import type { Desk } from "./desk";
import { reasonOf, typedText } from "./refusals";
import { valueAt } from "./title";

interface Props {
  desk: Desk;
  path: string;
  label: string;
  hint?: string;
  type?: "text" | "date";
  dimension?: string; // a quantity: taken as everywhere on the sheet, kept with its unit
  list?: boolean; // several texts
  separator?: string;
  lines?: boolean;
  whole?: boolean; // a whole number
  /** What else is wrong with a value, "" nothing; and what one tap would mend, after which the value is kept. */
  fault?: (value: unknown) => string;
  cure?: (value: unknown) => Cure | null;
}

export function SetField({
  desk,
  path,
  label,
  hint,
  type = "text",
  dimension,
  list = false,
  separator = " ",
  lines = false,
  whole = false,
  fault = () => "",
  cure = () => null,
}: Props) {
  const known = valueAt(desk, path);
  const standing = Array.isArray(known)
    ? known.join(separator === " " ? " " : `${separator} `)
    : known === undefined || known === null || typeof known === "object"
      ? ""
      : String(known);
  const typed = useSignal<string | null>(null);
  const refused = useSignal("");
  const mends = useSignal<Cure | null>(null);
  // Refused by the shop: its text stands in the field again, with the reason, until another is kept or it is given up.
  const back = desk.visit.refused.value.find((one) => one.entry?.path === path);
  const backText = back ? typedText(back, "") : null;
  const keep = () => {
    const text = typed.peek();
    if (text === null) return;
    if (back) desk.visit.giveUp(back.item.key);
    if (text.trim() === standing) {
      typed.value = null;
      refused.value = "";
      return;
    }
    const read = valueOf(text, { dimension, list, separator, whole });
    const wrong = "says" in read ? read.says : fault(read.value);
    refused.value = wrong;
    mends.value = "says" in read || wrong === "" ? null : cure(read.value);
    if ("says" in read || wrong !== "") return;
    typed.value = null;
    desk.visit.set(path, read.value);
  };
  const mend = () => {
    const text = typed.peek();
    const read = text === null ? null : valueOf(text, { dimension, list, separator, whole });
    mends.peek()?.onPress();
    mends.value = null;
    refused.value = "";
    typed.value = null;
    if (read && "value" in read) desk.visit.set(path, read.value);
  };
  return (
    <div>
      <Field
        label={label}
        value={typed.value ?? backText ?? standing}
        type={type}
        lines={lines}
        {...(hint ? { hint } : {})}
        {...(refused.value || back ? { refused: refused.value || (back ? reasonOf(back) : "") } : {})}
        onInput={(text) => {
          typed.value = text;
        }}
        onDone={keep}
      />
      {mends.value && <Button onPress={mend}>{mends.value.says}</Button>}
    </div>
  );
}

interface Form {
  dimension: string | undefined;
  list: boolean;
  separator: string;
  whole: boolean;
}

export function valueOf(text: string, form: Form): { value: unknown } | { says: string } {
  const bare = text.trim();
  if (bare === "") return { value: null };
  if (form.list)
    return {
      value: bare
        .split(form.separator === " " ? /[\s,]+/ : form.separator)
        .map((one) => one.trim())
        .filter((one) => one !== ""),
    };
  if (form.whole)
    return /^\d+$/.test(bare)
      ? { value: Number(bare) }
      : { says: `“${bare}” is no count. A whole number is expected, such as 22.` };
  if (form.dimension === undefined) return { value: bare };
  const taken = takeQuantity(bare, form.dimension, form.dimension === "money" ? currencyOf(shop.peek()?.rates) : undefined);
  return "says" in taken ? taken : { value: taken.text };
}
