import { type Unit, unitFromText } from "../quantity/index.ts";
import { flammable } from "./flammable.ts";
import { gasesNamed, plainName } from "./gas-name.ts";
import type { GasId } from "./limit.ts";
import { substances } from "./substance.ts";
import { COMPUTED_WORDS, DOUBTFUL_FLAMMABLE_WORDS, EVERYDAY_WORDS, FLAMMABLE_WORDS, PLAIN_WORDS, SUM_WORDS } from "./tables/label-words.ts";
import { OTHER_NAMES } from "./tables/other-names.ts";

export type LabelSureness = "certain" | "strong" | "weak";

/** Why a heading was taken so: a code and the words of the heading that it rests on. */
export interface LabelReason {
  readonly code:
    | "formula"
    | "name"
    | "flammable-word"
    | "unit"
    | "small-letters"
    | "everyday-word"
    | "calibration-gas-perhaps"
    | "no-reading-perhaps"
    | "other-words"
    | "number-perhaps"
    | "several-gases"
    | "sum-of-gases"
    | "no-gas-word";
  readonly line: null;
  readonly text: string | null;
}

export interface LabelMeaning {
  readonly gas: GasId | "flammable, gas not said" | null;
  /** Unit that the heading names, bare per cent included. */
  readonly unit: Unit | "ambiguous per cent" | null;
  readonly sureness: LabelSureness;
  readonly reasons: readonly LabelReason[];
}

interface Found {
  readonly gas: GasId | "flammable, gas not said" | "sum";
  readonly sureness: LabelSureness;
  readonly reason: LabelReason;
  readonly words: number;
}

/**
 * What a column heading says of gas and unit, and why: "CO (ppm)", "H2S [ppm]", "CO_A", "LEL", "Sauerstoff in Vol.-%".
 *
 * Whole words only, and formulas as they are written: "CO" is not in "CO2", "No" is a number and "Co" is cobalt.
 * Two gases in one heading, sums (VOC, NOx) and headings without a gas give null with the reason.
 *
 * @param label the heading as it stands in the file
 * @returns gas, unit, how sure, and reasons; `sureness` is about the gas
 * @example
 * ```ts
 * import { labelMeaning } from "./gas-label.ts";
 * labelMeaning("H₂S [ppm]").gas; // => "hydrogen_sulphide"
 * labelMeaning("CO_A").gas; // => "carbon_monoxide"
 * labelMeaning("% UEG").gas; // => "flammable, gas not said"
 * labelMeaning("CO/H2S").reasons; // => [{ "code": "several-gases", "line": null, "text": "CO, H2S" }]
 * labelMeaning("No.").gas; // => null
 * ```
 *
 * Source: formulas and names as `substanceByName`; words of headings: common practice.
 */
export function labelMeaning(label: string): LabelMeaning {
  const unit = unitInLabel(label);
  const { found, rest } = wordsIn(label);
  const sum = found.find((one) => one.gas === "sum");
  if (sum !== undefined) return { gas: null, unit, sureness: "strong", reasons: [sum.reason] };
  const gases = [...new Set(found.map((one) => one.gas).filter((gas) => gas !== "flammable, gas not said"))];
  const flammables = found.filter((one) => one.gas === "flammable, gas not said");
  if (gases.length > 1 || (flammables.length > 0 && gases.some((gas) => flammable(gas) === null))) return severalGases(found, unit);
  const first = found.find((one) => one.gas === gases[0]) ?? flammables[0];
  if (first === undefined) return { gas: null, unit, sureness: "strong", reasons: [{ code: "no-gas-word", line: null, text: null }] };
  const doubts = doubtsAbout(first, { unit, rest, besideFlammable: gases.length > 0 && (flammables.length > 0 || unit === "%LEL") });
  const reasons = [
    first.reason,
    ...(unit === null ? [] : [{ code: "unit" as const, line: null, text: unit }]),
    ...doubts.map((doubt) => doubt.reason),
  ];
  // A sum was answered above, so what is left is a gas or "flammable".
  return {
    gas: first.gas as GasId | "flammable, gas not said",
    unit,
    sureness: least([first.sureness, ...doubts.map((doubt) => doubt.sureness)]),
    reasons,
  };
}

