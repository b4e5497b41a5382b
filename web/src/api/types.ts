// Written by tools/types.mjs from schema/api.schema.json; do not edit.

/** What an answer with status 400 and above holds. */
export interface Refusal {
  /** the first. */
  error: Problem;
  /** all, where there is more than one. */
  errors?: Problem[];
}

/** What was refused, or went wrong. */
export interface Problem {
  /** for programs: "unit", "conflict", .... */
  code: string;
  /** JSON pointer into what was sent; "" for all of it. */
  path: string;
  /** for people: what stood there and what was expected. */
  message: string;
}

/** The shop. */
export interface Shop {
  /** what this is. */
  schema: string;
  /** of the program. */
  version: string;
  /** of the shop. */
  name: string;
  /** true: invented instruments and people. */
  demo: boolean;
  /** by the clock of the server. */
  today: Day;
  /** who works or owns here. */
  people: Person[];
  /** the tools on the wall. */
  tools: ShopTool[];
  /** what work costs. */
  rates: Rate[];
  /** the shop's own limits. */
  limits: LimitOverride[];
  /** true: other devices may reach it. */
  opened: boolean;
  /** where they reach it. */
  address?: string;
  /** true: this request came from the machine itself. */
  local: boolean;
  /** the one that asks. */
  device: DeviceName;
}

export type Day = string;

/** Somebody of the shop. */
export interface Person {
  /** the name. */
  name: string;
  /** true: works at the bench. */
  technician?: boolean;
  /** how to reach them. */
  contact?: string;
  /** anything else. */
  remark?: string;
}

/** A tool of the shop's wall. */
export interface ShopTool {
  /** as readings name it. */
  id: string;
  /** a kind of tool (data/tools.json). */
  kind: string;
  /** when last. */
  calibrated?: Day;
  /** when next. */
  due?: Day;
  /** expanded uncertainty from its certificate. */
  certificate_u?: string;
  /** coverage factor of that. */
  certificate_k?: number;
  /** anything else. */
  remark?: string;
  /** true: no longer in use. */
  retired?: boolean;
}

/** What a kind of work costs here. */
export interface Rate {
  /** the work. */
  work: string;
  /** such as "60 EUR". */
  amount: string;
  /** anything else. */
  remark?: string;
}

/** The shop's own limit in place of the procedure's. */
export interface LimitOverride {
  /** id of the checkpoint. */
  checkpoint: string;
  /** lowest value that passes. */
  low?: string;
  /** highest value that passes. */
  high?: string;
  /** the end of the strings it holds for; all when left out. */
  strings?: "bass" | "treble";
  /** whose rule it is. */
  source: string;
}

/** A device and what people call it. */
export interface DeviceName {
  /** of the device; "" when its page does not say. */
  id: string;
  /** what people call it. */
  name: string;
}

/** A new name. */
export interface ShopName {
  /** of the shop. */
  name: string;
}

/** Visits that were asked for, the latest first. */
export interface Visits {
  /** what this is. */
  schema: string;
  /** by the clock of the server. */
  today: Day;
  /** one by one. */
  visits: VisitLine[];
  /** how many there are with those not sent. */
  total: number;
}

/** A visit in one line. */
export interface VisitLine {
  /** what this is; left out in a list. */
  schema?: string;
  /** of the visit. */
  id: Id;
  /** id of the instrument's dossier. */
  dossier: Id;
  /** the instrument's name. */
  title: string;
  /** its number. */
  serial: string;
  /** who plays it. */
  player: string;
  /** what the verdict rests on. */
  scope: string;
  /** when it was promised. */
  promised?: Day;
  /** the verdict. */
  verdict: string;
  /** what to read next. */
  next: string;
  /** what the scope takes. */
  minutes_total: number;
  /** what is left of that. */
  minutes_left: number;
  /** how many there are. */
  readings: number;
  /** when. */
  opened: Moment;
  /** when; left out while it is open. */
  closed?: Moment;
  /** true: invented instrument and values. */
  demo: boolean;
}

export type Id = string;

export type Moment = string;

/** Instruments and players that a word may mean. */
export interface Names {
  /** what this is. */
  schema: string;
  /** instruments. */
  dossiers: KnownInstrument[];
  /** players. */
  players: KnownPlayer[];
}

/** An instrument that was here before. */
export interface KnownInstrument {
  /** of its dossier. */
  id: Id;
  /** its name. */
  title: string;
  /** its number. */
  serial: string;
  /** what it is. */
  kind: Kind;
  /** whose it is. */
  owner?: string;
  /** how often it was here. */
  visits: number;
  /** the latest visit. */
  last?: Stay;
}

export type Kind = "electric guitar" | "electric bass";

/** A visit and its day. */
export interface Stay {
  /** its id. */
  visit: Id;
  /** when it was opened. */
  day: Day;
}

/** A player whose wishes are known. */
export interface KnownPlayer {
  /** the name. */
  name: string;
  /** the wishes in one line, such as "medium hand, 10-46". */
  wants?: string;
}

/** A visit to open. */
export interface NewVisit {
  /** made by whoever opens it: sending it again is harmless. */
  id: Id;
  /** what the instrument is. */
  kind: Kind;
  /** the hand that plucks. */
  hand?: "right" | "left";
  /** false: without frets. */
  fretted?: boolean;
  /** of an instrument that was here before: its facts are copied. */
  dossier?: Id;
  /** whose wishes are laid on it, where they are known. */
  player?: string;
  /** what hands may do. */
  hands?: "look only" | "adjust" | "work";
  /** name of a scope of the procedure. */
  scope?: string;
  /** who opens it. */
  by?: string;
}

/** A visit that is open. */
export interface VisitOpened {
  /** what this is. */
  schema: string;
  /** of the visit. */
  id: Id;
  /** id of the instrument's dossier. */
  dossier: Id;
}

/** Close a visit, or open it again. */
export interface CloseAsked {
  /** true: close it. */
  closed: boolean;
}

