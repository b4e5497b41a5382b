// Findings, the worst first; a person may take one as it is, with name and reason. It lapses when the value moves.

import { useSignal } from "@preact/signals";
import type { Finding } from "../api/types";
import { Button, EmptyFrame, Field } from "../look/parts";
import { settings } from "../settings";
import { acceptedNow } from "../verdict/grouped";
import type { Desk } from "./desk";

export function FindingsPanel({ desk }: { desk: Desk }) {
  const { findings } = desk.view.value.assessment;
  if (findings.length === 0)
    return (
      <EmptyFrame strong="No findings so far.">
        They come from readings and sentences that break a limit.
      </EmptyFrame>
    );
  return (
    <ul class="plain-list">
      {findings.map((finding) => (
        <FindingLine key={finding.id} desk={desk} finding={finding} />
      ))}
    </ul>
  );
}

function FindingLine({ desk, finding }: { desk: Desk; finding: Finding }) {
  const open = useSignal(false);
  const found = finding.found?.text ?? finding.found?.words ?? "";
  const accepted = acceptedNow(finding);
  return (
    <li class={`said-line finding ${accepted ? "finding-accepted" : ""}`}>
      <p>
        <b>{finding.title}</b>: {found}
        {finding.limit && <span class="limit">, limit {finding.limit}</span>} <small>{finding.severity}</small>
      </p>
      <p>
        {finding.why} {finding.remedy}
      </p>
      {finding.limit_source && <small>Limit: {finding.limit_source}</small>}
      {accepted && (
        <p class="accepted">
          Accepted by {accepted.by}
          {accepted.when && `, ${accepted.when.slice(0, 10)} ${accepted.when.slice(11, 16)}`}: {accepted.why}
        </p>
      )}
      {!accepted && finding.acceptance_lapsed && <p>Was accepted at another value; that no longer holds.</p>}
      <div class="row">
        <Button onPress={() => desk.goTo(finding.checkpoint)} disabled={finding.checkpoint === ""}>
          Read it again
        </Button>
        {!accepted && (
          <Button
            onPress={() => {
              open.value = !open.value;
            }}>
            Accept
          </Button>
        )}
        {accepted && <Button onPress={() => takeBack(desk, finding.id)}>No longer accepted</Button>}
      </div>
      {open.value && (
        <Accept
          desk={desk}
          finding={finding}
          found={found}
          onDone={() => {
            open.value = false;
          }}
        />
      )}
    </li>
  );
}

function takeBack(desk: Desk, finding: string): void {
  const entry = desk.view
    .peek()
    .entries.filter(
      (one) => one.path === "/accepted" && (one.value as { finding?: string } | null)?.finding === finding,
    )
    .at(-1);
  if (entry) desk.visit.remove(entry.id);
}

function Accept({
  desk,
  finding,
  found,
  onDone,
}: {
  desk: Desk;
  finding: Finding;
  found: string;
  onDone: () => void;
}) {
  const by = useSignal(settings.person.peek());
  const why = useSignal("");
  const ready = by.value.trim() !== "" && why.value.trim() !== "";
  const accept = () => {
    const value = {
      finding: finding.id,
      value: found,
      by: by.value.trim(),
      when: desk.hand().when,
      why: why.value.trim(),
    };
    desk.store([{ path: "/accepted", value }], `Accepted: ${finding.title}`);
    onDone();
  };
  return (
    <div class="new-line">
      <Field
        label="Who takes it as it is"
        value={by.value}
        onInput={(text) => {
          by.value = text;
        }}
      />
      <Field
        label="Why"
        value={why.value}
        hint="wanted so; known and priced in"
        onInput={(text) => {
          why.value = text;
        }}
      />
      <Button go disabled={!ready} onPress={accept}>
        Accept {found}
      </Button>
    </div>
  );
}
