// What was promised, by whom; and what was found, where no reading can decide.

import { useSignal } from "@preact/signals";
import { newId } from "../api/device";
import type { ClaimLine, StoredEntry } from "../api/types";
import { currencyOf, takeQuantity } from "../entry/plain_number";
import { Button, Field } from "../look/parts";
import { shop } from "../shop_state";
import type { Desk } from "./desk";

export function ClaimsPanel({ desk }: { desk: Desk }) {
  const told = new Map(desk.view.value.assessment.claims.map((claim) => [claim.id, claim]));
  const entries = desk.view.value.entries.filter((entry) => entry.path === "/claims");
  return (
    <>
      <NewClaim desk={desk} />
      <ul class="plain-list">
        {entries.map((entry) => (
          <ClaimOf key={entry.id} desk={desk} entry={entry} told={told.get((entry.value as { id: string }).id)} />
        ))}
      </ul>
    </>
  );
}

interface Promised {
  id: string;
  what: string;
  value?: string;
  source: string;
  text?: string;
  found?: string;
  outcome?: string;
  by?: string;
}

function NewClaim({ desk }: { desk: Desk }) {
  const what = useSignal("");
  const value = useSignal("");
  const source = useSignal("advert");
  const refused = useSignal("");
  const kind = desk.catalogue.claims.find((one) => one.id === what.value);
  const keep = () => {
    if (!kind) return;
    const claim: Promised = { id: `c-${newId().slice(0, 8)}`, what: kind.id, source: source.value.trim() };
    const typed = value.value.trim();
    if (typed !== "" && kind.dimension && !kind.words) {
      const money = kind.dimension === "money" ? currencyOf(shop.value?.rates) : undefined;
      const taken = takeQuantity(typed, kind.dimension, money);
      if ("says" in taken) {
        refused.value = taken.says;
        return;
      }
      claim.value = taken.text;
    } else if (typed !== "") {
      claim.text = typed;
    }
    refused.value = "";
    desk.store([{ path: "/claims", value: claim }], `Claim kept: ${kind.name}`);
    value.value = "";
    what.value = "";
  };
  return (
    <div class="new-line">
      <KindOfClaim
        desk={desk}
        value={what.value}
        onChoose={(id) => {
          what.value = id;
        }}
      />
      <Field
        label={kind?.dimension && !kind.words ? "How much" : "As it was said"}
        value={value.value}
        onInput={(text) => {
          value.value = text;
        }}
        {...(refused.value ? { refused: refused.value } : {})}
      />
      <Field
        label="Who claimed it, where"
        value={source.value}
        onInput={(text) => {
          source.value = text;
        }}
      />
      <Button go disabled={!kind || source.value.trim() === ""} onPress={keep}>
        Keep this claim
      </Button>
    </div>
  );
}

function KindOfClaim({ desk, value, onChoose }: { desk: Desk; value: string; onChoose: (id: string) => void }) {
  return (
    <div class="field">
      <label class="label" for="claim-kind">
        What was claimed
      </label>
      <div class="box">
        <select id="claim-kind" value={value} onChange={(event) => onChoose(event.currentTarget.value)}>
          <option value="">choose what</option>
          {desk.catalogue.claims.map((one) => (
            <option key={one.id} value={one.id}>
              {one.name}
            </option>
          ))}
        </select>
      </div>
    </div>
  );
}

function ClaimOf({ desk, entry, told }: { desk: Desk; entry: StoredEntry; told: ClaimLine | undefined }) {
  const claim = entry.value as Promised;
  const judge = (outcome: string) => {
    const by = desk.hand().by;
    desk.visit.correct(entry.id, { ...claim, outcome, ...(by ? { by } : {}) });
  };
  const found = told?.found?.text ?? told?.found?.words ?? claim.found;
  return (
    <li class="said-line">
      <p>
        <b>{told?.name ?? claim.what}</b>: {claim.value ?? claim.text ?? "as promised"}{" "}
        <small>{claim.source}</small>
      </p>
      <p>
        {told ? <b>{told.outcome}</b> : "being judged"}
        {found && `, found ${found}`}
        {told?.tolerance && `, ${told.tolerance}`}
      </p>
      {(told?.advice ?? told?.how) && <small>{told?.advice ?? told?.how}</small>}
      <div class="row">
        {["confirmed", "contradicted", "not established"].map((outcome) => (
          <Button key={outcome} pressed={claim.outcome === outcome} onPress={() => judge(outcome)}>
            {outcome}
          </Button>
        ))}
        <Button onPress={() => desk.visit.remove(entry.id)}>Take it out</Button>
      </div>
    </li>
  );
}
