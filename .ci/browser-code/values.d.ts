// What the modules hand each other, as types. Global for the same reason as those in data.d.ts: comments of the modules
// are published, and this file is not. What a module makes for itself is described in it.

// core/codes.js

interface FaultCode {
  /** The format's id. */
  format: string;
  /** In its canonical form. */
  text: string;
}

interface CodeReading {
  text: string;
  /** Distinct, in the order of the formats. */
  matches: FaultCode[];
  /** The only match; null where there is none, or more. */
  code: FaultCode | null;
  ambiguous: boolean;
}

type CodeStructure = ReturnType<typeof import("../../site_overrides/assets/js/core/codes.js").structure>;

// core/query.js

interface Query {
  /** For each place at which a code stands what it may be. */
  codes: FaultCode[][];
  /** The text as part of a code, upper case. */
  part: string | null;
  /** What else stands there. */
  words: string;
  /** Whether it is more than one types. */
  pasted: boolean;
}

// core/shelves.js, core/ranking.js, core/finder.js

type Shelves = import("../../site_overrides/assets/js/core/shelves.js").Shelves;

/** A machine of which the name was typed. */
interface Machine {
  model: FinderModel;
  year: number | null;
  /** Whether nothing else was typed. */
  alone: boolean;
}

type Why = "exact" | "failure" | "unknown" | "near" | "part" | "words" | "several";

/** What of an entry is shown; texts and lists without a value are empty. */
type ShownEntry = Required<Omit<FinderEntry, "ride" | "system">> & { ride: string | null; system: string | null };

interface FinderAnswer {
  why: Why;
  entry: ShownEntry;
  /** The terms by which it was found. */
  matched: string[];
  /** It concerns other machines only. */
  elsewhere: boolean;
  /** Whether it surely is what was meant. */
  sure: boolean;
  /** What it is; `none`: no entry has this code. */
  sort: "fault" | "code" | "none" | "other";
}

/** What words led to. */
interface Ranked {
  place: number;
  score: number;
  /** Of the query, each word by its rarity: what the entry accounts for, and that by how well it does. */
  share: number;
  fit: number;
  /** By how much the score rose because its name was typed; 1: it was not. */
  named: number;
  step: number;
}

interface ByWords {
  /** Best first. */
  found: Ranked[];
  machine: Machine | null;
  /** What was asked, as terms: all, and those that do not only name a lamp. */
  asked: { all: string[]; own: string[] };
  /** By place the terms by which it was found. */
  matched(place: number): string[];
}

interface FinderAnswers {
  /** What the text was read as. */
  codes: ToldCode[];
  /** Whether any entry answers it. */
  known: boolean;
  /** What the club wants said first. */
  stops: string[];
  /** How many answers are sure, and how many faults and codes are shown that are not. */
  sure: number;
  maybe: number;
  /** How many answers there are, those that come later among them. */
  count: number;
  /** The first of them, best first. */
  answers: FinderAnswer[];
  /** The others. */
  later(): Promise<FinderAnswer[]>;
  /** How many were left off. */
  more: number;
  /** How many of those found concern other machines only. */
  hidden: number;
}

interface ToldCode {
  code: FaultCode;
  /** What its structure tells. */
  parts: CodeStructure;
}

// core/several.js, core/several-lookup.js

type Lookup = import("../../site_overrides/assets/js/core/several-lookup.js").Lookup;

/** A fault that a code may mean. */
interface CodeFault extends SeveralFault {
  /** The code is only a consequence there. */
  follow_on: boolean;
  /** The code under which it was found. */
  listed: string;
  /** That is not the very code. */
  near: boolean;
  /** What components are called. */
  components: Record<string, string>;
}

/** What of it the reckoning needs: a row of `code_faults_record` in tests/support/common_part.py. */
type FaultOfCode = Pick<CodeFault, "applies" | "evidence" | "follow_on">;

interface Suspect {
  component: string;
  probability: number;
  by_code: Record<string, number>;
}

interface Suspects {
  /** The likeliest first. */
  suspects: Suspect[];
  /** The codes that were reckoned with. */
  used: string[];
  /** Codes that are consequences only. */
  follow_on: string[];
  /** Codes that no fault of the machine has, or none that names a component. */
  unknown: string[];
}

