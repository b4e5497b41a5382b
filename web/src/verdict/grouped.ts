// Findings put together for reading: by severity, then what shares checkpoint, limit and words under one heading.

import type { Finding, Severity } from "../api/types";

export const severities: readonly Severity[] = ["critical", "major", "minor", "note"];
export const severityTitles: Record<Severity, string> = {
  critical: "Critical", major: "Major", minor: "Minor", note: "Notes",
};

/** Who takes it as it is, for as long as that holds: an acceptance that lapsed is told with the finding too. */
export const acceptedNow = (finding: Finding | undefined): Finding["accepted"] =>
  finding?.acceptance_lapsed ? undefined : finding?.accepted;

export interface Group {
  key: string;
  title: string;
  members: Finding[];
}

/** In the order they came, the weightiest severity first; severities with nothing are left out. */
export function bySeverity(findings: readonly Finding[]): { severity: Severity; groups: Group[] }[] {
  return severities
    .map((severity) => ({ severity, groups: grouped(findings.filter((finding) => finding.severity === severity)) }))
    .filter((part) => part.groups.length > 0);
}

function grouped(findings: readonly Finding[]): Group[] {
  const groups = new Map<string, Group>();
  for (const finding of findings) {
    const key = [finding.checkpoint, finding.why, finding.remedy].join("\n");
    const group = groups.get(key);
    if (group) group.members.push(finding);
    else groups.set(key, { key, title: headOf(finding), members: [finding] });
  }
  return [...groups.values()];
}

/** The title without its place: "Level of the frets" of "Level of the frets, fret 9, treble side". */
export function headOf(finding: Pick<Finding, "title" | "at">): string {
  const tail = tailOf(finding);
  return tail === "" ? finding.title : finding.title.slice(0, finding.title.length - tail.length).replace(/, $/, "");
}

/** True when several findings stand against one and the same limit, so that it is said once. */
export function oneLimit(members: readonly Finding[]): boolean {
  const [first] = members;
  return members.length > 1 && members.every((finding) => finding.limit === first?.limit && finding.limit_source === first?.limit_source);
}

const placeStart = /, (?:string \d+|fret \d+|open|bass side|treble side|(?:bridge|neck|middle|[\w ]+) (?:pickup|control)|switch .*|at .*)/;

/** The place at the end of a title; "" for the whole instrument. */
export function tailOf({ title, at }: Pick<Finding, "title" | "at">): string {
  if (!at || Object.keys(at).length === 0) return "";
  const found = placeStart.exec(title);
  return found ? title.slice(found.index + 2) : "";
}

/** What was found, in words or with its unit. */
export const figureOf = (finding: Pick<Finding, "found">): string => finding.found?.text ?? finding.found?.words ?? "";

/** "91 in 100", never "100 in 100" for what is only nearly sure. */
export function chance(p: number): string {
  if (p >= 0.995) return "over 99 in 100";
  if (p <= 0.005) return "under 1 in 100";
  return `${Math.round(p * 100)} in 100`;
}

/** Standings that break a limit. */
export const breaks = (standing: string): boolean => ["outside", "reject", "fault"].includes(standing);

export const standingWords: Record<string, string> = {
  usual: "usual", "at the edge": "at the edge", outside: "outside the usual", accept: "within the limit",
  reject: "outside the limit", "cannot tell": "cannot tell yet", good: "good", "will do": "will do", fault: "a fault", read: "",
};
