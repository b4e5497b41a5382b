import { useState } from "preact/hooks";
import { ApiError } from "../api/client";
import type { Shop } from "../api/types";
import { Button, ErrorLine } from "../look/parts";
import { setShop } from "../shop_state";

// One way for every form of this page: send, take the whole shop from the answer, or say at the field why not.

export interface Saving {
  busy: boolean;
  /** Why this field was refused; undefined when it was not. */
  refused: (key: string) => string | undefined;
  /** Reasons that belong to no field of the form. */
  other: (keys: string[]) => string[];
  /** True when it was taken. */
  send: (asked: () => Promise<Shop>) => Promise<boolean>;
}

export function useSaving(): Saving {
  const [error, setError] = useState<ApiError | null>(null);
  const [busy, setBusy] = useState(false);
  const key = (path: string) => path.split("/")[1] ?? "";
  return {
    busy,
    refused: (name) => error?.errors.find((one) => key(one.path) === name)?.message,
    other: (names) =>
      (error?.errors ?? [])
        .filter((one) => !names.includes(key(one.path)))
        .map((one) =>
          one.code === "link"
            ? "The link is down: the shop's own data needs it. Nothing was changed, the text is kept."
            : one.message,
        ),
    async send(asked) {
      setBusy(true);
      try {
        setShop(await asked());
        setError(null);
        return true;
      } catch (thrown) {
        if (!(thrown instanceof ApiError)) throw thrown;
        setError(thrown);
        return false;
      } finally {
        setBusy(false);
      }
    },
  };
}

export function OtherReasons({ saving, keys }: { saving: Saving; keys: string[] }) {
  const reasons = saving.other(keys);
  return reasons.length === 0 ? null : <ErrorLine strong="Not stored.">{reasons.join(" ")}</ErrorLine>;
}

export function FormEnd({
  ready,
  onStore,
  onLeave,
}: {
  ready: boolean;
  onStore: () => void;
  onLeave: () => void;
}) {
  return (
    <div class="row">
      <Button go disabled={!ready} onPress={onStore}>
        Store
      </Button>
      <Button onPress={onLeave}>Leave it</Button>
    </div>
  );
}

/** Empty text is "not stated": the key is left out. */
export function stated<T extends object>(facts: T): T {
  return Object.fromEntries(Object.entries(facts).filter(([, value]) => value !== "" && value !== undefined)) as T;
}