// core/evidence.js

/** A machine; null: any that the fault concerns. */
type Bike = [model: string, year: number] | null;

interface Share {
  /** Of the cause, or `unlisted`. */
  id: string;
  share: number;
  low: number;
  high: number;
  /** Counted ones of this cause. */
  cases: number;
  /** Those of them on the bike's model year. */
  yours: number;
}

// core/plan.js, core/plan-table.js, core/plan-search.js

type Result = "bad" | "good" | "low" | "high" | "unclear";

type Skill = "home" | "experienced" | "workshop";

/** `NOBODY` with changes. */
interface Owner {
  bike: Bike;
  /** The most that the owner does. */
  skill: Skill;
  /** What an hour of the owner's time counts for; null: what the club says. */
  own_time_value: number | null;
  /** Ids of tools at hand besides the usual ones. */
  has: string[];
  /** Ids of tools that are not at hand. */
  lacks: string[];
  /** The fault is not there now. */
  absent: boolean;
  /** Ids of access jobs that are done. */
  opened: string[];
  /** Ids of causes of which the dealer has confirmed that the maker pays for them. */
  covered: string[];
  /** By the check's id what came out, in the order in which they were done. */
  results: Record<string, Result>;
}

/** Says what to do in each state: its cost from there on, weighted, and the choice in it. */
interface Policy {
  solved(possible: number, good: number, opened: number): [cost: number, choice: number];
}

type Table = ReturnType<typeof import("../../site_overrides/assets/js/core/plan-table.js").tableOf>;

/** Causes possible, imperfect checks that came out good, access jobs open; each as bits. */
type State = [possible: number, good: number, opened: number];

/** The next in its list comes after a good result, or after a trial fix that did not help. */
type Step = StepFigures & (CheckStep | FixStep | HandOverStep);

interface StepFigures {
  /** What the step costs whoever gets there. */
  cost: number;
  /** The owner's own minutes for it. */
  minutes: number;
  /** Probability, from now, of getting there. */
  reach: number;
  /** Ids of the access jobs that it opens, what is needed first first. */
  access: string[];
  /** Of a check: `bad`, or `low` and `high`, with what follows; else empty. */
  outcomes: Record<string, Step[]>;
}

interface CheckStep {
  kind: "check" | "trial_fix";
  /** Of the check, or of the cause whose fix it is. */
  id: string;
  where?: undefined;
}

interface FixStep {
  kind: "fix";
  /** Of the cause. */
  id: string;
  where: "home" | "workshop" | "maker";
  /** No result singles the cause out, it is left over. */
  inferred: boolean;
}

interface HandOverStep {
  kind: "hand_over";
  id: null;
  where?: undefined;
}

/** Cost and minutes are null, and there are no steps, where the results contradict each other. */
type Plan = Outlook & (Costs | NoCosts);

interface Outlook {
  fault: string;
  currency: string;
  /** By cases alone, the largest share first. */
  causes: Share[];
  /** After the results; causes that are ruled out are not there. */
  chances: Record<string, number>;
  steps: Step[];
  /** Whether no plan is cheaper; if not, `at_least` says what any plan is expected to cost at least. */
  exact: boolean;
  at_least?: number;
}

interface Costs {
  expected_cost: number;
  baselines: { hand_over: number; likeliest_first: number };
  minutes: number;
}

interface NoCosts {
  expected_cost: null;
  baselines: { hand_over: null; likeliest_first: null };
  minutes: null;
}

// core/joint.js

/** Several faults as one problem, on one bike. */
interface Joint {
  problem: PlanProblem;
  parts: JointPart[];
  /** How often it is which, the largest share first; `unlisted` is a fault that is not described. */
  faults: Share[];
  causes: JointCause[];
  /** Joint cause to the causes that are one in it. */
  members: Map<string, [fault: string, cause: string][]>;
  /** Joint check to its uses. */
  uses: Map<string, [fault: string, check: string][]>;
}

interface JointCause {
  /** `fault/cause`, or `unlisted`. */
  id: string;
  share: number;
  /** Counted ones of the cause in its fault. */
  cases: number;
}