/** One visit as a page shows it. */
export interface VisitView {
  /** what this is. */
  schema: string;
  /** of the visit. */
  id: Id;
  /** id of the instrument's dossier. */
  dossier: Id;
  /** the instrument's name. */
  title: string;
  /** when. */
  opened: Moment;
  /** when; left out while it is open. */
  closed?: Moment;
  /** the latest entry that this takes account of. */
  seq: number;
  /** those in force, by seq. */
  entries: StoredEntry[];
  /** what two devices wrote differently. */
  conflicts: Conflict[];
  /** what the drawing and the places depend on. */
  instrument: InstrumentFacts;
  /** drawing of the neck. */
  neck: Neck;
  /** what the scope takes. */
  minutes: Minutes;
  /** what to read next; null when nothing is left. */
  next: Next | null;
  /** all that apply, in trade order. */
  checkpoints: VisitCheckpoint[];
  /** what `fallaway assess --json` says of the exported file. */
  assessment: Assessment;
  /** the visit before. */
  last?: LastStay;
  /** what undo on this device would take back. */
  undo?: UndoOffer;
}

/** An entry as it is kept. */
export interface StoredEntry {
  /** made by whoever wrote it. */
  id: Id;
  /** what it writes; "" when it only takes others out of force. */
  path: string;
  /** as in a bench file; null: not stated any more. */
  value?: unknown;
  /** ids of entries that it takes out of force. */
  replaces?: Id[];
  /** the latest seq that its writer's device knew. */
  saw: number;
  /** its position in the history of the shop, from 1. */
  seq: number;
  /** whose it is. */
  device: Id;
  /** when it was stored. */
  at: Moment;
  /** order within its list. */
  place: number;
}

/** Two entries about the same thing that do not know of each other. */
export interface Conflict {
  /** what they are about. */
  slot: string;
  /** id of the one. */
  earlier: Id;
  /** id of the other. */
  later: Id;
}

/** What the drawing and the places depend on. */
export interface InstrumentFacts {
  /** how many. */
  strings: number;
  /** how many. */
  frets: number;
  /** false: without frets. */
  fretted: boolean;
  /** true: played left-handed. */
  left: boolean;
  /** string 1 first, "" where not known. */
  notes: string[];
}

/** The fingerboard in plan, head left, string 1 on top, for a right-handed player; in units of the drawing. */
export interface Neck {
  /** along the strings. */
  width: number;
  /** across the strings. */
  height: number;
  /** how much wider than true it is drawn across. */
  times_wider: number;
  /** true: mirror the drawing, never its figures. */
  left: boolean;
  /** false: the frets are positions without wire. */
  fretted: boolean;
  /** from the nut on. */
  frets: FretLine[];
  /** string 1 first. */
  strings: StringLine[];
  /** outline of the board. */
  edge: Corner[];
}

/** A fret from treble edge to bass edge. */
export interface FretLine {
  /** 0 is the nut. */
  fret: number;
  /** treble end, along. */
  x1: number;
  /** treble end, across. */
  y1: number;
  /** bass end, along. */
  x2: number;
  /** bass end, across. */
  y2: number;
}

/** A string from the nut to the end of the drawing. */
export interface StringLine {
  /** 1 is the thinnest. */
  string: number;
  /** "" where not known. */
  note: string;
  /** at the nut, along. */
  x1: number;
  /** at the nut, across. */
  y1: number;
  /** at the end, along. */
  x2: number;
  /** at the end, across. */
  y2: number;
  /** line width. */
  thick: number;
}

/** A corner of the outline. */
export interface Corner {
  /** along. */
  x: number;
  /** across. */
  y: number;
}

/** What the scope takes. */
export interface Minutes {
  /** all of it. */
  total: number;
  /** what is left. */
  left: number;
}

/** What to read next. */
export interface Next {
  /** its id, or "". */
  checkpoint: string;
  /** what to read. */
  what: string;
  /** what it takes. */
  minutes: number;
  /** what it would decide. */
  why: string;
}

/** A checkpoint that applies to this instrument. */
export interface VisitCheckpoint {
  /** of the checkpoint. */
  id: string;
  /** does the verdict rest on it?. */
  in_scope: boolean;
  /** is it answered?. */
  done: boolean;
  /** what it takes. */
  minutes: number;
  /** in the order of work. */
  places: CheckpointPlace[];
}

/** One place at which a checkpoint is read. */
export interface CheckpointPlace {
  /** where. */
  at: Place;
  /** what is read there, "" for ratings. */
  observable: string;
}

/** Where on the instrument; without a string the whole instrument is meant. */
export interface Place {
  /** string, 1 is the thinnest; a name is kept as its number. */
  string?: number | string;
  /** fret; 0 is the open string or the nut. */
  fret?: number;
  /** edge of the fingerboard. */
  side?: "bass" | "treble";
  /** switch position, by its name. */
  switch?: string;
  /** pickup, by its name. */
  pickup?: string;
  /** knob, by its name. */
  control?: string;
  /** fret at which the string was held down while reading. */
  pressed?: number;
  /** lower fret of the line that a relief or a straightedge is read from; else 1. */
  capo?: number;
  /** anything else, such as "back of head". */
  spot?: string;
}

/** What judgement says of one bench file. */
export interface Assessment {
  /** what this is. */
  schema: string;
  /** of the program. */
  version: string;
  /** true: invented instrument and values. */
  demo: boolean;
  /** its name in words. */
  instrument: string;
  /** the verdict. */
  verdict: Verdict;
  /** what the verdict rests on. */
  scope: string;
  /** what hands may do. */
  hands: string;
  /** id and version. */
  procedure: string;
  /** sentences, the weightiest first. */
  reasons: string[];
  /** what the player complained of. */
  complaints: Complaint[];
  /** the worst first. */
  findings: Finding[];
  /** what was promised. */
  claims: ClaimLine[];
  /** another inspector's lines. */
  card: CardLine[];
  /** what was read before and after. */
  changes: Change[];
  /** null when none was asked. */
  price: Price | null;
  /** null where frets or strings are not such as a neck can be rebuilt from. */
  neck: Survey | null;
  /** what is on it and how hard that pulls. */
  strings: Pull;
  /** null without frets, or where nothing of the strings is known. */
  intonation: Intonation | null;
  /** every checkpoint that applies or was answered, in trade order. */
  answers: Answer[];
  /** sentences. */
  not_looked_at: string[];
  /** sentences. */
  not_judged: string[];
  /** what is still taken for granted. */
  assumed: Assumption[];
  /** the most telling reading first. */
  next: NextReading[];
  /** sentences. */
  cautions: string[];
}

