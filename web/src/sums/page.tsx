import { useEffect, useState } from "preact/hooks";
import { ApiError } from "../api/client";
import { keep } from "../api/keep";
import { ErrorLine, Field } from "../look/parts";
import { href } from "../route";
import { SumSheet } from "./sheet";
import { sumsApi, themesOf, type Sum } from "./sums";
import "./sums.css";

/** The small calculations of the bench: a list by theme, and one of them opened. */
export default function SumsPage({ name }: { name?: string }) {
  const [sums, setSums] = useState<Sum[] | null>(null);
  const [trouble, setTrouble] = useState<ApiError | null>(null);
  const load = (): void => {
    sumsApi.list().then(
      (answer) => {
        setSums(answer.sums);
        setTrouble(null);
        void keep().then((store) => store.put("answers", "sums", answer.sums)).catch(() => undefined);
      },
      (error: unknown) => { if (error instanceof ApiError) setTrouble(error); },
    );
  };
  useEffect(() => {
    void keep().then((store) => store.get("answers", "sums")).then((old) => setSums((now) => now ?? (old as Sum[] | undefined) ?? null));
    load();
  }, []);
  const sum = sums?.find((one) => one.name === name);
  return (
    <div class={`sheet-page sums-page ${name === undefined ? "" : "sums-open"}`}>
      <header class="sums-head">
        <h1>{name === undefined ? "Sums" : <a href={href({ page: "sums" })}>Sums</a>}</h1>
        <a class="button" href={href({ page: "visits" })}>Visits</a>
      </header>
      {trouble && (
        <ErrorLine strong="The sums could not be fetched." cures={[{ says: "Try again", onPress: load }]}>{trouble.message}</ErrorLine>
      )}
      {sums && (
        <div class="sums-columns">
          <SumList sums={sums} now={name} />
          {sum && <SumSheet key={sum.name} sum={sum} />}
          {name !== undefined && !sum && (
            <ErrorLine strong={`There is no sum called "${name}".`}>The list beside shows what there is.</ErrorLine>
          )}
        </div>
      )}
    </div>
  );
}

function SumList({ sums, now }: { sums: readonly Sum[]; now: string | undefined }) {
  const [search, setSearch] = useState("");
  const themes = themesOf(sums, search);
  return (
    <nav class="sums-list" aria-label="Sums">
      <Field label="Find a sum" type="search" value={search} onInput={setSearch} placeholder="tension, cents, radius" />
      {themes.map((theme) => (
        <section key={theme.title}>
          <h2>{theme.title}</h2>
          <ul>
            {theme.sums.map((sum) => (
              <li key={sum.name}>
                <a href={href({ page: "sums", name: sum.name })} aria-current={sum.name === now ? "page" : undefined}>
                  <b>{sum.title}</b>
                  {now === undefined && <span>{firstSentence(sum.says)}</span>}
                </a>
              </li>
            ))}
          </ul>
        </section>
      ))}
      {themes.length === 0 && <p>Nothing is called that. One word is enough: “gauge”.</p>}
    </nav>
  );
}

const firstSentence = (text: string): string => /^.*?[.?](?=\s|$)/.exec(text)?.[0] ?? text;
