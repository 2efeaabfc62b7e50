import assert from "node:assert/strict";
import { afterEach, test } from "node:test";

import * as text from "../../api/page/js/text.js";
import { number } from "../../api/page/js/units.js";

const { t, textOr, useTexts } = text;
const nets = {
  select: { var: "n" },
  variants: {
    0: ["keine Netze"],
    one: [{ var: "n" }, " Netz"],
    other: [{ var: "n" }, " Netze"],
  },
  default: "other",
};
const german = {
  "page-net": { value: [nets, ", ", { var: "weight" }] },
  "page-twice": { value: ["zweimal: ", { message: "page-net" }] },
};

afterEach(() => {
  localStorage.removeItem("fishmeasure.language");
  setLiked([]);
});

/** Have the browser like these languages. */
function setLiked(languages) {
  const fake = { languages, storage: null };
  Object.defineProperty(globalThis, "navigator", { value: fake, configurable: true });
}

test("a text follows its number, exactly or by the language's plural", () => {
  useTexts("de", german);
  const said = [0, 1, 2].map((n) => t("net", { n, weight: "3 kg" }));
  assert.deepEqual(said, ["keine Netze, 3 kg", "1 Netz, 3 kg", "2 Netze, 3 kg"]);
  assert.equal(t("twice", { n: 1, weight: "" }), "zweimal: 1 Netz, ");
});

test("a plural is that of the language, not of English", () => {
  // CLDR: Polish has "few" for 2 to 4 and "many" for 5.
  const variants = { one: ["ryba"], few: ["ryby"], many: ["ryb"], other: ["ryby"] };
  const value = [{ select: { var: "n" }, variants, default: "other" }];
  useTexts("pl", { "page-fish": { value } });
  assert.deepEqual(
    [1, 3, 5].map((n) => t("fish", { n })),
    ["ryba", "ryby", "ryb"],
  );
});

test("numbers and days are written as the language does", () => {
  useTexts("de", german);
  assert.equal(number(1.5), "1,50");
  assert.equal(text.dateText("2026-05-02"), "2. Mai 2026");
  assert.equal(t("net", { n: 1.5, weight: "" }), "1,5 Netze, ");
  useTexts("en", german);
  assert.equal(text.dateText("2026-05-02"), "2 May 2026");
});

test("a text that is missing is its key, or what stands in for it", () => {
  useTexts("de", german);
  assert.equal(t("none"), "none");
  assert.equal(textOr("none", "instead"), "instead");
});

test("the language is the phone's choice, else what the browser likes first", () => {
  setLiked(["fr-FR", "de-AT", "en"]);
  assert.equal(text.wanted(), "de");
  text.chooseLanguage("en");
  assert.equal(text.wanted(), "en");
  localStorage.removeItem("fishmeasure.language");
  setLiked(["fr"]);
  assert.equal(text.wanted(), "en");
});
