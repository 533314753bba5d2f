export { fingerprintOfTexts } from "./fingerprint.ts";
export type { ColumnMapping, ColumnRole, Dialect, Encoding, TableMapping, TimeForm, TimeMapping, WordMapping } from "./mapping.ts";
export { readNumber, textOfExact } from "./number-text.ts";
export type * from "./question.ts";
export type * from "./reading.ts";
export { jsonFromMapping, type MappingRefusal, mappingFromJson } from "./saved-mapping.ts";
export { answerQuestions, readTable, surveyAndRead, surveyTable } from "./survey.ts";
export type { GasInLabel, Vocabulary } from "./vocabulary.ts";
export { lineOf, type WrittenColumn, type WrittenFor, writeTable } from "./write.ts";
