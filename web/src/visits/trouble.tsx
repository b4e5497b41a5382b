import type { ApiError } from "../api/client";
import { link } from "../api/link";
import { outbox } from "../api/outbox";
import { ErrorLine, NoticeLine } from "../look/parts";
import { clock, counted } from "../look/words";
import { go } from "../route";

/** Why the server gave no answer, with the likely cure. */
export function Trouble({ error, again }: { error: ApiError; again: () => void }) {
  if (error.status === 401)
    return (
      <ErrorLine
        strong="This device is not paired with the shop."
        cures={[{ says: "Pair it", onPress: () => go("/pair") }]}>
        A code from the shop's computer lets it in.
      </ErrorLine>
    );
  return (
    <NoticeLine
      strong={
        error.status === 0
          ? `The link is down since ${clock(link.value.since, false)}.`
          : "The server could not answer."
      }
      cures={[{ says: "Try again", onPress: again }]}>
      {error.status === 0
        ? `What is shown was kept on this device. ${counted(outbox.waiting.value, "entry waits", "entries wait")}, none lost.`
        : error.message}
    </NoticeLine>
  );
}
