// Lint for the page's code: mistakes, not taste (prettier has the say on form).
import js from "@eslint/js";
import globals from "globals";

const rules = {
  "consistent-return": "error",
  eqeqeq: "error",
  "no-alert": "off", // the page asks with confirm() before it throws something away
  "no-console": ["error", { allow: ["error"] }],
  "no-eval": "error",
  "no-implied-eval": "error",
  "no-implicit-coercion": "error",
  "no-param-reassign": "error",
  "no-promise-executor-return": "error",
  "no-restricted-properties": [
    "error",
    // Texts and names are put in as text, never as markup (see dom.js).
    { property: "innerHTML" },
    { property: "outerHTML" },
    { property: "insertAdjacentHTML" },
  ],
  "no-self-compare": "error",
  "no-shadow": "error",
  "no-template-curly-in-string": "error",
  "no-unused-vars": ["error", { argsIgnorePattern: "^_", varsIgnorePattern: "^_" }],
  "no-use-before-define": [
    "error",
    { functions: false, classes: false, variables: false },
  ],
  "no-var": "error",
  "object-shorthand": "error",
  "prefer-const": "error",
  "prefer-template": "error",
  "max-lines": ["error", { max: 400, skipComments: true, skipBlankLines: true }],
  "max-lines-per-function": [
    "error",
    { max: 50, skipComments: true, skipBlankLines: true },
  ],
  "max-params": ["error", 5],
};

export default [
  js.configs.recommended,
  {
    files: ["api/page/**/*.js"],
    languageOptions: { globals: globals.browser },
    rules,
  },
  {
    files: ["api/page/worker.js"],
    languageOptions: { globals: globals.serviceworker, sourceType: "script" },
  },
  {
    files: ["tests/page/**/*.{js,mjs}", ".ci/page/*.js"],
    languageOptions: { globals: globals.node },
    rules,
  },
];
