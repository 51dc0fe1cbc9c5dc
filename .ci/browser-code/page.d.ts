// The pages, as types: what the templates have that the modules look for, and what the modules tell each other by events.

interface ParentNode {
  querySelector<S extends keyof PageElements>(selectors: S): PageElements[S];
  querySelectorAll<S extends keyof PageLists>(selectors: S): NodeListOf<PageLists[S]>;
}

/** By selector the one element of a page; where not every page that runs the module has it, or null. */
interface PageElements {
  // kbtools/templates/_finder.html
  "[data-finder]": WithData<HTMLFormElement, "finder" | "root" | "src">;
  "#finder": HTMLInputElement;
  "#finder-results": HTMLElement;
  "#finder-status": HTMLElement;
  "[data-finder-sheet]": HTMLElement;
  "[data-finder-stops]": HTMLElement;
  "[data-finder-others]": HTMLButtonElement;
  "[data-finder-clear]": HTMLButtonElement;
  "[data-finder-recent]": HTMLElement | null;
  "[data-bike-name]": HTMLButtonElement;
  "[data-bike-drop]": HTMLButtonElement;
  "[data-bike-dialog]": HTMLDialogElement;
  "[data-bike-model]": HTMLSelectElement;
  "[data-bike-year]": HTMLSelectElement;
  "[data-bike-problem]": HTMLElement;
  "[data-bike-cancel]": HTMLButtonElement;
  form: HTMLFormElement;

  // site_overrides/partials/scripts.html
  "[data-later]": WithData<HTMLElement, "later"> | null;

  // kbtools/templates/my-bike.html
  "[data-my-bike-name]": HTMLElement;
  "[data-my-bike-choose]": HTMLButtonElement;
  "[data-my-bike-keep]": HTMLElement;
  "[data-my-bike-links]": HTMLElement;
  "[data-my-bike-size]": HTMLElement;
  "[data-my-bike-start]": HTMLButtonElement;
  "[data-my-bike-remove]": HTMLButtonElement;
  "[data-my-bike-progress]": HTMLProgressElement;
  "[data-my-bike-status]": HTMLElement;

  "[data-news-since]": WithData<HTMLElement, "root" | "src">;
  "[data-news-list]": HTMLElement;
  "[data-news-status]": HTMLElement;

  // kbtools/templates/report.html
  "[data-report]": HTMLElement;
  "script.report-data": HTMLScriptElement;
  "[data-report-form]": HTMLFormElement;
  "[data-report-status]": HTMLElement;
  "[data-report-about]": HTMLElement;
  "[data-report-progress]": HTMLElement;
  "[data-report-bar]": HTMLProgressElement;
  "[data-report-tried-none]": HTMLElement;
  "[data-report-tried-fold]": HTMLDetailsElement;
  "[data-report-wrong-of]": HTMLElement;
  "[data-report-over]": HTMLElement;
  "[data-report-causes]": HTMLElement;
  "[data-report-also-fold]": HTMLElement;
  "[data-report-unit]": HTMLElement;
  "[data-report-open]": HTMLElement;
  "[data-report-whole]": HTMLElement;
  "[data-report-counts]": HTMLElement;
  "[data-report-ways]": HTMLElement;
  "[data-report-sent]": HTMLElement;
  "[data-report-drop]": HTMLButtonElement;
  "#report-text": HTMLElement;
  "[name=model]": HTMLSelectElement;
  "[name=year]": HTMLSelectElement;
  "input, select, textarea": HTMLInputElement | null;

  // kbtools/templates/codes.html
  "[data-code-state]": HTMLElement | null;

  // kbtools/templates/several.html
  "[data-several]": WithData<HTMLElement, "root" | "src">;
  "[data-several-form]": HTMLFormElement;
  textarea: HTMLTextAreaElement;
  "[data-several-model]": HTMLSelectElement;
  "[data-several-year]": HTMLSelectElement;
  "[data-several-year-part]": HTMLElement;
  "[data-several-status]": HTMLElement;
  "[data-several-codes]": HTMLElement;
  "[data-several-fold]": HTMLDetailsElement;
  "[data-several-fold-word]": HTMLElement;
  "[data-several-parts]": HTMLElement;
  "[data-several-each]": HTMLElement;
  "[data-several-recent]": HTMLElement | null;

  // kbtools/templates/code.html, several.html
  "[data-joint]": WithData<HTMLElement, "root"> | null;
  "script.joint-data": HTMLScriptElement;
  "[data-joint-likely]": HTMLElement;
  "[data-joint-told]": HTMLElement;
  "[data-joint-stops]": HTMLElement;
  "[data-joint-free]": HTMLElement;
  "[data-joint-before]": HTMLElement;
  "[data-joint-plan]": HTMLElement;
  "[data-joint-looks]": HTMLElement | null;
  "[data-bike-choose]": HTMLButtonElement | null;
  ".workshop-note": HTMLElement | null;
  "[data-sheet-codes]": HTMLElement;
  "[data-sheet-lines]": HTMLElement;
  "[data-sheet-read]": HTMLElement | null;

