import { useEffect, useRef, useState } from "preact/hooks";
import { ApiError, api } from "../api/client";
import { newId } from "../api/device";
import type { Dossier, Id, VisitLine } from "../api/types";
import { Button, EmptyFrame, ErrorLine, Field, TitleBlock } from "../look/parts";
import { counted, dayWords, minutesWords, trueMinus } from "../look/words";
import { go, href } from "../route";
import { settings } from "../settings";
import { shop } from "../shop_state";
import "../verdict/verdict.css";
import "./dossier.css";
import { RowOverTime } from "./line";
import { cellOf, mostTelling, rowKey, sectionsOf, type Row } from "./series";

/** All stays of one instrument, and what was read of it each time. */
export default function DossierPage({ id }: { id: Id }) {
  const [dossier, setDossier] = useState<Dossier | null>(null);
  const [trouble, setTrouble] = useState<ApiError | null>(null);
  const ask = (): void => {
    api.dossier(id).then(
      (answer) => { setDossier(answer); setTrouble(null); },
      (error: unknown) => { if (error instanceof ApiError) setTrouble(error); },
    );
  };
  useEffect(ask, [id]);
  return (
    <div class="sheet-page dossier-page">
      {trouble && (
        <ErrorLine strong={trouble.status === 404 ? "There is no such instrument." : "This past cannot be shown."}
                   cures={[{ says: "Try again", onPress: ask }]}>{trouble.message}</ErrorLine>
      )}
      {dossier && <Past dossier={dossier} onChange={setDossier} />}
    </div>
  );
}

function Past({ dossier, onChange }: { dossier: Dossier; onChange: (dossier: Dossier) => void }) {
  const today = shop.value?.today ?? "";
  const visits = [...dossier.visits].sort((a, b) => a.opened.localeCompare(b.opened));
  return (
    <>
      <TitleBlock class="dossier-title" cells={[
        { says: dossier.serial || dossier.kind, value: dossier.title, who: true },
        { says: "Stays", value: String(visits.length) },
        { says: "Last seen", value: dayWords(visits.at(-1)?.opened ?? "never", today) },
        { says: "Back to", value: "Visits", href: href({ page: "visits" }) },
      ]} />
      <div class="dossier-head">
        <Owner dossier={dossier} onChange={onChange} />
        <NewVisit dossier={dossier} />
      </div>
      <section aria-labelledby="dossier-stays">
        <h2 id="dossier-stays" class="dossier-heading">Stays</h2>
        <ul class="stay-list">{[...visits].reverse().map((visit) => <Stay key={visit.id} visit={visit} today={today} />)}</ul>
      </section>
      <Readings dossier={dossier} visits={visits} today={today} />
    </>
  );
}

/** The owner's name, saved when the field is left. */
function Owner({ dossier, onChange }: { dossier: Dossier; onChange: (dossier: Dossier) => void }) {
  const [owner, setOwner] = useState(dossier.owner);
  const [refused, setRefused] = useState("");
  const save = (): void => {
    if (owner.trim() === dossier.owner) return;
    api.putDossier(dossier.id, { owner: owner.trim() }).then(
      (answer) => { onChange(answer); setRefused(""); },
      (error: unknown) => { if (error instanceof ApiError) setRefused(`Not saved: ${error.message}. The text is kept here.`); },
    );
  };
  return <Field label="Owner" value={owner} onInput={setOwner} onDone={save} hint="Saved when you leave the field."
                {...(refused === "" ? {} : { refused })} />;
}

function NewVisit({ dossier }: { dossier: Dossier }) {
  const [refused, setRefused] = useState("");
  const open = (): void => {
    const by = settings.person.peek();
    const visit = {
      id: newId(), kind: dossier.kind, dossier: dossier.id,
      ...(dossier.owner === "" ? {} : { player: dossier.owner }), ...(by === "" ? {} : { by }),
    };
    api.openVisit(visit).then(
      (answer) => go({ page: "visit", id: answer.id }),
      (error: unknown) => { if (error instanceof ApiError) setRefused(error.message); },
    );
  };
  return (
    <div>
      <Button go whole onPress={open}>New visit of this instrument</Button>
      {refused !== "" && <ErrorLine strong="No visit was opened.">{refused}</ErrorLine>}
    </div>
  );
}

