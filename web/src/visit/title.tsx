// Title block and the scale of minutes. Every cell opens what it tells.

import { Button, ScaleRule, TitleBlock, type Cell } from "../look/parts";
import { dayWords } from "../look/words";
import { href } from "../route";
import { shop } from "../shop_state";
import { answeredWords, countOf } from "./count";
import type { Desk, Panel } from "./desk";
import { handsOf } from "./order";
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
      value: opens("visit", handsWords[handsOf(view.value)] ?? handsOf(view.value), "Hands"),
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
  return (wide ? time[0] : time[1]) ?? "";
}

export function MinutesRow({ desk }: { desk: Desk }) {
  const count = countOf(desk.view.value, desk.catalogue);
  const { scope } = desk.view.value.assessment;
  const here = desk.visit.here.value;
  return (
    <div class="minutes-row">
      <a class="button top-way" href={href({ page: "visits" })}>
        All visits
      </a>
      <ScaleRule total={count.minutes} left={count.minutesLeft} />
      <button
        type="button"
        class="plain minutes-words"
        onClick={() => {
          desk.panel.value = "visit";
        }}>
        <b>{scope.charAt(0).toUpperCase() + scope.slice(1)}</b>, {answeredWords(count)}
        <span class="wide-words">, {Math.round(count.minutesLeft)} min left</span>
        {here.length > 0 && <small class="wide-words">, {here.map((one) => one.name).join(", ")} here too</small>}
      </button>
      <Always desk={desk} />
    </div>
  );
}

/** What is always at hand on a wide screen; on others the bar at the bottom has it. */
function Always({ desk }: { desk: Desk }) {
  return (
    <>
      {always.map(({ panel, says }) => (
        <button
          key={panel}
          type="button"
          class="button top-way"
          aria-pressed={desk.panel.value === panel}
          onClick={() => {
            desk.panel.value = desk.panel.value === panel ? null : panel;
          }}>
          {says}
        </button>
      ))}
    </>
  );
}

/** Photo, remarks and the player's words, one tap from everywhere on the sheet. */
export const always: { panel: Panel; says: string; short: string }[] = [
  { panel: "photo", says: "Photo", short: "Photo" },
  { panel: "remark", says: "Remark", short: "Remark" },
  { panel: "wants", says: "Player’s words", short: "Player" },
];

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
