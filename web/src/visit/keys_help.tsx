// The list of keys, and what this device remembers for itself.

import { Choice, Field } from "../look/parts";
import { settings } from "../settings";
import { keyList } from "./keyboard";

const yesNo = [{ value: "yes" }, { value: "no" }];

export function KeysPanel() {
  return (
    <>
      <KeyTable />
      <div class="columns">
        <Choice
          label="Read accepted figures aloud"
          options={yesNo}
          value={settings.readAloud.value ? "yes" : "no"}
          onChoose={(value) => {
            settings.readAloud.value = value === "yes";
          }}
        />
        <Choice
          label="Large type, for the bench"
          options={yesNo}
          value={settings.bench.value ? "yes" : "no"}
          onChoose={(value) => {
            settings.bench.value = value === "yes";
          }}
        />
        <Choice
          label="Pad under the thumb of"
          options={[{ value: "right" }, { value: "left" }]}
          value={settings.thumb.value}
          onChoose={(side) => {
            settings.thumb.value = side;
          }}
        />
        <Choice
          label="Light"
          options={[{ value: "device", says: "as the device" }, { value: "light" }, { value: "dark" }]}
          value={settings.theme.value}
          onChoose={(theme) => {
            settings.theme.value = theme;
          }}
        />
        <Choice
          label="Single letters do things"
          options={yesNo}
          value={settings.letterKeys.value ? "yes" : "no"}
          onChoose={(value) => {
            settings.letterKeys.value = value === "yes";
          }}
        />
        <FootSwitch />
      </div>
    </>
  );
}

/** A foot switch is a keyboard with one key. Enter works as it is; another key is learned by pressing it here. */
function FootSwitch() {
  return (
    <div
      onKeyDownCapture={(event) => {
        if (event.key === "Tab" || event.key === "Shift") return;
        event.preventDefault();
        event.stopPropagation();
        settings.nextKey.value = event.key === "Escape" ? "" : event.key;
      }}>
      <Field
        label="Foot switch, besides Enter: press it here"
        value={settings.nextKey.value}
        onInput={() => undefined}
        hint="Esc forgets it"
      />
    </div>
  );
}

function KeyTable() {
  return (
    <table class="keys">
      <caption class="unseen">Keys</caption>
      <tbody>
        {keyList.map((one) => (
          <tr key={one.keys}>
            <th scope="row">
              <kbd>{one.keys}</kbd>
            </th>
            <td>{one.does}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