export type Verdict = "ready" | "set up first" | "repair first" | "send back" | "cannot tell yet";

/** A complaint and how it ended. */
export interface Complaint {
  /** in the player's own words. */
  text: string;
  /** where; left out for the whole instrument. */
  at?: Place;
  /** left out while it is open. */
  ending?: ComplaintEnding;
  /** do readings bear the ending out?. */
  shown: boolean;
  /** one sentence a reading; while open, the faults found at its place. */
  evidence: string[];
  /** ids of findings at its place or behind it. */
  findings: string[];
  /** anything else. */
  remark?: string;
  /** who says how it ended. */
  ended_by?: string;
}

export type ComplaintEnding = "cured" | "explained, not cured" | "not found" | "left by agreement";

/** A result that a person acts on. */
export interface Finding {
  /** the same on every run of the same evidence. */
  id: string;
  /** left out for claims, card lines and prices. */
  checkpoint?: string;
  /** how bad it is. */
  severity: Severity;
  /** what it calls for. */
  cure: string;
  /** where; left out for the whole instrument. */
  at?: Place;
  /** one line. */
  title: string;
  /** what was found. */
  found?: Figure;
  /** its limit in words. */
  limit?: string;
  /** whose limit that is. */
  limit_source?: string;
  /** how it stands against that. */
  standing: Standing;
  /** probability, 0 to 1, that the true value lies within the limit. */
  p_conform?: number;
  /** why it matters. */
  why?: string;
  /** what to do. */
  remedy?: string;
  /** a person takes it as it is. */
  accepted?: Accepted;
  /** true: it was accepted once, at another value. */
  acceptance_lapsed?: boolean;
  /** anything else. */
  remark?: string;
}

export type Severity = "critical" | "major" | "minor" | "note";

/** A quantity with value, unit, u and text; or words. */
export interface Figure {
  /** in the unit that is printed. */
  value?: number;
  /** its symbol. */
  unit?: string;
  /** standard uncertainty in the same unit. */
  u?: number;
  /** as it stands in the report. */
  text?: string;
  /** words, ratings and counts. */
  words?: string;
}

export type Standing =
  | "usual"
  | "at the edge"
  | "outside"
  | "accept"
  | "reject"
  | "cannot tell"
  | "good"
  | "will do"
  | "fault"
  | "read";

/** Who takes a finding as it is. */
export interface Accepted {
  /** who. */
  by: string;
  /** the reason. */
  why: string;
  /** when. */
  when?: string;
  /** at which value, as printed. */
  value?: string;
}

/** A promise and what became of it. */
export interface ClaimLine {
  /** as in the bench file. */
  id: string;
  /** what was promised of. */
  name: string;
  /** where; left out for the whole instrument. */
  at?: Place;
  /** as typed. */
  promised: string;
  /** who promised it where. */
  source?: string;
  /** what was found. */
  found?: Figure;
  /** how far off still fits. */
  tolerance?: string;
  /** how it was found. */
  how?: string;
  /** what became of it. */
  outcome: ClaimOutcome;
  /** probability, 0 to 1, that the true value fits. */
  p_conform?: number;
  /** what would settle it. */
  advice?: string;
  /** can any reading settle it?. */
  checkable: boolean;
}

export type ClaimOutcome = "confirmed" | "contradicted" | "not established";

/** A line of another inspector's card against what was read here. */
export interface CardLine {
  /** what was read. */
  title: string;
  /** what they say. */
  theirs: string;
  /** what was read here. */
  ours?: string;
  /** do the two agree?. */
  outcome: CardOutcome;
  /** normalised error: they agree up to 1. */
  en?: number;
}

export type CardOutcome = "agrees" | "differs" | "not checked";

/** Before against after, the same places read twice; numbers in its unit. */
export interface Change {
  /** what was read. */
  title: string;
  /** the change in one sentence. */
  text: string;
  /** is it more than the readings scatter?. */
  real: boolean;
  /** pairs. */
  n: number;
  /** its symbol, "" for plain numbers. */
  unit: string;
  /** mean difference. */
  mean: number;
  /** low and high end of where the mean lies 95 times in 100. */
  ci95: number[];
  /** probability, 0 to 1, of such a mean by chance alone. */
  p_two_sided: number;
  /** place by place. */
  pairs: Pair[];
}

/** One place read twice, in the unit of the change. */
export interface Pair {
  /** where. */
  at: Place;
  /** first. */
  before: number;
  /** then. */
  after: number;
}

/** What is asked against what like instruments went for. */
export interface Price {
  /** what is asked. */
  asked?: string;
  /** what like instruments went for. */
  range?: string;
  /** what is asked, with the cost of what has to be mended. */
  with_repairs?: string;
  /** where it lies; left out when the sales are too few. */
  words?: string;
  /** where the sales are known from. */
  sources: string[];
}

/** The neck as its readings tell it, with what is usual where nothing was read. */
export interface Survey {
  /** how many speak of it. */
  readings: number;
  /** how many were set aside, because they do not go with the others. */
  left_out: number;
  /** "relief", "fallaway": rests on what is usual more than on readings. */
  assumed: string[];
  /** deepest dip under a line from fret 1 to the last. */
  relief: Figure;
  /** over which fret. */
  relief_at: number;
  /** how far the last crown lies under the line of the neck. */
  fallaway: Figure;
  /** what a section across is drawn from. */
  board: SurveyBoard;
  /** string 1 first. */
  strings: SurveyString[];
  /** fret 1 first. */
  crowns: SurveyCrown[];
  /** between two lines. */
  contour_step_mm: number;
  /** highest first. */
  contours: SurveyLine[];
  /** readings that do not go together. */
  disagreements: SurveyClash[];
  /** what to read next on the neck, best first. */
  next: SurveyNext[];
}

