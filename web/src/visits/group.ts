import type { Day, VisitLine } from "../api/types";
import { dayWords } from "../look/words";

export interface Group {
  title: string;
  /** Promised for a day that is over, and not closed. */
  late: boolean;
  visits: VisitLine[];
}

const dayNumber = (day: Day) => Date.parse(`${day.slice(0, 10)}T00:00:00Z`) / 86_400_000;

function title(day: Day, today: Day): string {
  const away = dayNumber(day) - dayNumber(today);
  const words = dayWords(day, today);
  if (away === 0) return `Today, ${words}`;
  if (away === 1) return `Tomorrow, ${words}`;
  if (away === -1) return `${words}, promised for yesterday`;
  return away < 0 ? `${words}, ${-away} days past` : words;
}

/** One list under headings by promised day: what is late first, then today and the days to come, then what nobody gave
 *  a day, last what is closed. Within a day the longest work stands first: it has to be begun first. */
export function groupVisits(visits: VisitLine[], today: Day): Group[] {
  const open = visits.filter((visit) => visit.closed === undefined);
  const byDay = new Map<Day, VisitLine[]>();
  for (const visit of open)
    if (visit.promised !== undefined) byDay.set(visit.promised, [...(byDay.get(visit.promised) ?? []), visit]);
  const days = [...byDay]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([day, list]): Group => ({
      title: title(day, today),
      late: day < today,
      visits: [...list].sort((a, b) => b.minutes_left - a.minutes_left),
    }));
  const later: Group[] = [
    {
      title: "No day promised",
      late: false,
      visits: latestFirst(
        open.filter((visit) => visit.promised === undefined),
        "opened",
      ),
    },
    {
      title: "Closed",
      late: false,
      visits: latestFirst(
        visits.filter((visit) => visit.closed !== undefined),
        "closed",
      ),
    },
  ];
  return [...days, ...later.filter((group) => group.visits.length > 0)];
}

/** Offsets differ from device to device: moments are compared as moments, not as text. */
function latestFirst(visits: VisitLine[], by: "opened" | "closed"): VisitLine[] {
  const moment = (visit: VisitLine) => Date.parse(visit[by] ?? "") || 0;
  return [...visits].sort((a, b) => moment(b) - moment(a));
}

/** The part of a kept list that a search would find: for when the server cannot be asked. */
export function searchKept(visits: VisitLine[], search: string): VisitLine[] {
  const words = search
    .toLowerCase()
    .split(/\s+/)
    .filter((word) => word !== "");
  return visits.filter((visit) => {
    const text = `${visit.title} ${visit.serial} ${visit.player} ${visit.scope} ${visit.verdict}`.toLowerCase();
    return words.every((word) => text.includes(word));
  });
}
