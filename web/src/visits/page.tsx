import { signal } from "@preact/signals";
import { useEffect, useRef, useState } from "preact/hooks";
import { ApiError, api } from "../api/client";
import { keep } from "../api/keep";
import { listen } from "../api/live";
import { outbox } from "../api/outbox";
import type { Visits } from "../api/types";
import { Button, EmptyFrame, ErrorLine, Field, TitleBlock, type Cell } from "../look/parts";
import { counted, dayWords } from "../look/words";
import { go } from "../route";
import { settings } from "../settings";
import { shop } from "../shop_state";
import { FileButton, RefusedFiles, useBringIn } from "./bring_in";
import { groupVisits, searchKept } from "./group";
import { KeptSheets } from "./kept";
import { NewVisitSheet } from "./new_visit";
import { VisitRow } from "./row";
import { Trouble } from "./trouble";
import "./visits.css";

// The list of visits. What the server last answered is kept, so that the way back to the bench is there without a line.

const list = signal<Visits | null>(null);
const search = signal("");
const trouble = signal<ApiError | null>(null);
let asked: AbortController | undefined;

async function askList(): Promise<void> {
  asked?.abort();
  const mine = new AbortController();
  asked = mine;
  const q = search.peek().trim();
  try {
    const answer = await api.visits(q, 200, 0, mine.signal);
    if (mine.signal.aborted) return;
    list.value = answer;
    trouble.value = null;
    if (q === "") await (await keep()).put("answers", "visits", answer).catch(() => undefined);
  } catch (error) {
    if (mine.signal.aborted || !(error instanceof ApiError)) return;
    trouble.value = error;
    const kept = (await (await keep()).get("answers", "visits").catch(() => undefined)) as Visits | undefined;
    if (kept) list.value = { ...kept, visits: searchKept(kept.visits, q) };
  }
}

function useList(): void {
  useEffect(() => {
    const stop = listen({
      heard: (message) => {
        if (message.type === "visits") void askList();
      },
    });
    void askList();
    return stop;
  }, []);
  useEffect(() => {
    const timer = setTimeout(() => void askList(), 200);
    return () => clearTimeout(timer);
  }, [search.value]);
}

function headCells(): Cell[] {
  const cells: Cell[] = [{ says: shop.value?.name || "Fallaway", value: "Visits", who: true }];
  if (shop.value) cells.push({ says: "Today", value: dayWords(shop.value.today) });
  cells.push({
    says: "Typing here",
    value: settings.person.value === "" ? "not said" : settings.person.value,
    href: "/shop",
  });
  return cells;
}

function Lines({ typed }: { typed: string }) {
  const now = list.value;
  if (now === null)
    return trouble.value ? (
      <KeptSheets />
    ) : (
      <p class="caption" role="status">
        Asking for the list.
      </p>
    );
  if (now.visits.length === 0 && typed !== "")
    return (
      <EmptyFrame
        strong={`No visit speaks of "${typed}".`}
        action={{ says: "Show all", onPress: () => (search.value = "") }}>
        The search looks at instrument, serial number, player and scope.
      </EmptyFrame>
    );
  return (
    <div class="visits-list">
      {groupVisits(now.visits, now.today).map((group) => (
        <section key={group.title}>
          <h2 class={group.late ? "late" : ""}>{group.title}</h2>
          <ul>
            {group.visits.map((visit) => (
              <VisitRow key={visit.id} visit={visit} />
            ))}
          </ul>
        </section>
      ))}
      {now.total > now.visits.length && (
        <p class="caption">{`${now.visits.length} of ${now.total} are shown; search for the others.`}</p>
      )}
    </div>
  );
}

/** What the server refused stays with its text until a person has seen to it, on the sheet it was typed on. */
function RefusedEntries() {
  const byVisit = new Map<string, number>();
  for (const item of outbox.refused.value) byVisit.set(item.visit, (byVisit.get(item.visit) ?? 0) + 1);
  return (
    <>
      {[...byVisit].map(([visit, count]) => {
        const title = list.value?.visits.find((one) => one.id === visit)?.title ?? "a visit";
        return (
          <ErrorLine
            key={visit}
            strong={`${counted(count, "entry was", "entries were")} refused.`}
            cures={[{ says: "See them", onPress: () => go({ page: "visit", id: visit }) }]}>
            {`${count === 1 ? "It was" : "They were"} typed on the sheet of ${title}; the text is kept.`}
          </ErrorLine>
        );
      })}
    </>
  );
}

export default function VisitsPage() {
  useList();
  const [fresh, setFresh] = useState(false);
  const bring = useBringIn();
  const top = useRef<HTMLDivElement>(null);
  const close = () => {
    setFresh(false);
    requestAnimationFrame(() => top.current?.querySelector<HTMLElement>("button.go")?.focus());
  };
  const empty = list.value !== null && list.value.visits.length === 0 && search.value === "";
  useEffect(() => {
    document.title = "Visits, Fallaway";
  }, []);
  return (
    <div class={`sheet-page visits-page ${bring.over ? "drop-here" : ""}`} {...bring.target}>
      <TitleBlock cells={headCells()} />
      <div class="visits-top" ref={top}>
        <Field
          label="Search"
          type="search"
          value={search.value}
          onInput={(text) => (search.value = text)}
          placeholder="instrument, number, player"
        />
        {!fresh && (
          <Button go onPress={() => setFresh(true)}>
            New visit
          </Button>
        )}
        <FileButton onFiles={(files) => void bring.take(files)} />
        <a class="button" href="/sums">
          Sums
        </a>
        <a class="button" href="/shop">
          Shop
        </a>
      </div>
      {trouble.value && <Trouble error={trouble.value} again={() => void askList()} />}
      <RefusedEntries />
      <RefusedFiles refused={bring.refused} onSeen={bring.forget} />
      {fresh && <NewVisitSheet onClose={close} />}
      {empty && !fresh && (
        <EmptyFrame strong="No visit yet." action={{ says: "Begin", onPress: () => setFresh(true) }}>
          The first needs nothing but the kind of instrument; a quick look takes about 10 minutes. A bench file can be
          dropped here too.
        </EmptyFrame>
      )}
      {!empty && <Lines typed={search.value.trim()} />}
    </div>
  );
}