/** The board in section. */
export interface SurveyBoard {
  /** radius at the nut. */
  radius_nut_mm: number;
  /** radius at the last fret. */
  radius_end_mm: number;
  /** false: that of most of its kind. */
  radius_known: boolean;
  /** of the wire over the board. */
  fret_height_mm: number;
  /** false: that of most of its kind. */
  fret_height_known: boolean;
  /** scale of each string, string 1 first. */
  scales_mm: number[];
  /** where the strings lie across at the nut, string 1 first, 0 in the middle. */
  strings_nut_mm: number[];
  /** and at the saddles. */
  strings_saddle_mm: number[];
}

/** One string over the crowns. */
export interface SurveyString {
  /** 1 is the thinnest. */
  string: number;
  /** those of its figures that rest on what is usual more than on readings. */
  assumed: string[];
  /** floor of the nut slot over a zero-fret. */
  slot: Figure;
  /** underside over fret 1. */
  over_first: Figure;
  /** over fret 12. */
  over_twelfth: Figure;
  /** over the last fret. */
  over_last: Figure;
  /** room over the next crown: open, held at fret 1, at fret 2, .... */
  next_fret_mm: number[];
  /** its uncertainty. */
  next_fret_mm_se: number[];
  /** room of the open string over fret 1, 2, .... */
  open_mm: number[];
  /** its uncertainty. */
  open_mm_se: number[];
  /** the least room of this string over any crown. */
  least: Figure;
  /** where it is held then; 0 is open. */
  least_held: number;
  /** over which fret. */
  least_over: number;
}

/** One crown. */
export interface SurveyCrown {
  /** which. */
  fret: number;
  /** true: off rests on what is usual more than on readings. */
  assumed: boolean;
  /** height over the shape that is wanted, in the middle of the board. */
  off: Figure;
  /** the same under each string, string 1 first. */
  off_mm: number[];
  /** its uncertainty. */
  off_mm_se: number[];
  /** over the straight line from fret 1 to the last, string 1 first. */
  heights_mm: number[];
  /** its uncertainty. */
  heights_mm_se: number[];
}

/** A line of equal height of the fret tops over the shape that is wanted. */
export interface SurveyLine {
  /** the height. */
  level_mm: number;
  /** false: not known to half a step along it. */
  sure: boolean;
  /** its points along the board: 7.5 lies halfway from fret 7 to fret 8. */
  frets: number[];
  /** and across: 1 on string 1. */
  strings: number[];
}

/** Readings that do not go together. */
export interface SurveyClash {
  /** each beside what all others say, the likeliest slip first. */
  texts: string[];
  /** the same as places. */
  suspects: SurveyAsked[];
  /** what to read to settle it. */
  decider: SurveyAsked;
  /** true: that is one of them read again. */
  again: boolean;
}

/** What to read, and where. */
export interface SurveyAsked {
  /** the reading. */
  what: string;
  /** where; left out for the whole instrument. */
  at?: Place;
}

/** A reading that would tell most for its minutes. */
export interface SurveyNext {
  /** which. */
  asked: SurveyAsked;
  /** what it takes. */
  minutes: number;
  /** uncertainty of the least room before it. */
  before_mm: number;
  /** and after it, and those above. */
  after_mm: number;
}

/** The strings on the instrument. */
export interface Pull {
  /** what all of those below pull together. */
  total: Figure;
  /** string 1 first. */
  strings: PullString[];
  /** those that could not be reckoned. */
  left_out: PullLeftOut[];
}

/** One string and what it does at pitch. */
export interface PullString {
  /** 1 is the thinnest. */
  string: number;
  /** of the open string. */
  note: string;
  /** outer diameter. */
  gauge: Figure;
  /** where the gauge is from. */
  gauge_from: "stated" | "read" | "usual";
  /** form of the core; of a plain string round. */
  core: "round" | "hex";
  /** what is wound on it. */
  wrap: string;
  /** true: core or wrap is the usual one. */
  kind_assumed: boolean;
  /** the table's row, a way between two rows, or core and wrap. */
  mass_from: "row" | "between rows" | "geometry";
  /** at pitch. */
  pull: Figure;
  /** stress of the core over the least strength of its wire. */
  of_strength?: Figure;
  /** relative rise of pull for one unit of further strain (kappa). */
  stretch: number;
  /** its uncertainty. */
  stretch_se: number;
  /** how it resists bending, root of E I over pull and scale squared (eps). */
  stiffness: number;
  /** its uncertainty. */
  stiffness_se: number;
}

/** A string that could not be reckoned. */
export interface PullLeftOut {
  /** 1 is the thinnest. */
  string: number;
  /** why. */
  because: string;
}

/** Where the saddles should go. */
export interface Intonation {
  /** thread of the saddles' length screws; left out: learn it from one turn. */
  screw?: string;
  /** what one turn moves. */
  screw_mm?: number;
  /** string 1 first. */
  strings: IntonationString[];
}

/** One string: what was read, and where its saddle should go. */
export interface IntonationString {
  /** 1 is the thinnest. */
  string: number;
  /** what was read; empty: nothing. */
  heard: IntonationHeard[];
  /** why these cents set no saddle. */
  refused?: string;
  /** nothing read: how far behind the bare scale the saddle will want to stand. */
  setback?: Figure;
  /** of the saddle; + is back, away from the nut. */
  move?: Figure;
  /** the same in turns of its screw, in eighths; left out while its thread is not told. */
  turns?: number;
  /** those that count, all alike. */
  frets: IntonationFret[];
  /** over fret 12, or the last one. */
  twelfth_now?: Figure;
  /** the saddle moved. */
  twelfth_after?: Figure;
  /** how far from it a tuner may then read, one standard uncertainty. */
  reading_cents_se?: number;
  /** over these frets. */
  rms_now_cents?: number;
  /** the saddle moved. */
  rms_after_cents?: number;
  /** after the move. */
  worst_fret?: number;
  /** what is left there. */
  worst?: Figure;
  /** false: the move wins less than 2 cents, which nobody should promise to be heard. */
  heard_gain: boolean;
  /** sentences. */
  remarks: string[];
}

