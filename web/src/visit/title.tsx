// Title block and the scale of minutes. Every cell opens what it tells.

import { Button, ScaleRule, TitleBlock, type Cell } from "../look/parts";
import { dayWords } from "../look/words";
import { shop } from "../shop_state";
import type { Desk, Panel } from "./desk";
import { useWide } from "./size";

export const handsWords: Record<string, string> = {
  "look only": "look only",
  adjust: "may adjust",
  work: "may work",
};

export function valueAt(desk: Desk, path: string): unknown {
  return desk.view.value.entries.filter((entry) => entry.path === path).at(-1)?.value ?? undefined;
}

const textAt = (desk: Desk, path: string): string => {
  const value = valueAt(desk, path);
  return typeof value === "string" ? value : "";
};

export function VisitTitle({ desk }: { desk: Desk }) {
  const wide = useWide();
  const { view } = desk;
  const opens = (panel: Panel, words: string, label: string) => (
    <button
      type="button"
      class="title-link"
      aria-label={`${label}: ${words}. Change`}
      onClick={() => {
        desk.panel.value = panel;
      }}>
      {words}
    </button>
  );
  const serial = textAt(desk, "/instrument/serial");
  const strings = view.value.instrument.strings;
  const scale = valueAt(desk, "/instrument/scale");
  const facts = [serial, wide ? `${strings} strings` : "", typeof scale === "string" ? scale : ""].filter(
    (one) => one !== "",
  );
  const promised = textAt(desk, "/wants/promised");
  const cells: Cell[] = [
    { says: facts.join(", ") || "Instrument", value: opens("facts", nameOf(desk), "Instrument"), who: true },
  ];
  if (wide) {
    cells.push({
      says: "Player",
      value: opens("wants", textAt(desk, "/wants/player") || textAt(desk, "/job/owner") || "not named", "Player"),
    });
    cells.push({
      says: "Hands",
      value: opens("visit", handsWords[view.value.assessment.hands] ?? view.value.assessment.hands, "Hands"),
    });
  }
  cells.push({
    says: "Promised",
    value: opens("wants", promised ? dayWords(promised, shop.value?.today) : "no day", "Promised"),
  });
  cells.push({
    says: desk.visit.linkUp.value ? "Saved" : "Link down",
    value: opens("history", savedWords(desk, wide), "Saved"),
  });
  return <TitleBlock cells={cells} class="visit-title" />;
}

/** The maker's name without the serial number, which stands above it. */
function nameOf(desk: Desk): string {
  const { title } = desk.view.value;
  const serial = textAt(desk, "/instrument/serial");
  return serial && title.endsWith(`, ${serial}`) ? title.slice(0, -serial.length - 2) : title;
}

function savedWords(desk: Desk, wide: boolean): string {
  const waiting = desk.visit.waiting.value;
  if (!desk.visit.linkUp.value) return `${waiting} wait${waiting === 1 ? "s" : ""}`;
  if (waiting > 0) return "saving";
  const time = /(\d\d:\d\d)(:\d\d)?/.exec(desk.visit.linkSays.value);
  if (!time) return "all of it";
  return wide ? `${time[0]}, this device` : (time[1] ?? "");
}

export function MinutesRow({ desk }: { desk: Desk }) {
  const { total, left } = desk.view.value.minutes;
  const scope = desk.view.value.assessment.scope;
  const here = desk.visit.here.value;
  return (
    <div class="minutes-row">
      <ScaleRule total={total} left={left} />
      <button
        type="button"
        class="plain minutes-words"
        onClick={() => {
          desk.panel.value = "visit";
        }}>
        <b>{scope.charAt(0).toUpperCase() + scope.slice(1)}</b>, {Math.round(left)}
        <span class="wide-words"> of {Math.round(total)}</span> min left
        {here.length > 0 && <small class="wide-words">, {here.map((one) => one.name).join(", ")} here too</small>}
      </button>
    </div>
  );
}

export function BackTo({ desk }: { desk: Desk }) {
  return (
    <Button
      onPress={() => {
        desk.panel.value = null;
      }}>
      Back to {desk.checkpoint.value?.title.toLowerCase() ?? "the sheet"}
    </Button>
  );
}
