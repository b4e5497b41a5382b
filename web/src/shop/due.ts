import type { Day, ShopTool } from "../api/types";
import { dayWords } from "../look/words";

// When a tool has to be compared with something better again.

const dayNumber = (day: Day) => Date.parse(`${day}T00:00:00Z`) / 86_400_000;
const soonDays = 30;

export interface Due {
  words: string;
  /** Its day is over: readings with it stand on an old certificate. */
  over: boolean;
}

export function dueOf(tool: ShopTool, today: Day): Due {
  if (tool.due === undefined) {
    const words = tool.calibrated
      ? `calibrated ${dayWords(tool.calibrated, today)}, no next day set`
      : "never calibrated";
    return { words, over: false };
  }
  const away = dayNumber(tool.due) - dayNumber(today);
  if (away < 0) return { words: `was due ${dayWords(tool.due, today)}, ${counted(-away)} ago`, over: true };
  if (away <= soonDays) return { words: away === 0 ? "due today" : `due in ${counted(away)}`, over: false };
  return { words: `due ${dayWords(tool.due, today)}`, over: false };
}

const counted = (days: number) => (days === 1 ? "1 day" : `${days} days`);

/** In use first and of those what is due first; retired tools last. */
export function sortTools(tools: ShopTool[]): ShopTool[] {
  const rank = (tool: ShopTool) => `${tool.retired ? 1 : 0}${tool.due ?? "9999"}${tool.id}`;
  return [...tools].sort((a, b) => (rank(a) < rank(b) ? -1 : 1));
}
