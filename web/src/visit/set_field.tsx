// A field for what is set once ("/wants/promised", "/instrument/scale"): kept when it is left or Enter is pressed, taken
// out when it is emptied, refused with the reason and the text kept.

import { useSignal } from "@preact/signals";
import { parseField } from "../entry/quantity";
import { usualUnit } from "../entry/units";
import { Field } from "../look/parts";
import type { Desk } from "./desk";
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
}: Props) {
  const known = valueAt(desk, path);
  const standing = Array.isArray(known)
    ? known.join(separator === " " ? " " : `${separator} `)
    : known === undefined || known === null || typeof known === "object"
      ? ""
      : String(known);
  const typed = useSignal<string | null>(null);
  const refused = useSignal("");
  const keep = () => {
    const text = typed.peek();
    if (text === null || text.trim() === standing) {
      typed.value = null;
      return;
    }
    const read = valueOf(text, { dimension, list, separator, whole });
    if ("says" in read) {
      refused.value = read.says;
      return;
    }
    refused.value = "";
    typed.value = null;
    desk.visit.set(path, read.value);
  };
  return (
    <Field
      label={label}
      value={typed.value ?? standing}
      type={type}
      lines={lines}
      {...(hint ? { hint } : {})}
      {...(refused.value ? { refused: refused.value } : {})}
      onInput={(text) => {
        typed.value = text;
      }}
      onDone={keep}
    />
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
  const parsed = parseField(bare, { dimension: form.dimension, unit: usualUnit("", form.dimension) });
  if (parsed.kind === "value") return { value: parsed.text };
  return { says: parsed.kind === "refused" ? parsed.says : `“${bare}” is no figure.` };
}