/** What was read at one fret. */
export interface IntonationHeard {
  /** which. */
  fret: number;
  /** against the open string; + is sharp. */
  cents: Figure;
}

/** One fret as the string should sound there. */
export interface IntonationFret {
  /** which. */
  fret: number;
  /** as it stands. */
  now_cents: number;
  /** its uncertainty. */
  now_cents_se: number;
  /** the saddle moved. */
  after_cents: number;
  /** its uncertainty. */
  after_cents_se: number;
}

/** What is known of one checkpoint. */
export interface Answer {
  /** its id. */
  checkpoint: string;
  /** its section. */
  section: string;
  /** what it asks. */
  question: string;
  /** does the verdict rest on it?. */
  in_scope: boolean;
  /** false: a fact that decides it is not stated. */
  surely_applies?: boolean;
  /** how far it is answered. */
  state: AnswerState;
  /** why it is not. */
  because?: string;
  /** place by place. */
  lines: Line[];
}

export type AnswerState =
  | "fine"
  | "fault found"
  | "cannot tell"
  | "partly read"
  | "stale"
  | "not looked at"
  | "not allowed"
  | "does not apply";

/** What one place of one checkpoint says. */
export interface Line {
  /** where; left out for the whole instrument. */
  at?: Place;
  /** what was read; left out for ratings. */
  observable?: string;
  /** what was found. */
  found: Figure;
  /** its limit in words. */
  limit?: string;
  /** whose limit that is. */
  limit_source?: string;
  /** how it stands against that. */
  standing: Standing;
  /** of the fault, where it is one. */
  severity?: Severity;
  /** probability, 0 to 1, that the true value lies within the limit. */
  p_conform?: number;
  /** when in the stay. */
  stage: string;
  /** who read it. */
  by?: string;
  /** with what, for a person. */
  tool?: string;
  /** true: no tool was named, the usual one was taken. */
  tool_assumed?: boolean;
  /** the work that made it worthless. */
  stale?: string;
  /** true: read twice, and the two do not agree. */
  disputed?: boolean;
  /** what would decide it. */
  advice?: string;
  /** anything else. */
  remark?: string;
}

/** What is taken for granted until a reading knows better. */
export interface Assumption {
  /** of what. */
  what: string;
  /** what is taken. */
  text: string;
  /** on what ground. */
  because: string;
  /** the reading that would replace it. */
  observable?: string;
}

/** What to read next. */
export interface NextReading {
  /** id of the checkpoint. */
  checkpoint?: string;
  /** what to read. */
  what: string;
  /** what it takes. */
  minutes: number;
  /** what it would decide. */
  why: string;
  /** tools. */
  needs: string[];
}

/** The visit before, shown as assumed. */
export interface LastStay {
  /** its id. */
  visit: Id;
  /** when it was opened. */
  day: Day;
  /** who read it. */
  by?: string;
  /** one by one. */
  values: LastValue[];
}

/** What was read then. */
export interface LastValue {
  /** an observable. */
  what: string;
  /** where; left out for the whole instrument. */
  at?: Place;
  /** as typed. */
  text: string;
}

/** What undo on this device would take back. */
export interface UndoOffer {
  /** of the entry. */
  id: Id;
  /** what it says, in words. */
  says: string;
}

/** Entries to store, all or none; 500 at most. */
export interface NewEntries {
  /** in the order in which they were made. */
  entries: Entry[];
}

/** One change of a visit; nothing that was written is ever lost. */
export interface Entry {
  /** made by whoever writes it: sending it again is harmless. */
  id: Id;
  /** what it writes: a list that grows ("/readings") or something that is set ("/instrument/scale"); "" when it only takes others out of force. */
  path: string;
  /** as in a bench file; null under something that is set: not stated any more; left out where path is "". */
  value?: unknown;
  /** ids of earlier entries that it takes out of force. */
  replaces?: Id[];
  /** the latest seq that the device knew. */
  saw: number;
}

/** What was stored, for good. */
export interface EntriesStored {
  /** what this is. */
  schema: string;
  /** the latest of the visit. */
  seq: number;
  /** one by one. */
  stored: StoredSeq[];
  /** after undo: what was taken back; left out when there was nothing. */
  took_back?: UndoOffer;
}

/** Where an entry was stored. */
export interface StoredSeq {
  /** of the entry. */
  id: Id;
  /** its position in the history of the shop. */
  seq: number;
}

/** Take back this device's latest entry. */
export interface UndoAsked {
  /** of the entry that takes it back. */
  id: Id;
}

/** What entries would change; nothing is stored. */
export interface Tried {
  /** what this is. */
  schema: string;
  /** the verdict there would be. */
  verdict: Verdict;
  /** sentences, the weightiest first. */
  reasons: string[];
  /** those that would change. */
  answers: Answer[];
}

/** All entries of a visit, by seq. */
export interface History {
  /** what this is. */
  schema: string;
  /** one by one. */
  entries: HistoryEntry[];
}

/** An entry, in force or not. */
export interface HistoryEntry {
  /** made by whoever wrote it. */
  id: Id;
  /** what it writes; "" when it only takes others out of force. */
  path: string;
  /** as in a bench file; null: not stated any more. */
  value?: unknown;
  /** ids of entries that it takes out of force. */
  replaces?: Id[];
  /** the latest seq that its writer's device knew. */
  saw: number;
  /** its position in the history of the shop, from 1. */
  seq: number;
  /** whose it is. */
  device: Id;
  /** when it was stored. */
  at: Moment;
  /** order within its list. */
  place: number;
  /** does it count?. */
  in_force: boolean;
  /** what it says, in words. */
  says: string;
  /** what people call the device. */
  device_name: string;
}