/** A fault with one of the codes. */
interface JointFaultRow {
  id: string;
  title: string;
  applies: Spans;
  /** Of the fault with these codes. */
  level: RideLevel | null;
  address: string;
}

/** A code that was entered: what is known of it. */
interface CodeRow {
  text: string;
  /** The text of the code that has a page. */
  page: string;
  state: "known" | "follow_on" | "elsewhere" | "unknown";
  /** Those that concern the bike. */
  faults: CodeFault[];
  /** How many there are for any bike. */
  elsewhere: number;
}

interface JointPlan {
  joint: Joint;
  plan: Plan;
  faults: Share[];
  causes: JointCause[];
  /** What to do now; null where the results contradict each other. */
  next: Step | null;
  before_riding: string[];
  ride_advice: RideWord;
  may_be_free: FreeWork[];
}

/** What the owner cannot do, and why. */
interface Obstacle {
  kind: "check" | "fix";
  id: string;
  /** It takes more skill. */
  skill: boolean;
  /** Tools that it takes more. */
  tools: string[];
  /** Access jobs that take more skill. */
  access: string[];
  /** The check says nothing while the fault is not there. */
  absent: boolean;
}

// core/plan-answers.js

interface Answers {
  /** In the order in which they were given, each check and each fix at most once. */
  list: Answer[];
  /** The fault is not there now. */
  absent: boolean;
  /** Ids of access jobs that are done. */
  opened: string[];
  /** Ids of causes of which the dealer has confirmed that the maker pays for them. */
  covered: string[];
  /** Reckon with any bike, although this browser remembers one. */
  any: boolean;
}

type Answer = CheckAnswer | FixAnswer;

interface CheckAnswer {
  check: string;
  result: Result;
  /** The reading. */
  value: number | null;
  fix?: undefined;
}

interface FixAnswer {
  fix: string;
  result: "no-change" | "helped";
  check?: undefined;
}

/** What holds for every fault, and is kept apart from its answers. */
interface Means {
  skill: Skill;
  /** What an hour of the own time counts for; null: what the club says. */
  hour: number | null;
  /** Ids of tools at hand besides the usual ones. */
  has: string[];
  /** Ids of usual tools that are not. */
  lacks: string[];
}

// core/shared-state.js

/** What a link to a plan carries. */
interface SharedState {
  /** Id of the fault; empty: a plan for the codes. */
  fault: string;
  /** That were read. */
  codes: string[];
  /** The one reckoned with; null: any. */
  bike: Bike;
  answers: Answers;
  means: Means;
  /** By the road, with what lies under the seat. */
  road: boolean;
}

interface ReadState {
  /** Made by another version; not as it was made; cut off at its end. */
  trouble: "version" | "damaged" | "cut" | null;
  /** Null: nothing of it can be used. */
  state: SharedState | null;
}

// core/workshop-text.js

/** What a plan has to tell a workshop, each a line of plain text. */
interface Told {
  checked: string[];
  /** Fixes. */
  tried: string[];
  /** Checks before riding that were not done. */
  open: string[];
  /** What the maker may pay for. */
  free: string[];
  /** Causes, the likeliest first. */
  guess: string[];
  /** What comes before riding is called so. */
  before: string;
}

/** What an owner ticked and wrote in the note for the workshop. */
interface NoteForm {
  /** The fault's title; empty: a note about codes. */
  about: string;
  /** `Odometer: 41 000`. */
  facts: string[];
  codes: { code: string; read: boolean; states: string[] }[];
  /** Codes that the note does not list. */
  others: string;
  checked: string[];
  changed: string[];
  noticed: string[];
  /** Recalls and bulletins, each with what was ticked of `yes` and `no`. */
  notices: { notice: string; answers: string[] }[];
  /** What it may cost before the owner is rung; empty: he does not say. */
  limit: string;
}

// core/plan-story.js

/** What `reckoned` in core/plan-answers.js gives, and the plan of it. */
interface PlanSituation {
  problem: PlanProblem;
  owner: Owner;
  plan: Plan;
}

