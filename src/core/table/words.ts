/** Texts that stand where a reading should, and numbers that are none (common practice; every one is asked about). */

export type WordMeaning = "over range" | "under range" | "no reading" | "fault";

const WORDS: Readonly<Record<WordMeaning, readonly string[]>> = {
  "over range": [
    "over",
    "or",
    "+or",
    "ol",
    "+ol",
    "o.l.",
    "ovr",
    "ovrng",
    "over range",
    "over-range",
    "overrange",
    "over limit",
    "hi",
    "high",
    "max",
    "sat",
    "saturated",
    "***",
    "****",
    "*****",
    "+++",
    "++++",
    ">>>",
    "^^^",
  ],
  "under range": [
    "under",
    "-or",
    "ur",
    "-ol",
    "under range",
    "under-range",
    "underrange",
    "lo",
    "low",
    "<loq",
    "<lod",
    "<lq",
    "<mdl",
    "bdl",
    "<<<",
    "vvv",
  ],
  "no reading": [
    "-",
    "--",
    "---",
    "----",
    "-----",
    "–",
    "—",
    "n/a",
    "na",
    "n.a.",
    "#n/a",
    "null",
    "none",
    "nil",
    "no data",
    "nodata",
    "no reading",
    "missing",
    "void",
    "blank",
    "?",
    "??",
    ".",
  ],
  fault: [
    "err",
    "error",
    "err.",
    "fault",
    "fail",
    "failed",
    "sensor fault",
    "off",
    "disabled",
    "warm",
    "warmup",
    "warm-up",
    "warming up",
    "init",
    "cal",
    "zero",
    "bad",
    "invalid",
    "#value!",
    "#ref!",
    "#div/0!",
    "#num!",
  ],
};

const meaningsByWord: ReadonlyMap<string, WordMeaning> = new Map(
  (Object.entries(WORDS) as [WordMeaning, readonly string[]][]).flatMap(([meaning, words]) =>
    words.map((word): [string, WordMeaning] => [word, meaning]),
  ), // the keys of WORDS are its meanings
);

/** What a word is likely to mean; null for a word that is not in the list. */
export const likelyMeaning = (text: string): WordMeaning | null => meaningsByWord.get(text.trim().toLowerCase()) ?? null;

/** IEEE 754's own text for "not a number" says what it means: no reading, without a question. */
export const isNotANumberText = (text: string): boolean => text.length >= 3 && text.length <= 4 && /^[+-]?nan$/i.test(text);

/** Numbers that loggers write for "no reading" or "over range" (common practice). */
const SENTINELS: ReadonlySet<number> = new Set([
  -99, -100, -200, -888, -999, -7777, -8888, -9999, -99_999, -32_768, -2_147_483_648, 9_999, 99_999, 999_999, 32_767, 65_534, 65_535,
  2_147_483_647, 4_294_967_295,
]);

export const isSentinelNumber = (value: number): boolean => SENTINELS.has(value);

/** Sentinels that are the largest number of a binary width: as likely over range as no reading. */
export const isWidthLimit = (value: number): boolean =>
  value === 65_535 || value === 65_534 || value === 32_767 || value === 2_147_483_647 || value === 4_294_967_295;

/** Words at the head of a line of totals. */
export const isTotalsWord = (text: string): boolean =>
  /^(?:total|sum|mean|average|avg|max|maximum|min|minimum|peak|twa|stel|end|count|median|std|summe|mittel|mittelwert|moyenne|gesamt)\b/i.test(
    text.trim(),
  );