/** One instrument over all its visits. */
export interface Dossier {
  /** what this is. */
  schema: string;
  /** of the dossier. */
  id: Id;
  /** what it is. */
  kind: Kind;
  /** its name. */
  title: string;
  /** its number. */
  serial: string;
  /** whose it is. */
  owner: string;
  /** its visits. */
  visits: VisitLine[];
  /** what was read, place by place. */
  rows: Row[];
}

/** One observable at one place, visit by visit. */
export interface Row {
  /** what was read. */
  what: string;
  /** such as "string 6, fret 12", or "". */
  at: string;
  /** the earliest first. */
  values: RowValue[];
}

/** One reading of a row. */
export interface RowValue {
  /** its id. */
  visit: Id;
  /** of the visit. */
  day: Day;
  /** when in the stay. */
  stage: string;
  /** as typed. */
  text: string;
}

/** What may change in a dossier. */
export interface OwnerSet {
  /** whose it is; left out: not known. */
  owner?: string;
}

/** A photo or a recording that is kept. */
export interface Medium {
  /** what this is. */
  schema: string;
  /** of its bytes. */
  hash: string;
  /** as a bench file names it. */
  path: string;
  /** media type. */
  type: string;
  /** its size. */
  bytes: number;
}

/** All sums, in the order of the manual. */
export interface SumList {
  /** what this is. */
  schema: string;
  /** one by one. */
  sums: Sum[];
}

/** A small calculation of the bench. */
export interface Sum {
  /** as it is asked for. */
  name: string;
  /** a few words for lists. */
  title: string;
  /** sums that belong together. */
  theme: string;
  /** what it is for. */
  says: string;
  /** what is to be given. */
  inputs: SumInput[];
  /** what comes out. */
  outputs: SumOutput[];
  /** how it is worked out. */
  formula: string;
  /** where that is from. */
  source: string;
  /** where it must not be trusted. */
  cautions: string[];
  /** inputs to begin with. */
  example: Record<string, string>;
}

/** One thing to be given. */
export interface SumInput {
  /** its key. */
  name: string;
  /** what it is. */
  says: string;
  /** how it is written. */
  kind: string;
  /** left out for words, texts and values of any kind. */
  dimension?: string;
  /** for people: what may be written. */
  expects: string;
  /** of a word. */
  words?: string[];
  /** taken when nothing is given. */
  usual?: string;
  /** must it be given?. */
  required: boolean;
}

/** One thing that comes out. */
export interface SumOutput {
  /** its key. */
  name: string;
  /** what it is. */
  says: string;
  /** left out for words and for the kind of the readings given. */
  dimension?: string;
  /** left out for plain numbers and words. */
  unit?: string;
}

/** What a sum gives. */
export interface SumAnswer {
  /** what this is. */
  schema: string;
  /** its name. */
  sum: string;
  /** as the list of sums names them. */
  outputs: Record<string, SumValue | SumValue[] | string>;
  /** on this answer. */
  notes: string[];
  /** where the sum must not be trusted. */
  cautions: string[];
}

/** A number that a sum gives. */
export interface SumValue {
  /** the number; null where it has no bounds. */
  value: number | null;
  /** its unit; left out for plain numbers. */
  unit?: string;
  /** standard uncertainty in that unit, where one is known. */
  u?: number;
}

/** A sum to work out. */
export interface SumAsked {
  /** value by key, as the list of sums names them. */
  inputs: Record<string, string>;
}

/** A way in for one more device. */
export interface Pairing {
  /** what this is. */
  schema: string;
  /** to type in. */
  code: string;
  /** to open there. */
  url: string;
  /** that as a drawing to read with a camera. */
  qr_svg: string;
  /** how long it holds. */
  until: Moment;
  /** how the device learns to trust the shop. */
  trust_url: string;
}

/** A device that wants in. */
export interface PairAsked {
  /** as shown. */
  code: string;
  /** what people shall call it. */
  name: string;
}

/** A device that is in. */
export interface Paired {
  /** what this is. */
  schema: string;
  /** that device. */
  device: DeviceName;
}

/** All devices that were paired. */
export interface Devices {
  /** what this is. */
  schema: string;
  /** one by one. */
  devices: KnownDevice[];
}

/** A device that was paired with the shop. */
export interface KnownDevice {
  /** of the device. */
  id: Id;
  /** what people call it. */
  name: string;
  /** when. */
  paired: Moment;
  /** when it last asked for anything. */
  seen: Moment;
  /** true: it is shut out. */
  revoked: boolean;
  /** true: it is the one that asks. */
  here: boolean;
}

/** What changed among the entries in force. */
export interface LiveVisit {
  /** which message this is. */
  type: "visit";
  /** the latest entry that this takes account of. */
  seq: number;
  /** entries that are in force now. */
  put: StoredEntry[];
  /** ids of entries that are not any more. */
  drop: Id[];
}

/** What the sums changed in a view. */
export interface Judged {
  type: "judged";
  /** the latest entry that this takes account of. */
  seq: number;
  whole: boolean;
  assessment: {
    /** what this is. */
    schema?: string;
    /** of the program. */
    version?: string;
    /** true: invented instrument and values. */
    demo?: boolean;
    /** its name in words. */
    instrument?: string;
    /** the verdict. */
    verdict?: Verdict;
    /** what the verdict rests on. */
    scope?: string;
    /** what hands may do. */
    hands?: string;
    /** id and version. */
    procedure?: string;
    /** sentences, the weightiest first. */
    reasons?: string[];
    /** what the player complained of. */
    complaints?: Complaint[];
    /** the worst first. */
    findings?: Finding[];
    /** what was promised. */
    claims?: ClaimLine[];
    /** another inspector's lines. */
    card?: CardLine[];
    /** what was read before and after. */
    changes?: Change[];
    /** null when none was asked. */
    price?: Price | null;
    /** null where frets or strings are not such as a neck can be rebuilt from. */
    neck?: Survey | null;
    /** what is on it and how hard that pulls. */
    strings?: Pull;
    /** null without frets, or where nothing of the strings is known. */
    intonation?: Intonation | null;
    /** every checkpoint that applies or was answered, in trade order. */
    answers?: Answer[];
    /** sentences. */
    not_looked_at?: string[];
    /** sentences. */
    not_judged?: string[];
    /** what is still taken for granted. */
    assumed?: Assumption[];
    /** the most telling reading first. */
    next?: NextReading[];
    /** sentences. */
    cautions?: string[];
  };
  answers_gone: string[];
  /** id of the instrument's dossier. */
  dossier?: Id;
  /** the instrument's name. */
  title?: string;
  /** when. */
  opened?: Moment;
  closed?: Moment | null;
  /** what two devices wrote differently. */
  conflicts?: Conflict[];
  /** what the drawing and the places depend on. */
  instrument?: InstrumentFacts;
  /** drawing of the neck. */
  neck?: Neck;
  /** what the scope takes. */
  minutes?: Minutes;
  /** what to read next; null when nothing is left. */
  next?: Next | null;
  /** all that apply, in trade order. */
  checkpoints?: VisitCheckpoint[];
  last?: LastStay | null;
  undo?: UndoOffer | null;
}

