// What Python writes for the browser, as types. Global, so that the published modules need no bytes to name them; what a
// module makes itself is described there. Each stands below the module that writes it.

// kbtools/model/code_reading.py, code_tables.py

interface CodeFormat {
  id: string;
  name: string;
  standard: string | null;
  /** Null too where the club's pattern is not safe. */
  pattern: string | null;
  example: string | null;
  per_unit: boolean;
}

interface CodeTables {
  letters: string;
  /** By the code's first letter. */
  systems: Record<string, string>;
  /** By the code's first two or three characters. */
  controlled_by: Record<string, string>;
  failure_types: Record<string, string>;
  status_bits: { name: string; words: string }[];
  look_alikes: Record<string, string>;
  separators: string;
  joints: string[];
  longest_input: number;
  longest_club_code: number;
  shapes: { canonical: string; typed: string; raw: string };
  fold: Record<string, string>;
}

// kbtools/evidence/record.py

/** Model id to runs of years, both ends in. */
type Spans = Record<string, [first: number, last: number][]>;

/** Model id to year to a number of cases. */
type CaseCounts = Record<string, Record<string, number>>;

interface Evidence {
  prior_strength: number;
  unlisted_share: number;
  causes: EvidenceCause[];
  unlisted: CaseCounts;
}

interface EvidenceCause {
  id: string;
  component: string | null;
  weight: number | null;
  /** Null: on every machine. */
  applies: Spans | null;
  cases: CaseCounts;
}

// kbtools/checkplan/problem.py

interface PlanProblem {
  fault: string;
  currency: string;
  own_time_value: number;
  home_time_factor: number;
  labour_rate: number;
  diagnosis_hours: number;
  confirm_hours: number;
  transport: number;
  unlisted_repair: number;
  evidence: Evidence;
  access: PlanAccess[];
  /** Whether an owner is taken to have it. */
  tools: Record<string, boolean>;
  fixes: PlanFix[];
  checks: PlanCheck[];
}

interface PlanAccess {
  id: string;
  minutes: number;
  needs: string[];
  /** 0 home, 1 experienced, 2 workshop. */
  skill: number;
  /** The most that the bike may do while it is open: 0 off, 1 key-on, 2 cranking, 3 running, 4 riding. */
  allows: number;
}

/** What a check and a fix have in common. */
interface PlanWork {
  id: string;
  skill: number;
  tools: string[];
  access: string[];
}

interface PlanFix extends PlanWork {
  parts: number;
  hours: number;
  trial: boolean;
}

interface PlanCheckWork extends PlanWork {
  finds: number;
  only_while_present: boolean;
  before_riding: boolean;
  /** As `allows` of an access job. */
  bike: number;
  minutes: number;
  cost: number;
}

/** What can come out besides good, with the causes that it means. */
interface PlanJudgement extends PlanCheckWork {
  good: null;
  outcomes: { bad: string[] };
}

interface PlanReading extends PlanCheckWork {
  /** Both limits are good. */
  good: [low: number, high: number];
  outcomes: { low: string[]; high: string[] };
}

type PlanCheck = PlanJudgement | PlanReading;

/** Id of a shared check → the machines on which another range is good: model, years, limits. */
type Shared = Record<string, [model: string, years: number[], good: [low: number, high: number]][]>;

/** Id of a shared check → what came out of it today. */
type Looks = Record<string, string>;

// kbtools/checkplan/beside.py

type RideLevel = "do-not-ride" | "ride-to-workshop" | "ride-with-care" | "no-restriction";

interface RideWord {
  /** Null: nobody has said. */
  level: RideLevel | null;
  /** Markdown. */
  why: string | null;
  /** `fault:ID`, `cause:ID`, `code:CODE` or `check:ID`. */
  from: string;
}

interface FreeWork {
  source: string;
  kind: "recall" | "bulletin";
  covers: string[];
  applies: Spans;
}

interface PlanBeside {
  advice: RideWord;
  causes: Record<string, RideWord>;
  free: FreeWork[];
}

// kbtools/checkplan/joint.py

/** One of several faults that are planned together. */
interface JointPart {
  problem: PlanProblem;
  beside: PlanBeside;
  /** Cause to the name of the group of causes that are one. */
  same: Record<string, string>;
  /** Check to the id of the check that several faults share. */
  shared: Record<string, string>;
  /** Counted cases with one of the codes by cause; null: all counted cases speak for the fault. */
  cases: Record<string, number> | null;
}

// kbtools/browser_data/joint.py

type CodeTriple = [format: string, text: string, base: string];

/** What a reader shows; the unit is null where it is not known. */
interface GivenCode {
  code: CodeTriple;
  unit: string | null;
}

interface JointRow {
  code: CodeTriple;
  unit: string | null;
  /** The machines on which its unit is; null where it names none. */
  fits: Spans | null;
  /** Null: a code that cannot be read. */
  with: (CodeTriple | null)[];
  follow_on: boolean;
  word: RideWord | null;
}

/** A fault for `core/joint-parts.js`. */
interface JointFault {
  problem: PlanProblem;
  beside: PlanBeside;
  joint: {
    applies: Spans;
    same: Record<string, string>;
    shared: Record<string, string>;
    good_for: Shared;
    rows: JointRow[];
    /** Counted cases that show codes; the model is null where the case names none. */
    cases: [cause: string, codes: CodeTriple[], model: string | null][];
  };
}

