import { useState } from "preact/hooks";
import type { Finding } from "../api/types";
import { Button, Field } from "../look/parts";
import { dayWords, trueMinus } from "../look/words";
import { href } from "../route";
import { settings } from "../settings";
import type { OpenVisit } from "../visit_state";
import { acceptedNow, breaks, bySeverity, chance, figureOf, oneLimit, severityTitles, standingWords, tailOf, type Group } from "./grouped";

export function Findings({ visit, findings, today }: { visit: OpenVisit; findings: readonly Finding[]; today: string }) {
  return (
    <section class="verdict-part" aria-labelledby="verdict-findings">
      <h2 id="verdict-findings">Findings</h2>
      {findings.length === 0 && <p>No reading and no sentence breaks a limit.</p>}
      {bySeverity(findings).map(({ severity, groups }) => (
        <div key={severity} class="severity">
          <h3>{severityTitles[severity]}</h3>
          {groups.map((group) => <GroupOf key={group.key} visit={visit} group={group} today={today} />)}
        </div>
      ))}
    </section>
  );
}

function GroupOf({ visit, group, today }: { visit: OpenVisit; group: Group; today: string }) {
  const first = group.members[0] as Finding;
  const shared = oneLimit(group.members);
  return (
    <article class="finding-group">
      <h4><a href={href({ page: "visit", id: visit.id, checkpoint: first.checkpoint })}>{group.title}</a></h4>
      <div class="finding-lines">
        <ul>
          {group.members.map((finding) => (
            <Member key={finding.id} visit={visit} finding={finding} today={today} withLimit={!shared} />
          ))}
        </ul>
        <div class="finding-words">
          {shared && <Limit finding={first} alone />}
          <p>{first.why}</p>
          <p><b>Remedy</b> {first.remedy}</p>
        </div>
      </div>
    </article>
  );
}

/** The limit, how what was found stands to it, and whose limit it is. `alone`: it stands for a whole group. */
function Limit({ finding, alone }: { finding: Finding; alone?: boolean }) {
  if (!finding.limit && finding.p_conform === undefined) return null;
  return (
    <p class="finding-limit">
      {finding.limit && <span>limit {trueMinus(finding.limit)}{!alone && `, ${standingWords[finding.standing] ?? finding.standing}`}</span>}
      {!alone && finding.p_conform !== undefined && <span>, within it {chance(finding.p_conform)}</span>}
      {finding.limit_source && <small> {finding.limit_source}</small>}
    </p>
  );
}

function Member({ visit, finding, today, withLimit }: {
  visit: OpenVisit; finding: Finding; today: string; withLimit: boolean;
}) {
  const [open, setOpen] = useState(false);
  const accepted = acceptedNow(finding);
  const place = tailOf(finding);
  const found = figureOf(finding);
  return (
    <li class={`finding-line ${accepted ? "is-accepted" : ""} ${breaks(finding.standing) ? "breaks" : ""}`}>
      <div class="finding-row">
        <div>
          <p class="finding-found">
            {place !== "" && <span class="finding-place">{place}</span>} <b class="finding-figure">{trueMinus(found)}</b>
          </p>
          {withLimit && <Limit finding={finding} />}
          {finding.remark && <p>{finding.remark}</p>}
          {accepted && <p>accepted by {accepted.by}{accepted.when ? `, ${momentWords(accepted.when, today)}` : ""}: {accepted.why}</p>}
          {!accepted && finding.acceptance_lapsed && <p>No longer accepted: the value has changed since.</p>}
        </div>
        {accepted
          ? <Button onPress={() => takeBack(visit, finding.id)} label={`No longer accepted: ${finding.title}`}>No longer</Button>
          : <Button onPress={() => setOpen(!open)} pressed={open} label={`Accept as it is: ${finding.title}`}>Accept</Button>}
      </div>
      {open && !accepted && <AcceptForm visit={visit} finding={finding} found={found} onDone={() => setOpen(false)} />}
    </li>
  );
}

export function momentWords(moment: string, today: string): string {
  return `${dayWords(moment, today)} ${moment.slice(11, 16)}`.trim();
}

function takeBack(visit: OpenVisit, finding: string): void {
  const given = visit.view.peek()?.entries.filter((entry) =>
    entry.path === "/accepted" && (entry.value as { finding?: string }).finding === finding);
  for (const entry of given ?? []) visit.remove(entry.id);
}

function AcceptForm({ visit, finding, found, onDone }: { visit: OpenVisit; finding: Finding; found: string; onDone: () => void }) {
  const [by, setBy] = useState(settings.person.peek());
  const [why, setWhy] = useState("");
  const [asked, setAsked] = useState(false);
  const missing = (text: string): string | undefined => (asked && text.trim() === "" ? "This is needed." : undefined);
  const accept = (): void => {
    setAsked(true);
    if (by.trim() === "" || why.trim() === "") return;
    const value = { finding: finding.id, value: found, by: by.trim(), when: new Date().toISOString(), why: why.trim() };
    visit.add({ path: "/accepted", value });
    onDone();
  };
  const whoMissing = missing(by);
  const whyMissing = missing(why);
  return (
    <div class="accept-form no-print">
      <Field label="Accepted by" value={by} onInput={setBy} {...(whoMissing ? { refused: whoMissing } : {})} />
      <Field label="Why" value={why} onInput={setWhy} {...(whyMissing ? { refused: whyMissing } : {})}
             hint="It holds for this value; when the value changes, it lapses." />
      <div class="row">
        <Button go onPress={accept}>Accept {found}</Button>
        <Button onPress={onDone}>Leave it</Button>
      </div>
    </div>
  );
}
