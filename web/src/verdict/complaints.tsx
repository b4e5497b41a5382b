import type { Complaint, Finding } from "../api/types";
import { describePlace } from "../visit/places";

/** Each complaint in the player's words, how it ended, and the readings that show it. */
export function Complaints({ complaints, findings }: { complaints: readonly Complaint[]; findings: readonly Finding[] }) {
  if (complaints.length === 0) return null;
  return (
    <section class="verdict-part" aria-labelledby="verdict-complaints">
      <h2 id="verdict-complaints">Complaints</h2>
      <ul class="complaint-list">
        {complaints.map((complaint, nth) => <One key={nth} complaint={complaint} findings={findings} />)}
      </ul>
    </section>
  );
}

function One({ complaint, findings }: { complaint: Complaint; findings: readonly Finding[] }) {
  const place = complaint.at && Object.keys(complaint.at).length > 0 ? describePlace(complaint.at) : "";
  const named = findings.filter((finding) => complaint.findings?.includes(finding.id));
  const evidence = complaint.evidence ?? [];
  return (
    <li class="complaint">
      <p class="complaint-text">“{complaint.text}”{place !== "" && <small> {place}</small>}</p>
      <p class={`complaint-ending ${complaint.ending ? "" : "open"}`}>
        <b>{complaint.ending ?? "not ended yet"}</b>{complaint.ended_by && <small>, {complaint.ended_by}</small>}
      </p>
      {complaint.remark && <p>{complaint.remark}</p>}
      {complaint.ending && complaint.ending !== "left by agreement" && !complaint.shown && <p class="red">No reading shows it.</p>}
      {evidence.length > 0 && (
        <ul class="complaint-evidence" aria-label={complaint.ending ? "Shown by" : "What bears on it"}>
          {evidence.map((line) => <li key={line}>{line}</li>)}
        </ul>
      )}
      {evidence.length === 0 && named.length > 0 && (
        <ul class="complaint-evidence" aria-label="Findings">{named.map((finding) => <li key={finding.id}>{finding.title}</li>)}</ul>
      )}
    </li>
  );
}