/** With what each check is called where its card is not beside it. */
interface Page extends PlanPage {
  checks: Record<string, string>;
}

// core/history.js

/** A bike whose history is kept, in this browser alone. */
interface OwnBike {
  /** Made up: `b` and six of 0-9a-z. It stands for the bike in case reports too (`vehicle.bike`). */
  id: string;
  /** Of a model, which the club's list may no longer have. */
  model: string;
  year: number;
  /** The model's name. */
  name: string;
  /** What the owner calls it; may be empty. */
  call: string;
  /** What its odometer counts in. */
  unit: "km" | "mi";
}

/** What was seen or done on one day. Texts are the owner's, or came in a file: they are set as text only. */
interface HistoryEntry {
  /** `e` and fourteen of 0-9a-z, rising with the time at which the entry was made. */
  id: string;
  /** As 2026-03-14, by the owner's clock. */
  day: string;
  /** Whole, in the bike's unit. */
  odometer: number | null;
  /** Each once, in canonical form. */
  codes: SeenCode[];
  /** Words as the case format has them: wet, cold. */
  conditions: string[];
  /** What was done, in the owner's words; may have several lines. */
  done: string;
  /** What the plan had checked and tried. */
  tried: TriedStep[];
  /** Which fault it was about, where that is known. */
  fault: Named | null;
  /** What it was; only with a fault. */
  cause: Named | null;
  /** The owner takes it to be mended by what was done. */
  mended: boolean;
  /** The day on which the codes were cleared; null: they were not. */
  cleared: string | null;
  /** After how far it came back, where the owner says so and no later entry does. */
  back: number | null;
  /** That it was reported to the club. */
  report: SentReport | null;
  /** When it was last changed, in milliseconds since 1970. */
  changed: number;
}

interface SeenCode {
  code: string;
  status: string | null;
}

interface Named {
  id: string;
  /** What it was called when it was kept. */
  title: string;
}

interface TriedStep extends Named {
  kind: "check" | "fix";
  /** As the case format has it: bad, good, low, high, unclear; helped, no-change. */
  result: string;
}

interface SentReport {
  /** Day. */
  sent: string;
  way: string;
  solved: boolean | string | null;
}

/** What is given to make an entry; what is left out is not known. */
type NewEntry = Partial<Omit<HistoryEntry, "id" | "changed">> & { day: string };

// core/history-codes.js

/** A code through the entries of one bike. */
interface CodeTrail {
  /** Since it was last mended. */
  seen: HistoryEntry[];
  /** What cleared or mended it since it was seen. */
  closed: HistoryEntry | null;
  mended: boolean;
  returns: { from: HistoryEntry; to: HistoryEntry; mended: boolean }[];
  closings: HistoryEntry[];
}

interface CodeReturn {
  code: string;
  /** Ids of the entries: cleared or mended by the one, seen again in the other. */
  from: string;
  to: string | null;
  /** In the bike's unit. */
  distance: number | null;
  days: number | null;
  /** It was taken to be mended, not only the code cleared. */
  mended: boolean;
}

interface CodePattern {
  code: string;
  times: number;
  distance: number | null;
  days: number;
  /** It was mended since. */
  over: boolean;
}

interface RecentCode {
  code: string;
  day: string;
  status: string | null;
  odometer: number | null;
  /** The day on which it was cleared since. */
  cleared: string | null;
}

interface Oddity {
  id: string;
  what: "future" | "backwards";
  before: { day: string; odometer: number } | null;
}

// core/history-file.js

interface BikeHistory {
  bike: OwnBike;
  entries: HistoryEntry[];
}

/** Why a file is refused: it is too big, cut off or damaged, of a newer format, something else. */
type FileProblem = "huge" | "damaged" | "newer" | "other";

interface HistoryFile {
  problem: FileProblem | null;
  bikes: BikeHistory[];
  odd: number;
}

interface Arrival {
  bike: OwnBike;
  isNew: boolean;
  /** Its odometer counts in another unit here. */
  isOther: boolean;
  fresh: HistoryEntry[];
  /** Newer versions of entries that are there. */
  changed: HistoryEntry[];
  /** How many are there already. */
  known: number;
}
