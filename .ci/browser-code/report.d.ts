// Reports of owners, as types.

/** A value of a file. */
type Plain = string | number | boolean | Plain[] | { [key: string]: Plain };

/** By the field's name what stands in it; a list, since ticks share a name. */
type Filled = Record<string, string[]>;

interface Distance {
  value: number;
  unit: "km" | "mi";
}
type DistanceUnit = Distance["unit"];

/** An address that opens a mail or an issue; `whole`: the text goes along. */
interface Way {
  address: string;
  whole: boolean;
}

/** What leads to a person: what it is, and where it stands. */
interface Personal {
  kind: string;
  say: string;
  start: number;
  end: number;
}

interface Problem {
  field: string;
  say: string;
  /** Not filled in yet, rather than wrong. */
  missing: boolean;
  /** The pieces that lead to a person. */
  personal: string[];
}

interface ReportCheck {
  id: string;
  title: string;
  /** What can come out of it, as a case has it. */
  results: string[];
  unit: string;
}

/** What a report knows of its fault: of the fault's own page. */
interface ReportFault {
  id: string;
  title: string;
  causes: { id: string; title: string }[];
  checks: ReportCheck[];
  symptoms: string[];
  codes: string[];
  models: [id: string, name: string, years: number[]][];
}

/** What the page says in `script.report-data`. */
interface ReportClub {
  unit: DistanceUnit;
  currency: string;
  /** Kilometres. */
  solved_after: number;
  solved_after_text: string;
  countries: string[];
  email: string | null;
  issues: string | null;
}

interface ReportFacts extends ReportClub {
  fault: ReportFault | null;
  models: FinderModel[];
  formats: CodeFormat[];
  tables: CodeTables;
  /** Made up, of this device's bike. */
  bike: string;
  today: string;
}

interface Draft {
  /** What it is about. */
  key: string;
  title: string;
  /** Behind the page's own. */
  address: string;
  /** It is finished, and waits to be sent. */
  ready: boolean;
  filled: Filled;
}

interface Sent extends Omit<Draft, "ready"> {
  /** The day. */
  on: string;
  /** Whether it held was asked, or need not be. */
  asked: boolean;
  /** Kilometres from which on it counts. */
  far: number;
}

interface KeptReports {
  drafts: Draft[];
  sent: Sent[];
  /** By model and year the made-up id of this device's bike. */
  bikes: Record<string, string>;
}