function Stay({ visit, today }: { visit: VisitLine; today: string }) {
  return (
    <li class="stay">
      <a class="stay-main" href={href({ page: "visit", id: visit.id })}>
        <b>{dayWords(visit.opened, today)}</b>
        <span>{visit.player || "no player named"}</span>
        <span>{visit.scope}, {counted(visit.readings, "reading", "readings")}</span>
        <span>{visit.closed ? `closed ${dayWords(visit.closed, today)}` : `${minutesWords(visit.minutes_left)} left`}</span>
      </a>
      <a class="stay-verdict" href={href({ page: "verdict", id: visit.id })}>{visit.verdict}</a>
    </li>
  );
}

function Readings({ dossier, visits, today }: { dossier: Dossier; visits: readonly VisitLine[]; today: string }) {
  const [search, setSearch] = useState("");
  const [chosen, setChosen] = useState<string>("");
  const table = useRef<HTMLDivElement>(null);
  // The latest stay is what is looked for; earlier ones are scrolled to.
  useEffect(() => { if (table.current) table.current.scrollLeft = table.current.scrollWidth; }, [visits.length]);
  const sections = sectionsOf(dossier.rows, search);
  const shown = dossier.rows.find((row) => rowKey(row) === chosen) ?? mostTelling(sections.flatMap((section) => section.rows));
  if (dossier.rows.length === 0) {
    return <EmptyFrame strong="Nothing has been read of it yet.">Six string heights and the relief, 3 minutes, already give a first line.</EmptyFrame>;
  }
  return (
    <section aria-labelledby="dossier-rows">
      <h2 id="dossier-rows" class="dossier-heading">What was read, stay by stay</h2>
      <div class="dossier-readings">
        <div class="dossier-figure">{shown && <RowOverTime row={shown} today={today} />}</div>
        <div class="dossier-table">
          <Field label="Find a reading" value={search} onInput={setSearch} type="search" placeholder="height 12" />
          <div class={`scrolls ${visits.length < 3 ? "few" : ""}`} ref={table} role="region" aria-label="Readings by stay" tabIndex={0}>
            <table>
              <thead>
                <tr>
                  <th scope="col">What, where</th>
                  {visits.map((visit) => <th key={visit.id} scope="col">{dayWords(visit.opened, today)}</th>)}
                </tr>
              </thead>
              {sections.map((section) => (
                <tbody key={section.what}>
                  <tr class="what"><th scope="rowgroup" colSpan={visits.length + 1}><span>{section.what}</span></th></tr>
                  {section.rows.map((row) => (
                    <TableRow key={row.at} row={row} visits={visits} now={row === shown} onChoose={() => setChosen(rowKey(row))} />
                  ))}
                </tbody>
              ))}
            </table>
          </div>
          {sections.length === 0 && <p>No reading is called that. The search looks at what and where: “relief 6”.</p>}
        </div>
      </div>
    </section>
  );
}

function TableRow({ row, visits, now, onChoose }: { row: Row; visits: readonly VisitLine[]; now: boolean; onChoose: () => void }) {
  return (
    <tr class={now ? "now" : ""}>
      <th scope="row">
        <button type="button" class="row-pick" aria-pressed={now} aria-label={`Draw ${row.what} ${row.at}`} onClick={onChoose}>
          {row.at === "" ? "whole instrument" : row.at}
        </button>
      </th>
      {visits.map((visit) => {
        const cell = cellOf(row, visit.id);
        return (
          <td key={visit.id}>
            {cell ? <><b>{trueMinus(cell.last)}</b>{cell.before !== "" && <small>{trueMinus(cell.before)}</small>}</> : <span class="unseen">not read</span>}
          </td>
        );
      })}
    </tr>
  );
}
