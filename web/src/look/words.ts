// Figures and days as the page writes them.

const days = ["Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"];
const months = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];
const two = (number: number) => String(number).padStart(2, "0");

/** "14:07" or "14:07:31", by this device's clock. */
export function clock(at: Date, seconds: boolean): string {
  const text = `${two(at.getHours())}:${two(at.getMinutes())}`;
  return seconds ? `${text}:${two(at.getSeconds())}` : text;
}

/** "Fri 28 Nov" of "2026-11-28"; with the year when it is not that of `today`. The text itself if it is no day. */
export function dayWords(day: string, today = ""): string {
  const found = /^(\d{4})-(\d{2})-(\d{2})/.exec(day);
  if (!found) return day;
  const date = new Date(Date.UTC(Number(found[1]), Number(found[2]) - 1, Number(found[3])));
  if (Number.isNaN(date.getTime())) return day;
  const words = `${days[date.getUTCDay()]} ${date.getUTCDate()} ${months[date.getUTCMonth()]}`;
  return today === "" || today.slice(0, 4) === day.slice(0, 4) ? words : `${words} ${found[1]}`;
}

/** The true minus sign before a figure, as the page prints it. */
export const trueMinus = (text: string): string => text.replace(/(^|[\s(])-(?=[\d.])/g, "$1\u2212");

export const minutesWords = (minutes: number): string => `${Math.round(minutes)} min`;

/** What a scope takes: the readings alone, without the work. */
export const atLeast = (minutes: number): string => `at least ${Math.max(1, Math.round(minutes))} min`;

/** "1 entry", "6 entries". */
export const counted = (count: number, one: string, many: string): string =>
  `${count} ${count === 1 ? one : many}`;