interface CaseWithoutFault {
  id: string;
  bike: [model: string, year: number] | null;
  codes: CodeTriple[];
}

// kbtools/browser_data/plan.py

/** The sentences of `kbtools/wording/plan.py` by name. */
type PlanWords = Record<string, string>;

interface PlanPage {
  title: string;
  problem: PlanProblem;
  beside: PlanBeside;
  /** A mistake can hurt somebody: nobody shall look for a saving. */
  critical: boolean;
  /** By level the answer to "May I ride it?". */
  rides: Record<RideLevel, string>;
  /** By id. */
  names: Record<"causes" | "checks" | "tasks" | "access" | "tools", Record<string, string>>;
  /** Ids of the tools that lie under the seat. */
  on_bike: string[];
  /** The club's line for breakdowns. */
  breakdown: { phone: string; say: string | null } | null;
  /** Units of readings by the check's id. */
  units: Record<string, string>;
  /** The checks that it shares with other faults. */
  shared: Shared;
  joint: JointFault["joint"];
  /** When to stop at once. */
  stop_if: string[];
  currency: string;
  digits: number;
  models: ModelRow[];
  words: PlanWords;
}

type ModelRow = [id: string, name: string, years: number[]];

// kbtools/export/news_json.py

/** A record of `api/v1/news.json`. */
interface NewsItem {
  id: string;
  on: string;
  kind: string;
  title: string;
  address: string;
  machines: Record<string, [number, number][]>;
}

// kbtools/browser_data/finder/files.py

interface FinderRoot {
  version: number;
  size: number;
  faults: number;
  concerned: number;
  per_file: number;
  scale: number;
  formats: CodeFormat[];
  tables: CodeTables;
  stop_words: string[];
  light_words: string[];
  /** What the club wants said first: `asked` has by phrase and word the terms that tell it. */
  stop_now: { asked: string[][][]; say: string }[];
  /** Terms that mean a lamp. */
  lamps: string[];
  rides: Record<string, { word: string; look: string }>;
  ride_order: string[];
  controls: Record<string, string>;
  pages: { codes: string; contribute: string | null; several: string | null };
  names: [name: string, place: number][];
  models: FinderModel[];
  /** Groups of names that mean the same; a name is the stems of its words. */
  groups: string[][][];
  /** The first key of each file. */
  shelves: Record<"terms" | "codes" | "start" | "end", string[]>;
}

interface FinderModel {
  id: string;
  name: string;
  first: number;
  last: number;
  address: string;
  place: number;
}

/** Keys without a value are left out. */
interface FinderEntry {
  kind: string;
  address: string;
  title: string;
  ride?: string;
  system?: string;
  models?: [name: string, years: string][];
  codes?: string[];
  cases?: number;
  texts?: string[];
}

/** A code's own entry, and its faults with 1 where it is only a consequence there; all by place. */
type FinderCode = [place: number, faults: [place: number, follows: 0 | 1][]];

/** The entries that have a term, as steps between their places, and the term's weights in them. */
type FinderPosting = [steps: number[], weights: number[]];

/** What the shelves hold by key; a key stands in one of a shelf's files. */
interface FinderShelves {
  codes: FinderCode;
  terms: FinderPosting;
}

/** What a file of the finder's holds, by its name. */
type FinderFile<Name extends string> = Name extends "root.json"
  ? FinderRoot
  : Name extends "codes/all.json"
    ? Record<string, string>
    : Name extends `${infer Shelf extends keyof FinderShelves}/${number}.json`
      ? Record<string, FinderShelves[Shelf]>
      : Name extends `${"start" | "end"}/${number}.json`
        ? string
        : Name extends `entries/${number}.json`
          ? FinderEntry[]
          : Name extends `bikes/${string}.json`
            ? number[]
            : never;

// kbtools/browser_data/several_codes.py

interface SeveralRoot {
  version: number;
  first: string[];
  formats: CodeFormat[];
  tables: CodeTables;
  models: ModelRow[];
  /** The strictest first. */
  rides: RideRow[];
  words: PlanWords;
}

// kbtools/pages/code_plan.py

/** What a code's page says to its script; `words` are those of kbtools/wording/joint.py. */
interface CodeData {
  codes: CodeTriple[];
  faults: { id: string; title: string; applies: Spans; level: RideLevel | null }[];
  /** Solved cases with the code that are about no fault. */
  without: number;
  /** Those that the faults concern. */
  models: ModelRow[];
  words: PlanWords;
  rides: RideRow[];
}

interface RideRow {
  level: string;
  word: string;
  look: string;
  answer: string;
}

interface SeveralFile {
  /** Format and base to the codes of that base, with places in `faults`. */
  codes: Record<string, [text: string, uses: [place: number, followOn: boolean, ride: string][]][]>;
  faults: SeveralFault[];
  components: Record<string, string>;
  without: CaseWithoutFault[];
}

interface SeveralFault {
  fault: string;
  title: string;
  ride: string;
  applies: Spans;
  evidence: Evidence;
}

// kbtools/site/offline.py

/** The files of a build, and the constants in front of its service worker. */
interface BuildFiles {
  id: string;
  files: BuildFile[];
}

type BuildFile = [path: string, bytes: number, hash: string];

interface BuildConstants {
  id: string;
  assets: string;
  data: string;
  several: string;
  made: string;
  most: number;
}
