import { useEffect, useRef, useState } from "preact/hooks";
import { ApiError, api } from "../api/client";
import { newId } from "../api/device";
import { outbox } from "../api/outbox";
import type { Entry, Kind, Names, NewVisit } from "../api/types";
import { Button, Choice, ErrorLine, Field } from "../look/parts";
import { dayWords, minutesWords } from "../look/words";
import { go } from "../route";
import { settings } from "../settings";
import { catalogue } from "../shop_state";

type Known = Names["dossiers"][number];

const none: Names = { schema: "", dossiers: [], players: [] };

/** Asks for known names as they are typed; an older answer never replaces a newer one. */
function useNames(typed: string): Names {
  const [names, setNames] = useState(none);
  useEffect(() => {
    if (typed.trim() === "") return setNames(none);
    const mine = new AbortController();
    const timer = setTimeout(() => {
      api.names(typed.trim(), mine.signal).then(
        (found) => {
          if (!mine.signal.aborted) setNames(found);
        },
        () => undefined,
      );
    }, 150);
    return () => {
      clearTimeout(timer);
      mine.abort();
    };
  }, [typed]);
  return names;
}

/** Six strings or four over one outline of a neck, so that the two fields are told apart before they are read. */
function NeckSign({ strings }: { strings: number }) {
  const y = (nth: number) => 12 + (nth * 36) / (strings - 1);
  return (
    <svg viewBox="0 0 240 60" aria-hidden="true">
      <path class="outline" d="M2 8H196L238 4V56L196 52H2Z" />
      {[40, 76, 108, 137, 163, 186].map((x) => (
        <line key={x} x1={x} x2={x} y1={8} y2={52} stroke-width="0.8" />
      ))}
      {Array.from({ length: strings }, (_, nth) => (
        <line
          key={nth}
          x1={2}
          x2={238}
          y1={y(nth)}
          y2={y(nth)}
          stroke-width={(strings === 4 ? 1.4 : 0.9) + nth * 0.35}
        />
      ))}
    </svg>
  );
}

function Offers({
  names,
  onInstrument,
  onPlayer,
}: {
  names: Names;
  onInstrument: (one: Known) => void;
  onPlayer: (name: string) => void;
}) {
  if (names.dossiers.length + names.players.length === 0) return null;
  return (
    <ul class="offers" aria-label="Known names">
      {names.dossiers.map((one) => (
        <li key={one.id}>
          <Button onPress={() => onInstrument(one)}>
            <b>{[one.title, one.serial].filter(Boolean).join(", ")}</b>
            <small>{one.last ? `starts with the figures of ${dayWords(one.last.day)}` : one.kind}</small>
          </Button>
        </li>
      ))}
      {names.players.map((one) => (
        <li key={one.name}>
          <Button onPress={() => onPlayer(one.name)}>
            <b>{one.name}</b>
            <small>{one.wants ?? "player"}</small>
          </Button>
        </li>
      ))}
    </ul>
  );
}

type Hands = "look only" | "adjust" | "work";

const stringsOf = (count: number): Entry => ({
  id: newId(),
  path: "/instrument/strings",
  value: Array.from({ length: count }, () => ({})),
  saw: 0,
});

