// The visit as one sheet: title block, minutes, list by section, the checkpoint in hand, the verdict always in sight.

import { useComputed, useSignal, useSignalEffect } from "@preact/signals";
import { useEffect, useMemo } from "preact/hooks";
import type { Catalogue } from "../api/types";
import { EmptyFrame, ErrorLine } from "../look/parts";
import { go } from "../route";
import { catalogue } from "../shop_state";
import { openVisit, type OpenVisit } from "../visit_state";
import { Announcer } from "./announce";
import { createDesk, type Desk } from "./desk";
import { takeStand, tryDraft } from "./hand";
import { listenToKeys } from "./keyboard";
import { Banners } from "./banners";
import { Checkpoint } from "./checkpoint";
import { rememberPlace } from "./left_at";
import { BottomBar, SheetList, VerdictLine } from "./list";
import { MinutesRow, VisitTitle } from "./title";
import { Panels } from "./panels";
import { fillRefused } from "./refusals";
import { followSteps } from "./steps";
import "./visit.css";

export default function VisitPage({ id, checkpoint }: { id: string; checkpoint?: string }) {
  const visit = useMemo(() => openVisit(id), [id]);
  useEffect(() => () => visit.close(), [visit]);
  const known = catalogue.value;
  const trouble = visit.trouble.value;
  if (visit.view.value && known) return <Sheet key={id} visit={visit} known={known} checkpoint={checkpoint} />;
  if (trouble) {
    return (
      <div class="narrow-page">
        <ErrorLine
          strong="This visit cannot be shown."
          cures={[
            { says: "Try again", onPress: () => void visit.reload() },
            { says: "All visits", onPress: () => go("/") },
          ]}>
          {trouble.message}
        </ErrorLine>
      </div>
    );
  }
  return (
    <div class="narrow-page">
      <EmptyFrame strong="Fetching the sheet.">Readings typed before are kept.</EmptyFrame>
    </div>
  );
}

function Sheet({
  visit,
  known,
  checkpoint,
}: {
  visit: OpenVisit;
  known: Catalogue;
  checkpoint: string | undefined;
}) {
  const wanted = useSignal(checkpoint);
  wanted.value = checkpoint;
  const named = useComputed(() => wanted.value);
  const desk = useMemo(() => createDesk(visit, known, named), [visit]);
  useEffect(() => listenToKeys(desk), [desk]);
  useEffect(() => followSteps(desk.panel), [desk]);
  useSignalEffect(() => {
    void desk.checkpoint.value?.id;
    void desk.observable.value?.name;
    void desk.stage.value;
    takeStand(desk);
  });
  useSignalEffect(() => tryDraft(desk, desk.hand));
  useSignalEffect(() => fillRefused(desk));
  useSignalEffect(() => rememberPlace(desk));
  useEffect(() => {
    document.title = `${desk.checkpoint.value?.title ?? "Visit"}, ${desk.view.value.title}`;
  });
  return (
    <div class="visit sheet-page">
      <div class="visit-room">
        <VisitTitle desk={desk} />
        <MinutesRow desk={desk} />
        <Banners desk={desk} />
        <div class="visit-main">
          <SheetList desk={desk} />
          <div class="visit-work">
            <InHand desk={desk} />
          </div>
        </div>
      </div>
      <VerdictLine desk={desk} narrow />
      <BottomBar desk={desk} />
      <Announcer />
    </div>
  );
}

function InHand({ desk }: { desk: Desk }) {
  const panel = desk.panel.value;
  if (panel) return <Panels desk={desk} panel={panel} />;
  return desk.checkpoint.value ? (
    <Checkpoint key={desk.checkpoint.value.id} desk={desk} checkpoint={desk.checkpoint.value} />
  ) : (
    <EmptyFrame strong="Nothing on this sheet applies.">Choose a scope, or say what the instrument is.</EmptyFrame>
  );
}
