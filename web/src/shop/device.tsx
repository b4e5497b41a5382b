import type { Shop } from "../api/types";
import { Choice } from "../look/parts";
import { settings } from "../settings";

/** What holds for this device alone. Each takes effect at once. */
export function DeviceSettings({ shop }: { shop: Shop | null }) {
  const typing = (shop?.people ?? []).filter((one) => one.technician);
  const known = typing.some((one) => one.name === settings.person.value);
  const names =
    known || settings.person.value === ""
      ? typing.map((one) => one.name)
      : [...typing.map((one) => one.name), settings.person.value];
  const onOff = [{ value: "on" as const }, { value: "off" as const }];
  return (
    <section aria-labelledby="device-head">
      <h2 id="device-head">This device</h2>
      <div class="settings">
        {names.length > 0 && (
          <Choice
            label="Who types here"
            value={settings.person.value}
            onChoose={(name) => (settings.person.value = name)}
            options={names.map((name) => ({ value: name }))}
          />
        )}
        <Choice
          label="Light or dark"
          value={settings.theme.value}
          onChoose={(theme) => (settings.theme.value = theme)}
          options={[{ value: "device", says: "as the device" }, { value: "light" }, { value: "dark" }]}
        />
        <Choice
          label="Bench mode: all type larger"
          value={settings.bench.value ? "on" : "off"}
          onChoose={(word) => (settings.bench.value = word === "on")}
          options={onOff}
        />
        <Choice
          label="Thumb side: where the pad stands"
          value={settings.thumb.value}
          onChoose={(side) => (settings.thumb.value = side)}
          options={[{ value: "left" }, { value: "right" }]}
        />
        <Choice
          label="Read accepted figures aloud"
          value={settings.readAloud.value ? "on" : "off"}
          onChoose={(word) => (settings.readAloud.value = word === "on")}
          options={onOff}
        />
      </div>
    </section>
  );
}
