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
  "[data-bike-name]": HTMLButtonElement;
  "[data-bike-drop]": HTMLButtonElement;
  "[data-bike-dialog]": HTMLDialogElement;
  "[data-bike-model]": HTMLSelectElement;
  "[data-bike-year]": HTMLSelectElement;
  "[data-bike-problem]": HTMLElement;
  "[data-bike-cancel]": HTMLButtonElement;
  form: HTMLFormElement;

  // kbtools/templates/my-bike.html
  "[data-my-bike-name]": HTMLElement;
  "[data-my-bike-choose]": HTMLButtonElement;
  "[data-my-bike-keep]": HTMLElement;
  "[data-my-bike-size]": HTMLElement;
  "[data-my-bike-start]": HTMLButtonElement;
  "[data-my-bike-remove]": HTMLButtonElement;
  "[data-my-bike-progress]": HTMLProgressElement;
  "[data-my-bike-status]": HTMLElement;

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
  "[data-several-result]": HTMLElement;

  // kbtools/templates/fault.html, _call_sheet.html
  "script.plan-data": HTMLScriptElement;
  "[data-sheet-bike]": HTMLElement;
  "[data-sheet-print]": HTMLElement;
  "[data-sheet-changed]": HTMLElement;
  "[data-sheet-found]": HTMLElement;

  // site_overrides/main.html, partials/header.html
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
  "[data-bike-choose]": HTMLButtonElement;
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
  /** From plan-panel.js. */
  planchange: CustomEvent<{ answers: Answer[]; plan: Plan; page: Page }>;
}

// dom.js

/** What stands in an element; what is nothing is left out. */
type Child = Node | string | null | false | undefined;

/** Attributes; null, undefined and false are left out, true is an empty one. What begins with `on` listens. */
type Attributes = { [Name in keyof HTMLElementEventMap as `on${Name}`]?: (event: HTMLElementEventMap[Name]) => void } & {
  [name: string]: string | number | boolean | null | undefined | ((event: never) => void);
};

// plan-panel.js

/** What the views of a plan may do. */
interface Act {
  answer(answer: Answer): void;
  choose(check: string | null): void;
  undo(answer: Answer): void;
  startAgain(): void;
  bringBack(): void;
  workshopLines(): string[];
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
  answers: Answers;
  /** The one remembered. */
  bike: MyBike | null;
  /** The one reckoned with. */
  used: Bike;
  opened: Opened;
}

// several.js

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

/** What its views are given. */
interface SeveralLook {
  /** Of a page of the site, from its root, as this page reaches it. */
  address(path: string): string;
  remove(text: string): void;
  rides: RideRow[];
}
