import type { CardLine, ClaimLine, Price } from "../api/types";
import { trueMinus } from "../look/words";
import { describePlace } from "../visit/places";
import { chance, figureOf } from "./grouped";

const order: readonly ClaimLine["outcome"][] = ["contradicted", "not established", "confirmed"];

/** What was promised against what was found; what does not hold comes first. */
export function Claims({ claims }: { claims: readonly ClaimLine[] }) {
  if (claims.length === 0) return null;
  const sorted = order.flatMap((outcome) => claims.filter((claim) => claim.outcome === outcome));
  return (
    <section class="verdict-part" aria-labelledby="verdict-claims">
      <h2 id="verdict-claims">Claims</h2>
      <ul class="claim-list">{sorted.map((claim) => <Claim key={claim.id} claim={claim} />)}</ul>
    </section>
  );
}

function Claim({ claim }: { claim: ClaimLine }) {
  const found = figureOf(claim);
  const place = claim.at && Object.keys(claim.at).length > 0 ? `, ${describePlace(claim.at)}` : "";
  return (
    <li class={`claim claim-${claim.outcome.replace(" ", "-")}`}>
      <p class="claim-outcome">{claim.outcome}</p>
      <div>
        <p><b>{claim.name}{place}</b></p>
        <p>claimed <b>{trueMinus(claim.promised)}</b>{claim.tolerance && <span> {claim.tolerance}</span>}, <small>{claim.source}</small></p>
        <p>
          {found === "" ? "nothing found that tells" : <>found <b>{trueMinus(found)}</b></>}
          {claim.p_conform !== undefined && <span>, within it {chance(claim.p_conform)}</span>}
          {claim.how && <small> {claim.how}</small>}
        </p>
        {claim.outcome === "not established" && <p>{settles(claim)}</p>}
        {claim.outcome !== "not established" && claim.advice && <p>{claim.advice}</p>}
      </div>
    </li>
  );
}

/** What would settle a claim that stands open. */
export function settles(claim: Pick<ClaimLine, "advice" | "checkable" | "how" | "found">): string {
  if (claim.advice) return `Would settle it: ${claim.advice}`;
  if (!claim.checkable) return "Nothing on the instrument proves it; only papers could.";
  if (claim.how?.includes("too coarse")) return "Would settle it: the same reading with a finer tool.";
  return claim.found ? "Would settle it: a place where it can be seen plainly." : "Would settle it: the reading itself, not taken yet.";
}

export function Card({ lines }: { lines: readonly CardLine[] }) {
  if (lines.length === 0) return null;
  return (
    <section class="verdict-part" aria-labelledby="verdict-card">
      <h2 id="verdict-card">Another inspector's card</h2>
      <table class="card-table">
        <thead><tr><th scope="col">What</th><th scope="col">Card</th><th scope="col">Ours</th><th scope="col">Outcome</th></tr></thead>
        <tbody>
          {lines.map((line) => (
            <tr key={line.title} class={line.outcome === "differs" ? "differs" : ""}>
              <th scope="row">{line.title}</th>
              <td>{trueMinus(line.theirs)}</td>
              <td>{trueMinus(line.ours ?? "")}</td>
              <td>{line.outcome}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p class="caption">Two readings agree when they differ by no more than both their uncertainties allow.</p>
    </section>
  );
}

export function PriceLines({ price }: { price: Price | null }) {
  if (!price) return null;
  return (
    <section class="verdict-part" aria-labelledby="verdict-price">
      <h2 id="verdict-price">Price</h2>
      <p><b>{price.asked}</b> asked: {price.words}</p>
      {price.range && <p>like instruments sold for {price.range}</p>}
      {price.with_repairs && <p>with what has to be mended: <b>{price.with_repairs}</b></p>}
      <ul class="caption">{price.sources.map((source) => <li key={source}>{source}</li>)}</ul>
    </section>
  );
}
