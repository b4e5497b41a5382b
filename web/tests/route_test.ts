import { describe, expect, it } from "vitest";
import { href, parseRoute, type Route } from "../src/route";

const id = "3e307baed3e3f5de";
const pages: [string, Route][] = [
  ["/", { page: "visits" }],
  [`/visits/${id}`, { page: "visit", id }],
  [`/visits/${id}/action-12`, { page: "visit", id, checkpoint: "action-12" }],
  [`/visits/${id}/own%20check%2Ftwo`, { page: "visit", id, checkpoint: "own check/two" }],
  [`/visits/${id}/verdict`, { page: "verdict", id }],
  [`/visits/${id}/neck`, { page: "survey", id }],
  [`/dossiers/${id}`, { page: "dossier", id }],
  ["/sums", { page: "sums" }],
  ["/sums/fret-places", { page: "sums", name: "fret-places" }],
  ["/shop", { page: "shop" }],
  ["/pair", { page: "pair", code: "" }],
  ["/pair?code=7KQ4-MX2P", { page: "pair", code: "7KQ4-MX2P" }],
];

describe("addresses", () => {
  it.each(pages)("%s is read and written alike", (text, route) => {
    const [path = "", query = ""] = text.split("?");
    expect(parseRoute(path, query)).toEqual(route);
    expect(href(route)).toBe(text);
  });
  it.each([
    "/visits",
    "/visits/",
    "/visits/XYZ",
    `/visits/${id}/a/b`,
    "/dossiers/1",
    `/dossiers/${id}/x`,
    "/shop/x",
    "/else",
  ])("%s is no page of ours", (path) => expect(parseRoute(path)).toEqual({ page: "unknown", path }));
  it("takes a broken escape as it stands", () => {
    expect(parseRoute("/sums/%E0%A4%A")).toEqual({ page: "sums", name: "%E0%A4%A" });
  });
});
