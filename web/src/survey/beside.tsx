// Beside the survey sheet: what the last reading changed, what does not go together, what to read next, string by string.

import type { Catalogue, Figure, Survey, SurveyAsked, SurveyNext } from "../api/types";
import { Button } from "../look/parts";
import { counted, trueMinus } from "../look/words";
import { go } from "../route";
import { catalogue } from "../shop_state";
import { standAt } from "../visit/left_at";
import { whereOf } from "../visit/where_of";
import type { OpenVisit, ShownVisit } from "../visit_state";
import { askedWords, figureText, gainWords, leastWhere, minutesTold } from "./told";

interface Props {
  visit: OpenVisit;
  view: ShownVisit;
  survey: Survey;
}

/** The checkpoint of this visit that reads it; undefined where none does. */
function checkpointFor(view: ShownVisit, known: Catalogue | null, asked: SurveyAsked): string | undefined {
  if (!known) return undefined;
  return whereOf(view, known, { path: "/readings", value: asked }).checkpoint;
}

/** A button that opens the sheet at a reading; its words alone where no checkpoint takes it. */
export function ReadIt({ visit, view, asked, says }: Omit<Props, "survey"> & { asked: SurveyAsked; says: string }) {
  const id = checkpointFor(view, catalogue.value, asked);
  if (id === undefined) return <b>{says}</b>;
  return (
    <>
      <Button
        class="survey-read"
        onPress={() => {
          standAt(visit.id, { id, what: asked.what, ...(asked.at ? { at: asked.at } : {}) });
          go({ page: "visit", id: visit.id, checkpoint: id });
        }}>
        {says}
      </Button>
      <b class="survey-paper">{says}</b>
    </>
  );
}

export function Clashes({ visit, view, survey }: Props) {
  if (survey.disagreements.length === 0) return null;
  return (
    <section class="survey-part survey-clashes" aria-labelledby="survey-clashes">
      <h2 id="survey-clashes">Readings that do not go together</h2>
      {survey.disagreements.map((clash, i) => (
        <div key={i} class="survey-clash">
          <ul>
            {clash.texts.map((one) => (
              <li key={one}>{trueMinus(one)}</li>
            ))}
          </ul>
          <p class="caption">{clash.again ? "Read it again:" : "This one would settle it:"}</p>
          <ReadIt visit={visit} view={view} asked={clash.decider} says={askedWords(clash.decider)} />
        </div>
      ))}
    </section>
  );
}

type Begin = Pick<SurveyNext, "asked"> & Partial<SurveyNext>;

/** Of a neck that nobody read: the three that tell most, or what every set-up begins with where the sheet lacks one. */
function toBegin(view: ShownVisit, survey: Survey): Begin[] {
  const best = survey.next.slice(0, 3);
  if (best.length === 3 && best.every((one) => checkpointFor(view, catalogue.value, one.asked) !== undefined)) return best;
  const fret = Math.min(12, survey.crowns.length);
  return [
    { asked: { what: "relief" } },
    { asked: { what: "string height", at: { string: survey.strings.length, fret } } },
    { asked: { what: "string height", at: { string: 1, fret } } },
  ];
}

export function NextOnNeck({ visit, view, survey }: Props) {
  const unread = survey.readings === 0;
  const next: Begin[] = unread ? toBegin(view, survey) : survey.next;
  if (next.length === 0) return null;
  return (
    <section class="survey-part survey-last" aria-labelledby="survey-next">
      <h2 id="survey-next">{unread ? "Three readings to begin with" : "What to read next on the neck"}</h2>
      <ol class="survey-next">
        {next.map((one, i) => (
          <li key={i}>
            <ReadIt visit={visit} view={view} asked={one.asked} says={askedWords(one.asked)} />
            {one.minutes !== undefined && one.before_mm !== undefined && one.after_mm !== undefined && (
              <span class="caption">
                {minutesTold(one.minutes)}, {gainWords({ before_mm: one.before_mm, after_mm: one.after_mm })}
              </span>
            )}
          </li>
        ))}
      </ol>
      {next.some((one) => checkpointFor(view, catalogue.value, one.asked) === undefined) && (
        <p class="caption no-print">What has no key is on no line of this sheet.</p>
      )}
    </section>
  );
}

/** The unit stands over the table. */
const inTable = (figure: Figure, assumed: boolean) => figureText(figure, assumed).replace(" mm", "");

export function StringTable({ survey, fretted }: { survey: Survey; fretted: boolean }) {
  const zeroFret = survey.strings.every((one) => (one.slot.u ?? 0) === 0);
  const last = survey.crowns.length;
  return (
    <section class="survey-part survey-strings" aria-labelledby="survey-strings">
      <h2 id="survey-strings">Strings over the {fretted ? "fret tops" : "board"}</h2>
      <p class="caption">mm. Square brackets: usual for its kind, not read.</p>
      <table class="survey-table">
        <thead>
          <tr>
            <th scope="col">String</th>
            <th scope="col">Slot over a zero-fret</th>
            <th scope="col">Over fret 1</th>
            <th scope="col">Over fret {Math.min(12, last)}</th>
            <th scope="col">Over fret {last}</th>
            <th scope="col">Least room</th>
          </tr>
        </thead>
        <tbody>
          {survey.strings.map((one) => {
            const assumed = (name: string) => one.assumed.includes(name);
            return (
              <tr key={one.string}>
                <th scope="row">{one.string}</th>
                <td data-says="Slot">{zeroFret ? "on a fret" : inTable(one.slot, assumed("slot"))}</td>
                <td data-says="Over 1">{inTable(one.over_first, assumed("over_first"))}</td>
                <td data-says={`Over ${Math.min(12, last)}`}>{inTable(one.over_twelfth, assumed("over_twelfth"))}</td>
                <td data-says={`Over ${last}`}>{inTable(one.over_last, assumed("over_last"))}</td>
                <td data-says="Least">
                  {inTable(one.least, survey.readings === 0)} <small>{leastWhere(one)}</small>
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </section>
  );
}

/** What the sheet rests on, in a line. */
export const restsOn = (survey: Survey): string =>
  `${counted(survey.readings, "reading", "readings")}${survey.left_out > 0 ? `, ${survey.left_out} set aside` : ""}`;