  // kbtools/templates/fault.html, _workshop_note.html, code.html
  "script.plan-data": HTMLScriptElement;
  ".plan-all": HTMLDetailsElement;
  "[data-sheet-bike]": HTMLElement;
  "[data-sheet-print]": HTMLElement;
  "[data-sheet-changed]": HTMLElement;
  "[data-sheet-found]": HTMLElement;
  "[data-sheet-history]": HTMLElement | null;
  "[data-seen]": HTMLElement | null;
  // plan-ends.js
  "[data-history-mended]": WithData<HTMLElement, "historyMended"> | null;

  // site_overrides/main.html, partials/header.html, partials/strip.html
  "#content": HTMLElement;
  "[data-strip]": WithData<HTMLElement, "root">;
  "[data-strip-word]": HTMLElement;
  "[data-strip-page]": HTMLAnchorElement;
  "article[data-whom]": HTMLElement | null;
  "article[data-model]": HTMLElement | null;
  "article[data-fault]": HTMLElement | null;
  'meta[name="build"]': HTMLMetaElement;
  "[data-offline]": WithData<HTMLScriptElement, "root" | "worker">;
  "[data-kept-note]": HTMLElement | null;
  "[data-more]": HTMLDetailsElement | null;
  "[data-looks-told]": HTMLElement | null;
  summary: HTMLElement;
  h1: HTMLElement;

  // plan-frame.js
  "#plan-now": HTMLElement | null;
}

/** By selector any number of elements. */
interface PageLists {
  "[data-history]": HTMLElement;
  "[data-my-bike-to]": WithData<HTMLAnchorElement, "myBikeTo">;
  "[data-step]": WithData<HTMLElement, "step" | "kinds">;
  "[data-field]": WithData<HTMLElement, "field">;
  "[data-report-end]": HTMLButtonElement;
  "input, select, textarea": HTMLInputElement;
  "[data-notice]": WithData<HTMLElement, "notice">;
  "[data-bike-choose]": HTMLButtonElement;
  "[data-several-shown]": HTMLElement;
  "main a[href*='/faults/']": HTMLAnchorElement;
  "[data-sheet-open]": WithData<HTMLElement, "sheetOpen">;
  "[data-sheet-code]": WithData<HTMLElement, "sheetCode">;
  "[data-sheet-sign]": HTMLElement;
  "[data-covers]": WithData<HTMLElement, "covers">;
  "[data-joint-free]": HTMLElement;
  "[data-sheet-state]": WithData<HTMLElement, "sheetState">;
  "[data-sheet-notice]": WithData<HTMLElement, "sheetNotice">;
  "[data-sheet-write]": WithData<HTMLElement, "sheetWrite">;
  "[data-set-scheme]": WithData<HTMLButtonElement, "setScheme">;
  "[data-plan]": HTMLElement;
  "[data-looks]": HTMLElement;
  "[data-look]": WithData<HTMLElement, "look" | "results">;
  "[data-cause]": WithData<HTMLElement, "cause">;
  "[data-sheet-check]": WithData<HTMLElement, "sheetCheck">;
  "[data-sheet-cause]": WithData<HTMLElement, "sheetCause">;
}

/** Of `data-my-bike-…` what stands for the dots. */
type MyBikePart = keyof PageElements extends infer Selector
  ? Selector extends `[data-my-bike-${infer Part}]`
    ? Part
    : never
  : never;

type WithData<E extends HTMLElement, Names extends string> = E & { dataset: Record<Names, string> };

interface DocumentEventMap {
  /** From bike.js. */
  bikechange: CustomEvent<MyBike | null>;
  /** From look-store.js: id of a shared check and what came out, null where it was taken back. */
  lookchange: CustomEvent<{ check: string; result: string | null }>;
  /** From history-store.js. */
  historychange: CustomEvent<null>;
  /** From plan-panel.js. */
  planchange: CustomEvent<PlanChange | null>;
}

/** What a plan's panel tells after each change; null: there is no plan any more. */
interface PlanChange {
  given: Answers;
  situation: PlanSituation;
  page: Page;
  /** What to tell a workshop. */
  told: Told;
  /** A link that carries all of it; fails where what makes it does not arrive. */
  link(): Promise<string>;
}

// finder.js

/** What answers questions and shows the answers, as it was fetched. */
interface Search {
  find: typeof import("../../site_overrides/assets/js/core/finder.js").find;
  views: typeof import("../../site_overrides/assets/js/finder-answers.js");
  shelves: import("../../site_overrides/assets/js/core/shelves.js").Shelves;
}

// shared-link.js, shared-view.js

