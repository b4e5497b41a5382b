import { signal } from "@preact/signals";
import type { ComponentType } from "preact";
import { useEffect, useRef } from "preact/hooks";
import { route, type Route } from "./route";
import { outbox } from "./api/outbox";
import { keepFocus } from "./look/focus";
import { ErrorLine, NoticeLine } from "./look/parts";
import { counted } from "./look/words";

// Chooses the page by the address. A page is fetched when it is first opened; only the shell is there at the start.

type PageOf<P> = ComponentType<P>;
type Loaded = { page: Route["page"]; View: PageOf<Route & Record<string, unknown>> };

const pages = import.meta.glob<{ default: unknown }>(["./*/page.tsx", "./visits/unknown.tsx"]);
const fileOf = (page: Route["page"]) => (page === "unknown" ? "./visits/unknown.tsx" : `./${page}/page.tsx`);

const loaded = signal<Loaded | null>(null);
const failed = signal(false);

async function load(page: Route["page"]): Promise<void> {
  try {
    const module = await pages[fileOf(page)]?.();
    if (!module) throw new Error(`no page ${page}`);
    if (route.peek().page !== page) return;
    failed.value = false;
    loaded.value = { page, View: module.default as Loaded["View"] };
  } catch {
    failed.value = true;
  }
}

/** Said only where this browser keeps nothing: private windows, a full disk. */
function KeepsNothing() {
  if (outbox.lasting.value !== "this page only" || outbox.waiting.value === 0) return null;
  return (
    <NoticeLine strong="Leave this page open.">
      {`${counted(outbox.waiting.value, "entry waits", "entries wait")} for the link, and this browser keeps nothing once the page is closed.`}
    </NoticeLine>
  );
}

export function App() {
  const at = route.value;
  const main = useRef<HTMLElement>(null);
  useEffect(() => void load(at.page), [at.page]);
  const now = loaded.value;
  useEffect(() => (main.current ? keepFocus(main.current) : undefined), []);
  return (
    <>
      <a
        class="skip"
        href="#sheet"
        onClick={(event) => {
          event.preventDefault();
          main.current?.focus();
        }}>
        To the sheet
      </a>
      <main id="sheet" tabIndex={-1} ref={main}>
        <KeepsNothing />
        {failed.value && (
          <div class="narrow-page">
            <ErrorLine
              strong="This page could not be fetched."
              cures={[{ says: "Try again", onPress: () => void load(at.page) }]}>
              The link to the shop may be down. What was typed is kept on this device.
            </ErrorLine>
          </div>
        )}
        {now && now.page === at.page && <now.View {...(at as Route & Record<string, unknown>)} />}
      </main>
    </>
  );
}