/**
 * The same in the form in which the reader of tables wants it handed in: null where the heading names no gas, gas
 * null where it names flammable gas without saying which.
 *
 * @example
 * ```ts
 * import { gasInLabel } from "./gas-label.ts";
 * gasInLabel("O2")?.gas; // => "oxygen"
 * gasInLabel("LEL")?.gas; // => null
 * gasInLabel("Battery"); // => null
 * ```
 */
export function gasInLabel(
  label: string,
): { readonly gas: GasId | null; readonly sureness: LabelSureness; readonly reasons: readonly LabelReason[] } | null {
  const { gas, sureness, reasons } = labelMeaning(label);
  if (gas === null) return null;
  return { gas: gas === "flammable, gas not said" ? null : gas, sureness, reasons };
}

const severalGases = (found: readonly Found[], unit: LabelMeaning["unit"]): LabelMeaning => ({
  gas: null,
  unit,
  sureness: "strong",
  reasons: [{ code: "several-gases", line: null, text: found.map((one) => one.reason.text).join(", ") }],
});

interface Doubt {
  readonly sureness: LabelSureness;
  readonly reason: LabelReason;
}

function doubtsAbout(
  found: Found,
  {
    unit,
    rest,
    besideFlammable,
  }: { readonly unit: LabelMeaning["unit"]; readonly rest: readonly string[]; readonly besideFlammable: boolean },
): readonly Doubt[] {
  const doubt = (sureness: LabelSureness, code: LabelReason["code"], text: string | null): Doubt => ({
    sureness,
    reason: { code, line: null, text },
  });
  const computed = rest.filter((word) => COMPUTED_WORDS.has(plainName(word)));
  const others = rest.filter((word) => word.length > 2 && !COMPUTED_WORDS.has(plainName(word)));
  return [
    ...(besideFlammable ? [doubt("strong", "calibration-gas-perhaps", found.reason.text)] : []),
    ...(found.gas === "nitric_oxide" && found.reason.code === "formula" && unit === null
      ? [doubt("weak", "number-perhaps", found.reason.text)]
      : []),
    ...(found.sureness === "weak" && found.gas === "flammable, gas not said" && unit !== "%LEL"
      ? [doubt("weak", "everyday-word", found.reason.text)]
      : []),
    ...(computed.length > 0 ? [doubt("weak", "no-reading-perhaps", computed.join(" "))] : []),
    ...(others.length > 0 ? [doubt("strong", "other-words", others.join(" "))] : []),
  ];
}

const ORDER: readonly LabelSureness[] = ["weak", "strong", "certain"];
const least = (all: readonly LabelSureness[]): LabelSureness => ORDER.find((one) => all.includes(one)) ?? "certain";

