// The sheet list by section, the verdict under it, and the bar that stands for both on a phone.

import { useSignal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { Button, Corners } from "../look/parts";
import { href } from "../route";
import { acceptedNow } from "../verdict/grouped";
import { sheetSections, type Section } from "./catalogue";
import { countOf as countOfScope } from "./count";
import type { Desk, Panel } from "./desk";
import { barred as barredBy } from "./order";
import { summaryOf } from "./summary";
import { useWide } from "./size";
import { always } from "./title";

export function SheetList({ desk }: { desk: Desk }) {
  return (
    <nav class="sheet-list" aria-label="Sheet">
      <ListBody desk={desk} />
      <VerdictLine desk={desk} />
    </nav>
  );
}

export function ListBody({ desk }: { desk: Desk }) {
  const all = useSignal(false);
  const find = useSignal("");
  const words = find.value.trim().toLowerCase();
  const sections = sheetSections(desk.catalogue, desk.view.value, all.value || words !== "")
    .map((section) => ({
      ...section,
      checkpoints: section.checkpoints.filter((one) => one.title.toLowerCase().includes(words)),
    }))
    .filter((section) => section.checkpoints.length > 0);
  const scroll = useRef<HTMLDivElement>(null);
  const now = desk.checkpoint.value?.id;
  useEffect(() => {
    scroll.current?.querySelector(".list-now")?.scrollIntoView({ block: "nearest" });
  }, [now]);
  return (
    <div class="sheet-list-scroll" ref={scroll}>
      <input
        class="list-find"
        type="search"
        placeholder="Find on the sheet"
        aria-label="Find on the sheet"
        value={find.value}
        onInput={(event) => {
          find.value = event.currentTarget.value;
        }}
        onKeyDown={(event) => {
          const first = sections[0]?.checkpoints[0];
          if (event.key === "Enter" && first) {
            find.value = "";
            desk.goTo(first.id);
          }
        }}
      />
      {sections.map((section) => (
        <ListSection key={section.id} desk={desk} section={section} />
      ))}
      <Also desk={desk} />
      <Button
        whole
        onPress={() => {
          all.value = !all.value;
        }}>
        {all.value ? "Only the scope" : "All that could be looked at"}
      </Button>
    </div>
  );
}

function ListSection({ desk, section }: { desk: Desk; section: Section }) {
  return (
    <section>
      <h2 class="list-head">{section.title}</h2>
      <ul>
        {section.checkpoints.map((one) => (
          <ListLine key={one.id} desk={desk} line={one} />
        ))}
      </ul>
    </section>
  );
}

function ListLine({ desk, line }: { desk: Desk; line: Section["checkpoints"][number] }) {
  const now = desk.checkpoint.value?.id === line.id && desk.panel.value === null;
  const said = summaryOf(desk.view.value, desk.catalogue, line.id);
  const barred = barredBy(desk.view.value, desk.catalogue, line.id);
  const to = href({ page: "visit", id: desk.visit.id, checkpoint: line.id });
  return (
    <li>
      <a
        class={`list-line ${now ? "list-now" : ""} ${said.fault ? "list-fault" : ""}`}
        href={to}
        aria-current={now ? "step" : undefined}
        onClick={(event) => {
          event.preventDefault();
          desk.goTo(line.id);
        }}>
        <span>{line.title}</span>
        {said.figure ? <b>{said.figure}</b> : barred ? <small>not allowed</small> : <Corners />}
        {(said.tail || barred) && <i>{barred || said.tail}</i>}
      </a>
    </li>
  );
}

const alsoPanels: { panel: Panel; says: string }[] = [
  { panel: "visit", says: "This visit" },
  { panel: "wants", says: "Player’s words" },
  { panel: "facts", says: "The instrument" },
  { panel: "claims", says: "Claims" },
  { panel: "findings", says: "Findings" },
  { panel: "work", says: "Work done" },
  { panel: "photo", says: "Photos" },
  { panel: "remark", says: "Remarks" },
  { panel: "history", says: "History and files" },
  { panel: "keys", says: "Keys and settings" },
];

function Also({ desk }: { desk: Desk }) {
  return (
    <section class="list-also">
      <h2 class="list-head">Also</h2>
      <ul>
        {alsoPanels.map(({ panel, says }) => (
          <li key={panel}>
            <button
              type="button"
              class={`list-line ${desk.panel.value === panel ? "list-now" : ""}`}
              onClick={() => {
                desk.panel.value = panel;
              }}>
              <span>{says}</span>
              <small>{countOf(desk, panel)}</small>
            </button>
          </li>
        ))}
        {desk.view.value.assessment.neck && (
          <li>
            <a class="list-line" href={href({ page: "survey", id: desk.visit.id })}>
              <span>Survey of the neck</span>
            </a>
          </li>
        )}
        <li>
          <a class="list-line" href={href({ page: "visits" })}>
            <span>All visits</span>
          </a>
        </li>
      </ul>
    </section>
  );
}

function countOf(desk: Desk, panel: Panel): string {
  const paths: Partial<Record<Panel, string>> = {
    wants: "/wants/complaints",
    claims: "/claims",
    work: "/work",
    remark: "/remarks",
    photo: "/photos",
  };
  const path = paths[panel];
  if (panel === "findings")
    return String(desk.view.value.assessment.findings.filter((one) => !acceptedNow(one)).length || "");
  if (panel === "facts")
    return desk.view.value.assessment.assumed.length > 0
      ? `${desk.view.value.assessment.assumed.length} assumed`
      : "";
  const count = path ? desk.view.value.entries.filter((entry) => entry.path === path).length : 0;
  return count > 0 ? String(count) : "";
}

/** Verdict and its first reason; what typing would make of it stands beside while a figure is being typed. */
export function VerdictLine({ desk, narrow = false }: { desk: Desk; narrow?: boolean }) {
  const { verdict, reasons } = desk.view.value.assessment;
  const tried = desk.visit.tried.value;
  const would = tried && tried.verdict !== verdict ? tried.verdict : "";
  return (
    <a
      class={`verdict-line ${narrow ? "verdict-narrow" : "verdict-wide"}`}
      href={href({ page: "verdict", id: desk.visit.id })}>
      <b>{verdict}</b>
      {would && <span class="would">as typed: {would}</span>}
      <span class="reason">{reasons[0] ?? ""}</span>
      {desk.visit.judging.value && <small>sums to follow</small>}
    </a>
  );
}

export function BottomBar({ desk }: { desk: Desk }) {
  const wide = useWide();
  const { answered, all } = countOfScope(desk.view.value, desk.catalogue);
  const open = (panel: Panel) => () => {
    desk.panel.value = desk.panel.value === panel ? null : panel;
  };
  return (
    <nav class="bottom-bar" aria-label="Visits, sheet, photo, remark, player’s words">
      <a href={href({ page: "visits" })}>{wide ? "All visits" : "Visits"}</a>
      <button type="button" aria-pressed={desk.panel.value === "sheet"} onClick={open("sheet")}>
        Sheet{" "}
        <small>
          {answered} of {all}
          {wide && " answered"}
        </small>
      </button>
      {always.map(({ panel, says, short }) => (
        <button
          key={panel}
          type="button"
          aria-pressed={desk.panel.value === panel}
          aria-label={says}
          onClick={open(panel)}>
          {wide ? says : short}
        </button>
      ))}
    </nav>
  );
}
