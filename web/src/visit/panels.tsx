// What the title block, the list and the bar open: in the place of the checkpoint, never over it.

import type { ComponentChildren } from "preact";
import { useEffect, useRef } from "preact/hooks";
import { focused, landNear } from "../look/focus";
import { PhotoTaker } from "../photo/photo_taker";
import { ClaimsPanel } from "./claims";
import { WhileOpen } from "./closing";
import type { Desk, Panel } from "./desk";
import { FactsPanel } from "./facts";
import { FindingsPanel } from "./findings";
import { HistoryPanel } from "./history";
import { KeysPanel } from "./keys_help";
import { ListBody, VerdictLine } from "./list";
import { RemarkPanel } from "./remark";
import { BackTo } from "./title";
import { ToolPanel } from "./tool_panel";
import { VisitPanel } from "./visit_panel";
import { WantsPanel } from "./wants";
import { WorkPanel } from "./work";
import "./panels.css";

const panels: Record<Panel, { title: string; body: (desk: Desk) => ComponentChildren }> = {
  sheet: {
    title: "Sheet",
    body: (desk) => (
      <>
        <VerdictLine desk={desk} />
        <ListBody desk={desk} />
      </>
    ),
  },
  visit: { title: "This visit", body: (desk) => <VisitPanel desk={desk} /> },
  wants: { title: "Player’s words", body: (desk) => <WantsPanel desk={desk} /> },
  facts: { title: "The instrument", body: (desk) => <FactsPanel desk={desk} /> },
  claims: { title: "Claims", body: (desk) => <ClaimsPanel desk={desk} /> },
  findings: { title: "Findings", body: (desk) => <FindingsPanel desk={desk} /> },
  work: { title: "Work done", body: (desk) => <WorkPanel desk={desk} /> },
  remark: { title: "Remarks", body: (desk) => <RemarkPanel desk={desk} /> },
  photo: {
    title: "Photos",
    body: (desk) => (
      <PhotoTaker
        visit={desk.visit}
        stage={desk.stage.value}
        {...(desk.checkpoint.value ? { checkpoint: desk.checkpoint.value.id } : {})}
      />
    ),
  },
  history: { title: "History and files", body: (desk) => <HistoryPanel desk={desk} /> },
  keys: { title: "Keys and settings", body: () => <KeysPanel /> },
  tool: { title: "Tool", body: (desk) => <ToolPanel desk={desk} /> },
};

/** Panels that enter nothing, or see to it themselves: theirs to use on a closed visit too. */
const readable: ReadonlySet<Panel> = new Set(["sheet", "visit", "history", "keys"]);

/** Closed: the focus returns to what opened it, or what stands in its place now, else to the checkpoint. */
function goBackTo(opener: Element | undefined): void {
  if (document.activeElement?.closest(".panel")) return;
  const again = opener?.isConnected ? opener : document.getElementById(opener?.id || "checkpoint-title");
  if (!(again instanceof HTMLElement) || again === document.body) return landNear(document.querySelector(".checkpoint"));
  again.focus({ preventScroll: true });
  again.scrollIntoView({ block: "nearest" });
}

export function Panels({ desk, panel }: { desk: Desk; panel: Panel }) {
  const heading = useRef<HTMLHeadingElement>(null);
  const opener = useRef(focused()); // what opened it
  useEffect(() => {
    heading.current?.focus({ preventScroll: true });
    scrollTo(0, 0);
    document.querySelector(".visit-room")?.scrollTo(0, 0);
  }, [panel]);
  useEffect(() => () => void requestAnimationFrame(() => goBackTo(opener.current)), []);
  const { title, body } = panels[panel];
  return (
    <section class="panel" aria-label={title}>
      <header class="panel-head">
        <h2 tabIndex={-1} ref={heading}>
          {title}
        </h2>
        <BackTo desk={desk} />
      </header>
      {readable.has(panel) ? body(desk) : <WhileOpen desk={desk}>{body(desk)}</WhileOpen>}
    </section>
  );
}