/** The list of visits changed: ask again. */
export interface LiveVisits {
  /** which message this is. */
  type: "visits";
}

/** Who has this visit open. */
export interface LiveHere {
  /** which message this is. */
  type: "here";
  /** one by one. */
  devices: DeviceName[];
}

/** The answer to a ping. */
export interface LivePong {
  /** which message this is. */
  type: "pong";
}

export type LiveMessage = LiveVisit | Judged | LiveVisits | LiveHere | LivePong;

/** From the page: is the line up?. */
export interface LivePing {
  /** which message this is. */
  type: "ping";
}

/** What may be read, claimed and done; it changes with the program alone. */
export interface Catalogue {
  /** what this is. */
  schema: string;
  /** what an inspector asks. */
  procedure: Procedure;
  /** kinds of tool. */
  tools: ToolKind[];
  /** kinds of claim. */
  claims: ClaimKind[];
  /** the closed list. */
  observables: Observable[];
  /** kinds of work. */
  work: WorkKind[];
}

/** An ordered set of checkpoints. */
export interface Procedure {
  /** as visits name it. */
  id: string;
  /** of its text. */
  version: string;
  /** for a person. */
  title: string;
  /** in order. */
  sections: Section[];
  /** in trade order. */
  checkpoints: ProcedureCheckpoint[];
  /** by name. */
  scopes: Scope[];
}

/** Checkpoints that belong together. */
export interface Section {
  /** as checkpoints name it. */
  id: string;
  /** for a person. */
  title: string;
}

/** One question. */
export interface ProcedureCheckpoint {
  /** once in the procedure. */
  id: string;
  /** id of its section. */
  section: string;
  /** a few words for lists. */
  title: string;
  /** what is asked. */
  question: string;
  /** how it is answered. */
  kind: string;
  /** of a failure. */
  severity: string;
  /** what a failure calls for. */
  cure?: string;
  /** observables that answer it, the preferred one first. */
  reads?: string[];
  /** at which places. */
  each?: string;
  /** where it is read. */
  fret?: number;
  /** kind of claim that it checks. */
  claims?: string;
  /** limits of what it reads first. */
  limits?: Limit[];
  /** what words amount to; a word that is left out is fine. */
  words?: WordLimit[];
  /** the four steps in words, worst first. */
  anchors?: string[];
  /** what it takes. */
  minutes?: number;
  /** tools. */
  needs?: string[];
  /** when it applies. */
  when?: Condition;
  /** what it does to the instrument. */
  disturbs?: string;
  /** never missed. */
  optional?: boolean;
  /** how often it fails. */
  fails_in_100?: number;
  /** why it matters. */
  why?: string;
  /** how it is done. */
  how?: string;
  /** what mends it. */
  remedy?: string;
}

/** A limit of a measured checkpoint; the first whose condition applies counts. */
export interface Limit {
  /** when it applies. */
  when?: Condition;
  /** lowest value that passes. */
  low?: string | BassToTreble;
  /** highest value that passes. */
  high?: string | BassToTreble;
  /** beyond this the finding is one class worse. */
  high_major?: string;
  /** of a value below the low limit. */
  low_severity?: string;
  /** decided at 95 %; else usual, at the edge, outside. */
  strict?: boolean;
  /** where it is from. */
  source: string;
}

/** When something applies; a fact that an instrument does not state excludes nothing. */
export interface Condition {
  /** kinds of instrument. */
  kinds?: ("electric guitar" | "electric bass")[];
  /** with or without frets. */
  fretted?: boolean;
  /** the hand that plucks. */
  hand?: "right" | "left";
  /** strings of different scales. */
  fanned?: boolean;
  /** without a head. */
  headless?: boolean;
  /** with a battery. */
  battery?: boolean;
  /** with a zero fret. */
  zero_fret?: boolean;
  /** with any pickup. */
  pickups?: boolean;
  /** with a pickup switch. */
  switched?: boolean;
  /** types of bridge. */
  bridges?: string[];
  /** types of truss rod. */
  rods?: string[];
  /** neck joints. */
  joints?: string[];
  /** finishes of the fingerboard. */
  board_finishes?: string[];
  /** fewest strings. */
  strings_min?: number;
  /** most strings. */
  strings_max?: number;
}

/** A limit that runs from string to string. */
export interface BassToTreble {
  /** at the thickest string. */
  bass: string;
  /** at string 1. */
  treble: string;
}

/** What a word amounts to. */
export interface WordLimit {
  /** a word of an observable that the checkpoint reads. */
  word: string;
  /** of a finding. */
  severity: string;
}

/** What one visit looks at. */
export interface Scope {
  /** as bench files name it. */
  name: string;
  /** what it takes an experienced hand. */
  minutes: number;
  /** ids. */
  checkpoints: string[];
}

/** A kind of tool (data/tools.json). */
export interface ToolKind {
  /** as readings name it. */
  id: string;
  /** for people. */
  name: string;
  /** of what it reads. */
  dimension: string;
}

