// The tool, picked once for an observable and kept until another is picked.

import { Choice } from "../look/parts";
import { settings } from "../settings";
import { shop } from "../shop_state";
import { toolChoices } from "./catalogue";
import type { Desk } from "./desk";

export function ToolPanel({ desk }: { desk: Desk }) {
  const observable = desk.observable.value;
  if (!observable) return <p>This checkpoint needs no tool that is written down.</p>;
  const choices = toolChoices(desk.catalogue, shop.value?.tools ?? [], observable);
  const usual = desk.catalogue.tools.find((tool) => tool.id === observable.default_tool);
  const pick = (id: string) => {
    settings.tools.value = { ...settings.tools.value, [observable.name]: id };
  };
  // A tap is the choice; arrow keys only pass by (their click counts no press), Enter or Esc goes back.
  const close = (event: MouseEvent) => {
    if (event.detail === 0 || !(event.target instanceof HTMLInputElement)) return;
    pick(event.target.value); // a field that is gone with the panel would not tell its change any more
    desk.panel.value = null;
  };
  const own = choices.filter((one) => one.own);
  const kinds = choices.filter((one) => !one.own);
  const certificate = (id: string) => {
    const tool = shop.value?.tools.find((one) => one.id === id);
    return [tool?.certificate_u ? `±${tool.certificate_u} by certificate` : "", tool?.due ? `due ${tool.due}` : ""]
      .filter((one) => one !== "")
      .join(", ");
  };
  return (
    <div
      class="columns"
      onClick={close}
      onKeyDown={(event) => {
        if (event.key !== "Enter") return;
        event.preventDefault();
        desk.panel.value = null;
      }}>
      {own.length > 0 && (
        <Choice
          label={`Tools of this shop, for ${observable.name}`}
          column
          value={desk.tool.value}
          onChoose={pick}
          options={own.map((one) => ({ value: one.id, says: one.says, hint: certificate(one.id) }))}
        />
      )}
      <Choice
        label="Kinds of tool"
        column
        value={desk.tool.value}
        onChoose={pick}
        options={[
          { value: "", says: `[${usual?.name ?? "not stated"}]`, hint: "the shop’s usual one, marked as assumed" },
          ...kinds.map((one) => ({ value: one.id, says: one.says })),
        ]}
      />
    </div>
  );
}
