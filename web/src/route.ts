import { computed, signal } from "@preact/signals";

/** Where the page is. One address, one page; an unknown address is the list with a word about it. */
export type Route =
  | { page: "visits" }
  | { page: "visit"; id: string; checkpoint?: string }
  | { page: "verdict"; id: string }
  | { page: "survey"; id: string }
  | { page: "dossier"; id: string }
  | { page: "sums"; name?: string }
  | { page: "shop" }
  | { page: "pair"; code: string }
  | { page: "unknown"; path: string };

const idShape = /^[0-9a-f]{16}$/;

function decoded(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}

export function parseRoute(path: string, query = ""): Route {
  const parts = path
    .split("/")
    .filter((part) => part !== "")
    .map(decoded);
  const [first, second, third] = parts;
  if (first === undefined) return { page: "visits" };
  if (first === "visits" && second !== undefined && idShape.test(second) && parts.length <= 3) {
    if (third === "verdict") return { page: "verdict", id: second };
    if (third === "neck") return { page: "survey", id: second };
    return third === undefined ? { page: "visit", id: second } : { page: "visit", id: second, checkpoint: third };
  }
  if (first === "dossiers" && second !== undefined && idShape.test(second) && parts.length === 2)
    return { page: "dossier", id: second };
  if (first === "sums" && parts.length <= 2)
    return second === undefined ? { page: "sums" } : { page: "sums", name: second };
  if (first === "shop" && parts.length === 1) return { page: "shop" };
  if (first === "pair" && parts.length === 1)
    return { page: "pair", code: new URLSearchParams(query).get("code") ?? "" };
  return { page: "unknown", path };
}

/** The address of a page; the inverse of parseRoute. */
export function href(route: Route): string {
  switch (route.page) {
    case "visits":
      return "/";
    case "visit":
      return `/visits/${route.id}${route.checkpoint === undefined ? "" : `/${encodeURIComponent(route.checkpoint)}`}`;
    case "verdict":
      return `/visits/${route.id}/verdict`;
    case "survey":
      return `/visits/${route.id}/neck`;
    case "dossier":
      return `/dossiers/${route.id}`;
    case "sums":
      return route.name === undefined ? "/sums" : `/sums/${encodeURIComponent(route.name)}`;
    case "shop":
      return "/shop";
    case "pair":
      return route.code === "" ? "/pair" : `/pair?code=${encodeURIComponent(route.code)}`;
    case "unknown":
      return route.path;
  }
}

const address = signal({ path: "/", query: "" });

export const route = computed(() => parseRoute(address.value.path, address.value.query));

function read(): void {
  address.value = { path: location.pathname, query: location.search };
}

/** Goes to a page. `replace` leaves no step to come back to: for moving from checkpoint to checkpoint. */
export function go(to: Route | string, replace = false): void {
  const target = typeof to === "string" ? to : href(to);
  if (replace) history.replaceState(null, "", target);
  else history.pushState(null, "", target);
  read();
  if (!replace) scrollTo(0, 0);
}

function followsLink(event: MouseEvent): HTMLAnchorElement | null {
  if (event.defaultPrevented || event.button !== 0) return null;
  if (event.metaKey || event.ctrlKey || event.shiftKey || event.altKey) return null;
  const link = (event.target as Element | null)?.closest?.("a[href]") as HTMLAnchorElement | null;
  if (!link || link.target !== "" || link.hasAttribute("download") || link.origin !== location.origin) return null;
  return /^\/(api|media|assets)\//.test(link.pathname) ? null : link;
}

/** Listens to the browser's back and forward, and to plain links, so that pages write ordinary anchors. */
export function startRouting(): void {
  read();
  addEventListener("popstate", read);
  document.addEventListener("click", (event) => {
    const link = followsLink(event);
    if (!link) return;
    event.preventDefault();
    if (link.pathname + link.search !== location.pathname + location.search) go(link.pathname + link.search);
    else if (link.hash !== "") document.querySelector(link.hash)?.scrollIntoView();
  });
}