/** Only the kind of instrument is asked; a touch on it opens the visit. */
export function NewVisitSheet({ onClose }: { onClose: () => void }) {
  const [typed, setTyped] = useState("");
  const [known, setKnown] = useState<Known | null>(null);
  const [player, setPlayer] = useState("");
  // As the shop's computer opens it where nothing is said: seen, and changed by one tap.
  const [hands, setHands] = useState<Hands>("look only");
  const [scope, setScope] = useState("");
  const [strings, setStringNumber] = useState("");
  const [hand, setHand] = useState<"right" | "left" | "">("");
  const [fretted, setFretted] = useState<"frets" | "no frets" | "">("");
  const [trouble, setTrouble] = useState<ApiError | null>(null);
  const [opening, setOpening] = useState(false);
  // One id for this sheet: pressing twice, or again after a lost answer, opens one visit.
  const id = useRef(newId());
  const head = useRef<HTMLHeadingElement>(null);
  useEffect(() => head.current?.focus(), []);
  const names = useNames(known || player ? "" : typed);

  const open = async (kind: Kind): Promise<void> => {
    const wish: NewVisit = { id: id.current, kind };
    if (known) wish.dossier = known.id;
    if (player !== "") wish.player = player;
    else if (!known && typed.trim() !== "") wish.player = typed.trim();
    wish.hands = hands;
    if (scope !== "") wish.scope = scope;
    if (hand !== "") wish.hand = hand;
    if (fretted !== "") wish.fretted = fretted === "frets";
    if (settings.person.value !== "") wish.by = settings.person.value;
    setOpening(true);
    try {
      const opened = await api.openVisit(wish);
      // Like anything typed on the sheet: kept here until the shop's computer has it.
      if (!known && strings !== "")
        outbox.add({ kind: "entries", visit: opened.id, entries: [stringsOf(Number(strings))] });
      go({ page: "visit", id: opened.id });
    } catch (error) {
      if (!(error instanceof ApiError)) throw error;
      setTrouble(error);
      setOpening(false);
    }
  };

  return (
    <section
      class="new-visit"
      aria-labelledby="new-visit-head"
      onKeyDown={(event) => {
        if (event.key === "Escape") onClose();
      }}>
      <div class="head">
        <h2 id="new-visit-head" ref={head} tabIndex={-1}>
          New visit
        </h2>
        <Button onPress={onClose}>Leave it</Button>
      </div>
      {trouble && (
        <ErrorLine strong={trouble.status === 0 ? "The link is down." : "The visit was not opened."}>
          {trouble.status === 0
            ? "A new visit needs the shop's computer once. What is said below is kept; touch the kind again."
            : trouble.message}
        </ErrorLine>
      )}
      {known ? (
        <div class="kinds one">
          <button type="button" class="kind" disabled={opening} onClick={() => void open(known.kind)}>
            <NeckSign strings={known.kind === "electric bass" ? 4 : 6} />
            {`Open ${known.title} again`}
          </button>
        </div>
      ) : (
        <div class="kinds">
          <button type="button" class="kind" disabled={opening} onClick={() => void open("electric guitar")}>
            <NeckSign strings={6} />
            Electric guitar
          </button>
          <button type="button" class="kind" disabled={opening} onClick={() => void open("electric bass")}>
            <NeckSign strings={4} />
            Electric bass
          </button>
        </div>
      )}
      <p>
        <small>
          Touch it, and the first reading can be taken. All that follows can be said now, later or never.
        </small>
      </p>
      <div class="more">
        <div>
          {(known ?? player) ? (
            <div class="chosen">
              <b>{known ? [known.title, known.serial].filter(Boolean).join(", ") : player}</b>
              <Button
                onPress={() => {
                  setKnown(null);
                  setPlayer("");
                }}>
                Another
              </Button>
            </div>
          ) : (
            <>
              <Field
                label="Instrument or player, if known here"
                value={typed}
                onInput={setTyped}
                hint="A name nobody here knows becomes the player's."
              />
              <Offers names={names} onInstrument={setKnown} onPlayer={setPlayer} />
            </>
          )}
        </div>
        <Choice
          label="Hands may"
          value={hands}
          onChoose={setHands}
          options={[
            { value: "look only", hint: "nothing is turned or slackened" },
            { value: "adjust", hint: "screws, strings" },
            { value: "work", hint: "files, cavities" },
          ]}
        />
        {catalogue.value && (
          <Choice
            label="Scope"
            value={scope || (catalogue.value.procedure.scopes[0]?.name ?? "")}
            onChoose={setScope}
            options={catalogue.value.procedure.scopes.map((one) => ({
              value: one.name,
              hint: `about ${minutesWords(one.minutes)}`,
            }))}
          />
        )}
        {!known && (
          <Choice
            label="Number of strings"
            value={strings || "usual"}
            onChoose={(number) => setStringNumber(number === "usual" ? "" : number)}
            options={[
              { value: "usual", hint: "6, bass 4" },
              ...["4", "5", "6", "7", "8", "12"].map((value) => ({ value })),
            ]}
          />
        )}
        {!known && (
          <div class="row">
            <Choice
              label="Played"
              value={hand}
              onChoose={setHand}
              options={[
                { value: "right", says: "right-handed" },
                { value: "left", says: "left-handed" },
              ]}
            />
            <Choice
              label="Fingerboard"
              value={fretted}
              onChoose={setFretted}
              options={[{ value: "frets" }, { value: "no frets" }]}
            />
          </div>
        )}
      </div>
    </section>
  );
}