/** Letters, figures and nothing else; subscripts become plain figures, case stays. */
const pieces = (label: string): readonly string[] =>
  label
    .normalize("NFKC")
    .split(/[^\p{L}\p{N}']+/u)
    .filter((piece) => piece !== "");

const LONGEST_NAME = 6;

/** Reads from the left, the longest name first, so that "carbon dioxide" is never carbon and something. */
function wordsIn(label: string): { readonly found: readonly Found[]; readonly rest: readonly string[] } {
  const words = pieces(label);
  const found: Found[] = [];
  const rest: string[] = [];
  for (let at = 0; at < words.length; ) {
    const next = longestAt(words, at);
    if (next !== null) found.push(next);
    else if (!isPlain(words[at] ?? "")) rest.push(words[at] ?? "");
    at += next?.words ?? 1;
  }
  return { found, rest };
}

function longestAt(words: readonly string[], at: number): Found | null {
  for (let length = Math.min(LONGEST_NAME, words.length - at); length >= 1; length -= 1) {
    const text = words.slice(at, at + length).join(" ");
    const found = (length === 1 ? formulaOf(text) : null) ?? nameOf(text, length);
    if (found !== null) return found;
  }
  return null;
}

const isPlain = (word: string): boolean =>
  word.length < 2 ||
  /^\d+$/u.test(word) ||
  PLAIN_WORDS.has(plainName(word)) ||
  unitFromText(word) !== null ||
  /^(?:vol|m3|mol|v|[mu\u03bc]g|cbm)$/iu.test(word);

/** CO, H2S, EtO, MEK: short forms whose letters say something by their case. */
const gasesByForm: ReadonlyMap<string, readonly { readonly form: string; readonly gas: GasId }[]> = shortForms();

function shortForms(): ReadonlyMap<string, readonly { readonly form: string; readonly gas: GasId }[]> {
  const forms = new Map<string, { readonly form: string; readonly gas: GasId }[]>();
  for (const one of substances) {
    for (const form of new Set([one.formula ?? "", ...one.synonyms, ...(OTHER_NAMES[one.id] ?? [])])) {
      if (!/^(?=.*[A-Z\d].*[A-Z\d])[A-Za-z\d]{2,7}$/u.test(form)) continue;
      forms.set(form.toUpperCase(), [...(forms.get(form.toUpperCase()) ?? []), { form, gas: one.id }]);
    }
  }
  return forms;
}

function formulaOf(word: string): Found | null {
  const fitting = (gasesByForm.get(word.toUpperCase()) ?? []).filter(({ form }) => caseFits(word, form));
  const gases = [...new Set(fitting.map(({ gas }) => gas))];
  const gas = gases[0];
  if (gas === undefined || gases.length > 1) return null;
  const exact = fitting.some(({ form }) => word === form || (word === form.toUpperCase() && form.length > 2));
  if (EVERYDAY_WORDS.has(word.toLowerCase())) return made(gas, "weak", "everyday-word", word, 1);
  if (exact) return made(gas, "certain", "formula", word, 1);
  return made(gas, /\d/u.test(word) ? "strong" : "weak", "small-letters", word, 1);
}

/** As written, all capitals, or all small letters; "No" is a number, and small "no" is a word. */
const caseFits = (word: string, form: string): boolean =>
  word === form || (form.length > 2 && word === form.toUpperCase()) || (word === form.toLowerCase() && word !== "no");

function nameOf(text: string, words: number): Found | null {
  const plain = plainName(text);
  if (SUM_WORDS.has(plain)) return made("sum", "strong", "sum-of-gases", text, words);
  if (FLAMMABLE_WORDS.has(plain))
    return made("flammable, gas not said", DOUBTFUL_FLAMMABLE_WORDS.has(plain) ? "weak" : "certain", "flammable-word", text, words);
  // A short form was judged by its case already.
  if (gasesByForm.has(text.toUpperCase())) return null;
  const gases = gasesNamed(text);
  const gas = gases[0];
  if (gas === undefined || gases.length > 1) return null;
  if (EVERYDAY_WORDS.has(plain)) return made(gas, "weak", "everyday-word", text, words);
  return made(gas, "certain", "name", text, words);
}

const made = (gas: Found["gas"], sureness: LabelSureness, code: LabelReason["code"], text: string, words: number): Found => ({
  gas,
  sureness,
  reason: { code, line: null, text },
  words,
});

/**
 * The unit that a heading names: in brackets, at the end, or after an underscore; the longest that reads as one.
 *
 * @example
 * ```ts
 * import { unitInLabel } from "./gas-label.ts";
 * unitInLabel("Sauerstoff in Vol.-%"); // => "vol%"
 * unitInLabel("O2 (%)"); // => "ambiguous per cent"
 * unitInLabel("Battery (V)"); // => null
 * ```
 *
 * Source: common practice.
 */
export function unitInLabel(label: string): Unit | "ambiguous per cent" | null {
  const parts = label
    .normalize("NFKC")
    .split(/[\s_,;:]+/u)
    .filter((part) => part !== "");
  const bracketed = [...label.matchAll(/[([{]([^)\]}]*)[)\]}]/gu)].map((match) => match[1] ?? "");
  const windows = [4, 3, 2, 1].flatMap((length) =>
    parts
      .map((_, at) => parts.slice(at, at + length))
      .filter((window) => window.length === length)
      .map((window) => window.join(" ")),
  );
  const read = [...bracketed, ...windows].map(unitFromText);
  return read.find((unit) => unit !== null && unit !== "ambiguous per cent") ?? read.find((unit) => unit !== null) ?? null;
}
