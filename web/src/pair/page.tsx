import { useEffect, useState } from "preact/hooks";
import { ApiError, api } from "../api/client";
import { outbox } from "../api/outbox";
import { Button, ErrorLine, Field, TitleBlock } from "../look/parts";
import { go } from "../route";
import { loadShop } from "../shop_state";
import { tidyCode } from "./code";
import "./pair.css";

/** What this device may be called, until a person knows better. */
function usualName(): string {
  const agent = navigator.userAgent;
  if (/iPad|Tablet/i.test(agent)) return "tablet";
  if (/iPhone|Mobile/i.test(agent)) return "phone";
  return /Android/i.test(agent) ? "tablet" : "laptop";
}

/** The page a new device opens: type the code, give it a name, be let in. */
export default function PairPage({ code: given }: { code: string }) {
  const [code, setCode] = useState(tidyCode(given));
  const [name, setName] = useState(usualName);
  const [trouble, setTrouble] = useState<ApiError | null>(null);
  const [busy, setBusy] = useState(false);
  useEffect(() => {
    document.title = "Pair this device, Fallaway";
  }, []);
  const pair = async () => {
    setBusy(true);
    try {
      await api.pair(code, name.trim());
      // What was typed before this device was let in goes first.
      void outbox.flush();
      await loadShop();
      go("/", true);
    } catch (error) {
      if (!(error instanceof ApiError)) throw error;
      setTrouble(error);
      setBusy(false);
    }
  };
  const refused = (key: string) => trouble?.errors.find((one) => one.path === `/${key}`)?.message;
  const other = trouble && !refused("code") && !refused("name");
  return (
    <div class="narrow-page pair-page">
      <TitleBlock cells={[{ says: "Fallaway", value: "Pair this device", who: true }]} />
      <p>
        On the shop's computer open Shop, then Devices: once the shop is open to other devices, "Pair a device" there
        shows a code that is good once.
      </p>
      <p class="row">
        <a class="button" href="/">
          All visits
        </a>
      </p>
      {other && (
        <ErrorLine
          strong={
            trouble.status === 0
              ? "The shop does not answer."
              : trouble.status === 429
                ? "Too many tries."
                : "Not paired."
          }>
          {trouble.status === 0
            ? "Both must be on the same network."
            : trouble.status === 429
              ? `Wait ${trouble.retryAfterSeconds ?? 60} s, then try again.`
              : trouble.message}
        </ErrorLine>
      )}
      <div class="code-field">
        <Field
          label="Code"
          value={code}
          onInput={(text) => setCode(tidyCode(text))}
          refused={refused("code")}
          placeholder="XXXX-XXXX"
          autoFocus={given === ""}
        />
      </div>
      <Field
        label="Name of this device"
        value={name}
        onInput={setName}
        refused={refused("name")}
        hint="So that everybody knows where an entry came from."
      />
      <Button go whole disabled={busy || code.length !== 9 || name.trim() === ""} onPress={() => void pair()}>
        Pair
      </Button>
    </div>
  );
}