/** A kind of claim (data/claims.json). */
export interface ClaimKind {
  /** as claims name it. */
  id: string;
  /** for people. */
  name: string;
  /** of what is claimed; left out where it is claimed in words. */
  dimension?: string;
  /** true: claimed in words. */
  words: boolean;
  /** can any reading settle it?. */
  checkable: boolean;
}

/** What a reading can be about. */
export interface Observable {
  /** as readings name it. */
  name: string;
  /** what it is. */
  says: string;
  /** left out for what is told in words. */
  dimension?: string;
  /** the words that may be told; left out for quantities. */
  words?: string[];
  /** keys of its place that a reading must give. */
  needs: string[];
  /** keys that it may give besides. */
  allows: string[];
  /** kind of tool that is assumed when a reading names none. */
  default_tool?: string;
  /** a value as it is typed. */
  example: string;
}

/** A kind of work. */
export interface WorkKind {
  /** as work names it. */
  name: string;
}

/** A measured value, or what was seen or heard, with its place and tool. */
export interface Reading {
  /** so that endings can point at it; once in the file. */
  id?: string;
  /** what was read, from the list of observables. */
  what: string;
  /** where. */
  at?: Place;
  /** what it was. */
  value?: string;
  /** the single readings, in place of a value: their mean counts. */
  repeats?: string[];
  /** id or kind of a tool; the shop's usual one, marked assumed, when left out. */
  tool?: string;
  /** who read it. */
  by?: string;
  /** when. */
  when?: string;
  /** when in the stay. */
  stage?: string;
  /** anything else. */
  remark?: string;
}

/** A judged checkpoint. */
export interface Rating {
  /** id of the checkpoint. */
  checkpoint: string;
  /** 0 worst to 3 best, as anchored in the checkpoint. */
  step: number;
  /** where. */
  at?: Place;
  /** who judged. */
  by?: string;
  /** when. */
  when?: string;
  /** when in the stay. */
  stage?: string;
  /** anything else. */
  remark?: string;
  /** paths of photos. */
  photos?: string[];
}

/** A photo. */
export interface Photo {
  /** beside the bench file. */
  path: string;
  /** id of the checkpoint that it answers. */
  checkpoint?: string;
  /** where. */
  at?: Place;
  /** what is seen. */
  what?: string;
  /** who took it. */
  by?: string;
  /** when. */
  when?: string;
  /** when in the stay. */
  stage?: string;
  /** what is meant in it. */
  marks?: Mark[];
}

/** What is meant in a photo. */
export interface Mark {
  /** from the left, 1 the whole width. */
  x: number;
  /** from the top, 1 the whole height. */
  y: number;
  /** what is seen there. */
  says?: string;
}

/** A sound file. */
export interface Recording {
  /** beside the bench file. */
  path: string;
  /** what is heard. */
  what?: string;
  /** who recorded it. */
  by?: string;
  /** when. */
  when?: string;
  /** when in the stay. */
  stage?: string;
}

/** Work done so far; it makes older readings of what it moves stale. */
export interface Work {
  /** kind of work. */
  what: string;
  /** where. */
  at?: Place;
  /** how much, such as "1/8 turn tighter". */
  amount?: string;
  /** who did it. */
  by?: string;
  /** when. */
  when?: string;
  /** anything else. */
  remark?: string;
}

/** A finding that a person takes as it is, until its value changes. */
export interface Acceptance {
  /** id of the finding. */
  finding: string;
  /** as printed in the finding. */
  value?: string;
  /** who accepts it. */
  by: string;
  /** when. */
  when?: string;
  /** the reason. */
  why: string;
}

/** Anything worth keeping; it reaches the report. */
export interface Remark {
  /** the remark. */
  text: string;
  /** where. */
  at?: Place;
  /** whose it is. */
  by?: string;
  /** when. */
  when?: string;
}

/** What was promised of the instrument. */
export interface Claim {
  /** for the report; once in the file. */
  id: string;
  /** a kind of claim (data/claims.json). */
  what: string;
  /** where. */
  at?: Place;
  /** what is claimed. */
  value?: string;
  /** half width of what still fits; else that of its kind. */
  tolerance?: string;
  /** who promised it where: "advert", "order". */
  source: string;
  /** the sentence as promised. */
  text?: string;
  /** what a person found, where no reading can decide. */
  found?: string;
  /** that person's judgement. */
  outcome?: "confirmed" | "contradicted" | "not established";
  /** who judged. */
  by?: string;
  /** anything else. */
  remark?: string;
}

/** The air in the work room. */
export interface Room {
  /** when it was read. */
  when?: string;
  /** of the air. */
  temperature?: string;
  /** of the air. */
  humidity?: string;
  /** anything else. */
  remark?: string;
}

/** What the player wishes; it can be laid on the next instrument. */
export interface Wants {
  /** who plays it. */
  player?: string;
  /** what is wrong with it. */
  complaints?: PlayersComplaint[];
  /** one note for each string, string 1 first. */
  tuning?: string[];
  /** the set wanted, such as "10-46". */
  strings?: string;
  /** string height wanted over fret 12, bass side. */
  height_bass?: string;
  /** the same on the treble side. */
  height_treble?: string;
  /** how hard the player strikes. */
  hand?: "light" | "medium" | "heavy";
  /** how much rattle is allowed. */
  rattle?: "none" | "unplugged only" | "hard only";
  /** what must stay as it is. */
  untouchables?: string[];
  /** what it may cost. */
  money_limit?: string;
  /** when it was promised. */
  promised?: string;
  /** anything else. */
  remark?: string;
}

/** What the player complains of. */
export interface PlayersComplaint {
  /** in the player's own words. */
  text: string;
  /** where. */
  at?: Place;
  /** how it ended. */
  ending?: Ending;
}

/** How a complaint ended. */
export interface Ending {
  /** the outcome. */
  as: string;
  /** ids of the readings that show it. */
  shown_by?: string[];
  /** who says so. */
  by?: string;
  /** when. */
  when?: string;
  /** the reason. */
  why?: string;
}