/** A page on which a shared state can be looked at. */
interface SharedPlace {
  /** Under which the answers to the plan are kept. */
  key(codes: string[]): string;
  /** The bikes that the page knows. */
  models(): ModelRow[];
  /** Its address takes codes that were read. */
  takesCodes: boolean;
  /** Null: the state belongs here; else the address of the page that it belongs to. */
  elsewhere(state: SharedState): string | null;
  /** What is shown must not write any more. */
  stop(): void;
  /** Shows the plan anew, of a shared state or, null, of what the reader has. */
  restart(state: SharedState | null): void;
}

// dom.js

/** What stands in an element; what is nothing is left out. */
type Child = Node | string | null | false | undefined;

/** Attributes; null, undefined and false are left out, true is an empty one. What begins with `on` listens. */
type Attributes = { [Name in keyof HTMLElementEventMap as `on${Name}`]?: (event: HTMLElementEventMap[Name]) => void } & {
  [name: string]: string | number | boolean | null | undefined | ((event: never) => void);
};

// plan-panel.js

interface Page {
  source: PlanSource;
}

/** What a panel has the plan of: plan-fault.js, plan-joint.js. */
interface PlanSource {
  page: PlanPage;
  /** Id of the fault; empty: of several. */
  fault: string;
  /** Under which answers are kept. */
  key: string;
  /** The codes that were read. */
  codes: string[];
  /** What any bike is called in the form. */
  anyBike: string;
  /** It is made anew for another bike. */
  isOfOneBike: boolean;
  /** The bike to reckon with. */
  used(bike: MyBike | null, any: boolean): Bike;
  /** Whether the source itself sees to a bike that was chosen; null: any. */
  choose(bike: MyBike | null): boolean;
  problem(bike: Bike): PlanProblem;
  /** The card of a check or a fix, `check-ID` or `fix-cause-ID`. */
  card(name: string): Element | null;
  cautions(check: string): Element[];
  /** What stands below a fix, beside what its card says. */
  after(cause: string): Child[];
  causeAddress(cause: string): string;
  /** Whose cause it is, where that is not plain. */
  whose(cause: string): string | null;
  /** The ride advice that the panel shows; null: none. */
  verdict(situation: PlanSituation): RideLevel | null;
  /** What a change does to it, where the panel does not show it. */
  rideChange(before: PlanSituation, after: PlanSituation): string | null;
  free(bike: Bike): FreeWork[];
  /** That the plan does not know a bike. */
  elsewhere(bike: string): string;
  /** What the plan is about, for a workshop; the title first. */
  about(): (string | false)[];
  /** `check` is the one that is shown, if any. */
  shown(situation: PlanSituation, answers: Answers, page: Page, check: PlanCheck | null): void;
}

// plan-joint.js, joint-place.js

/** The page of a fault, fetched. */
interface FaultPage {
  id: string;
  address: string;
  shown: Document;
  /** Null: its entry says too little for a plan. */
  data: PlanPage | null;
}

/** What a page asks of one plan for its codes. */
interface JointQuestion {
  /** The codes, as the owner reads them. */
  labels: string[];
  given: GivenCode[];
  faults: JointFaultRow[];
  without: number;
  words: PlanWords;
  rides: RideRow[];
  /** Nothing is known of one of the codes. */
  isPart: boolean;
}

/** What a plan of several faults was made for. */
interface JointAsked {
  labels: string[];
  words: PlanWords;
  bike: Bike;
  isPart: boolean;
  /** The owner asks for any bike. */
  isAny: boolean;
  /** Advice of the codes. */
  codes: RideWord[];
  /** Advice of faults that are not planned. */
  others: RideWord[];
  choose(bike: MyBike | null): boolean;
  shown(situation: PlanSituation, page: Page, source: import("../../site_overrides/assets/js/plan-joint.js").SeveralFaults): void;
}

/** What the views of a plan may do. */
interface Act {
  answer(answer: Answer): void;
  choose(check: string | null): void;
  undo(answer: Answer): void;
  startAgain(): void;
  bringBack(): void;
  workshopLines(): string[];
  link(): Promise<string>;
  isOpen(job: string): boolean;
}

/** What each view is given. */
interface PlanView {
  page: Page;
  act: Act;
}

/** What is different in the owner's situation. */
interface Change {
  means?: Partial<Means>;
  answers?: Partial<Answers>;
  /** Null: any. */
  bike?: MyBike | null;
}

/** Access jobs that are open: by what was done, and in all. */
interface Opened {
  results: Set<string>;
  all: Set<string>;
}

/** What holds now. */
interface Now {
  means: Means;
  /** By the road, with what lies under the seat alone. */
  road: boolean;
  answers: Answers;
  /** The one remembered. */
  bike: MyBike | null;
  /** The one reckoned with. */
  used: Bike;
  opened: Opened;
}

// several.js

/** What its views are given. */
interface SeveralLook {
  /** Of a page of the site, from its root, as this page reaches it. */
  address(path: string): string;
  remove(text: string): void;
  rides: RideRow[];
}
