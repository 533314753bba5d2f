/** What the room `report` offers: words and digits for everything that core and work answer. Nothing else rounds. */

export { bookBegunWords, broughtBackWords, exportedWords } from "./book-words.ts";
export type { ExitCode } from "./catalogue.ts";
export * from "./clock-words.ts";
export { counted, countText, decimalsFor, exactText, NARROW_SPACE, percentText, type Rounding, roundedText } from "./digits.ts";
export type { CallRefusal, DoorRefusal, SlateRefusal } from "./door-refusal.ts";
export { envelopeWords, notSayableWords, placeWords, unfitWords, unreadWords } from "./entry-fault-words.ts";
export { codeWords, kindWords, roleWords } from "./entry-words.ts";
export * from "./errors.ts";
export type { AskedRefusal, RefusalOfBook } from "./errors-of-book.ts";
export type { RefusalOfFile } from "./errors-of-files.ts";
export { ONE_LEVEL_FOR_SEVERAL_UNITS, SHIFT_LONGER_THAN_A_DAY, sentencesOf } from "./errors-of-forms.ts";
export { exportReadme } from "./export-readme.ts";
export * from "./figure.ts";
export * from "./finding-words.ts";
export * from "./gas-words.ts";
export { byGravity, type Weighed } from "./gravity.ts";
export * from "./grounds-words.ts";
export * from "./limit-words.ts";
export { nearestNames } from "./nearest-name.ts";
export * from "./not-compared-words.ts";
export * from "./question-words.ts";
export { isRequestReason, REQUEST_REASONS, type RequestReason, reasonWords } from "./request-words.ts";
export { changeWords, periodWords, settingWords, wallWords } from "./rule-words.ts";
export { markSentence } from "./senml-words.ts";
export { type ShownUnit, shownUnit } from "./shown-unit.ts";
export { verifyWords } from "./verify-words.ts";
export * from "./visible-text.ts";
