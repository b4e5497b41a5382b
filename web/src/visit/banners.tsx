// What must be known before the next reading: a dead line, entries that were refused, two that say different, what undo
// took back, a visit that is closed.

import { deviceId } from "../api/device";
import { ErrorLine, NoticeLine } from "../look/parts";
import type { StoredEntry } from "../api/types";
import { isList, type Waiting } from "../visit_state";
import { ClosedBanner } from "./closing";
import type { Desk } from "./desk";
import { meanText, readingOf } from "./figures";
import { describePlace } from "./places";
import { reasonOf, refusedAt, typedText } from "./refusals";
import { whereOf } from "./where_of";

export function Banners({ desk }: { desk: Desk }) {
  const { visit } = desk;
  const took = desk.took.value;
  return (
    <div class="banners">
      {!visit.linkUp.value && (
        <NoticeLine
          strong={`${sentence(visit.linkSays.value)}`}
          cures={[
            {
              says: "Show them",
              onPress: () => {
                desk.panel.value = "history";
              },
            },
          ]}>
          None is lost; they are sent when the link is back.
        </NoticeLine>
      )}
      {visit.fromBefore.value && visit.linkUp.value && (
        <NoticeLine strong="This sheet is the one kept on this device.">
          The shop has not confirmed it yet.
        </NoticeLine>
      )}
      {visit.refused.value.filter((one) => !isInHand(desk, one)).map((one) => (
        <RefusedEntry key={one.item.key} desk={desk} one={one} />
      ))}
      {visit.conflicts.value.map((one) => (
        <TwoSay key={one.slot} desk={desk} earlier={one.earlier} later={one.later} />
      ))}
      {took && (
        <NoticeLine
          strong={`Taken back: ${took}.`}
          cures={[
            { says: "Put it back", onPress: desk.putBack },
            {
              says: "Leave it so",
              onPress: () => {
                desk.took.value = "";
              },
            },
          ]}
        />
      )}
      <ClosedBanner desk={desk} />
    </div>
  );
}

const upper = (words: string) => `${words.charAt(0).toUpperCase()}${words.slice(1)}`;
const sentence = (words: string) => `${upper(words)}.`;

/** Its text stands in the field where the caret is, with the reason. */
function isInHand(desk: Desk, one: Waiting): boolean {
  const cell = desk.cells.value[desk.active.value];
  return desk.panel.value === null && desk.draft.value !== "" && refusedAt(desk, cell)?.item.key === one.item.key;
}

function RefusedEntry({ desk, one }: { desk: Desk; one: Waiting }) {
  const entry = one.entry ?? { path: "" };
  const where = whereOf(desk.view.value, desk.catalogue, entry, desk.checkpoint.value?.id);
  const mend = () => {
    if (where.panel) desk.panel.value = where.panel;
    else if (where.checkpoint !== undefined) {
      desk.mended.delete(one.item.key);
      desk.goToPlace({ id: where.checkpoint, ...(where.at ? { at: where.at } : {}) });
    }
  };
  // What has a field of its own is mended there; all else is only sent again, or given up.
  const inField = entry.path === "/readings" || (where.panel !== undefined && !isList(entry.path));
  const typed = typedText(one, "");
  return (
    <ErrorLine
      strong={`${where.says}${typed && `, ${typed}`}: not taken.`}
      cures={[
        inField
          ? { says: "Mend it", onPress: mend }
          : { says: "Send it again", onPress: () => desk.visit.sendAgain(one.item.key) },
        { says: "Give it up", onPress: () => desk.visit.giveUp(one.item.key) },
      ]}>
      {reasonOf(one)} The text is kept.
    </ErrorLine>
  );
}

/** "Ruta 0.26, Joon 0.18: keep which?" Neither is lost: the other stays in the history. */
function TwoSay({ desk, earlier, later }: { desk: Desk; earlier: string; later: string }) {
  const entries = desk.view.value.entries;
  const [first, second] = [earlier, later].map((id) => entries.find((entry) => entry.id === id));
  if (!first || !second) return null;
  const keep = (kept: StoredEntry, other: StoredEntry) => ({
    says: `Keep ${said(kept)}`,
    onPress: () => desk.visit.keepOne(kept.id, other.id),
  });
  return (
    <NoticeLine
      strong={`${upper(about(first))}: ${who(desk, first)} ${said(first)}, ${who(desk, second)} ${said(second)}: keep which?`}
      cures={[keep(first, second), keep(second, first)]}>
      The other stays in the history.
    </NoticeLine>
  );
}

function said(entry: StoredEntry): string {
  if (entry.path === "/readings") return meanText(readingOf(entry));
  const value = entry.value;
  if (value && typeof value === "object") {
    const { step, text, value: inner } = value as { step?: number; text?: string; value?: unknown };
    return step !== undefined ? `step ${step}` : String(text ?? inner ?? "its words");
  }
  return String(value ?? "nothing");
}

function about(entry: StoredEntry): string {
  const value = (entry.value ?? {}) as {
    what?: string;
    checkpoint?: string;
    at?: Parameters<typeof describePlace>[0];
  };
  if (entry.path === "/readings") return `${value.what}, ${describePlace(value.at)}`;
  if (entry.path === "/ratings") return `${value.checkpoint}`;
  return entry.path.slice(1).replace("/", ", ").replace("_", " ");
}

function who(desk: Desk, entry: StoredEntry): string {
  const by = (entry.value as { by?: string } | null)?.by;
  if (by) return by;
  if (entry.device === deviceId()) return "this device";
  return desk.visit.here.value.find((one) => one.id === entry.device)?.name ?? "another device";
}
