import js from "@eslint/js";

const ALL = "site_overrides/assets/js/**/*.js";
/** What `kbtools serve` adds to its pages; it comes with the package, and is no module. */
const LIVE = "kbtools/site/live_client.js";
const CORE = "site_overrides/assets/js/core/**/*.js";
const WORKER = "site_overrides/assets/js/offline-*.js";
/** Runs before anything is drawn, so it cannot be a module. */
const CLASSIC = "site_overrides/assets/js/early.js";

// Every text of the knowledge base is hostile: none may become markup or code.
const MARKUP = ["innerHTML", "outerHTML", "insertAdjacentHTML", "setHTMLUnsafe", "createContextualFragment", "srcdoc"];
const noMarkup = [
  ...MARKUP.map((property) => ({ property, message: "Set texts, see dom.js." })),
  { object: "document", property: "write", message: "Set texts, see dom.js." },
  { object: "document", property: "writeln", message: "Set texts, see dom.js." },
];

// What is in every JavaScript, and yet gives another answer on another machine or at another time.
const impure = {
  globals: ["Date", "Intl", "globalThis", "WeakRef", "FinalizationRegistry"],
  properties: ["localeCompare", "toLocaleString", "toLocaleLowerCase", "toLocaleUpperCase"],
};

/** Modules that do not lie in such a folder. */
function outside(folder) {
  return { regex: `^(?!${folder}[\\w-]+\\.js$)`, message: "Only modules of the site, and core/ only its own." };
}

// What takes comments and blanks out of the published scripts takes the blanks of such an inner text for those of code.
const nested = { selector: "TemplateLiteral TemplateLiteral", message: "A template within a template loses its blanks: name it first." };

export default [
  js.configs.recommended,
  { linterOptions: { reportUnusedDisableDirectives: "error", noInlineConfig: true } },
  {
    files: [ALL, LIVE],
    languageOptions: { ecmaVersion: 2023, sourceType: "module" },
    rules: {
      "array-callback-return": "error",
      complexity: ["error", 14], // Counts ?. and ?? too.
      "consistent-return": "error",
      curly: ["error", "multi-line"],
      "default-case-last": "error",
      eqeqeq: "error",
      "no-console": "error",
      "no-else-return": "error",
      "no-eval": "error",
      "no-implied-eval": "error",
      "no-lonely-if": "error",
      "no-new-func": "error",
      "no-restricted-syntax": ["error", nested],
      "no-param-reassign": "error",
      "no-restricted-globals": ["error", { name: "DOMParser", message: "Set texts, see dom.js." }],
      "no-restricted-imports": ["error", { patterns: [outside("\\./(core/)?")] }],
      "no-restricted-properties": ["error", ...noMarkup],
      "no-script-url": "error",
      "no-shadow": "error",
      "no-throw-literal": "error",
      "no-undef": "off", // tsc says it, and knows which names a page and which a worker has.
      "no-unneeded-ternary": "error",
      "no-unused-vars": ["error", { argsIgnorePattern: "^_", caughtErrorsIgnorePattern: "^_" }],
      "no-useless-concat": "error",
      "no-useless-return": "error",
      "no-var": "error",
      "object-shorthand": "error",
      "prefer-const": "error",
      "prefer-template": "error",
      radix: "error",
      strict: ["error", "never"],
    },
  },
  {
    // Names that `no-implied-eval` must know.
    files: [ALL, LIVE],
    ignores: [CORE],
    languageOptions: { globals: { setInterval: "readonly", setTimeout: "readonly", self: "readonly", window: "readonly" } },
  },
  {
    // Pure: no page, network, clock, chance or storage. Names of browsers are unknown here, so `no-undef` has them all.
    files: [CORE],
    rules: {
      "no-undef": "error",
      "no-restricted-globals": ["error", ...impure.globals],
      "no-restricted-properties": [
        "error",
        ...noMarkup,
        { object: "Math", property: "random" },
        ...impure.properties.map((property) => ({ property })),
      ],
      "no-restricted-imports": ["error", { patterns: [outside("\\./")] }],
      "no-restricted-syntax": ["error", nested, "ImportExpression", "MetaProperty"],
    },
  },
  {
    files: [CLASSIC],
    languageOptions: { sourceType: "script" },
    rules: { "no-var": "off", strict: "off" },
  },
  {
    // The panel comes from the server as HTML, in which every text is escaped (`kbtools/site/panel.py`).
    files: [LIVE],
    languageOptions: { sourceType: "script" },
    rules: { "no-restricted-globals": "off", strict: ["error", "global"] },
  },
  {
    // Parts of one script, in which each has the names of the others.
    files: [WORKER],
    languageOptions: { sourceType: "script" },
    rules: { "no-shadow": "off", "no-unused-vars": ["error", { vars: "local", argsIgnorePattern: "^_" }] },
  },
];
