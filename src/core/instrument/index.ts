/** Instruments and their proof: what entries say, their forms, the site's rules. */
export type * from "./bodies.ts";
export { type FirstRules, firstRules, type Site } from "./first-rules.ts";
export type { Contradiction } from "./form-contradiction.ts";
export { type Envelope, type EnvelopeFault, envelopeFault, groundsFault } from "./form-fit.ts";
export { type KnownEntry, type MisfitEntry, type ReadEntry, readBody, type WhatIsRead } from "./form-read.ts";
export { type NotSayable, placeText, type Sayable, type SayFault, type Saying, sayable } from "./form-say.ts";
export { type Misfit, type Place, type Schema, schemaCheck, type Unfit } from "./form-schema.ts";
export {
  type Count,
  type EntryForm,
  FORMS,
  type FormTable,
  formTable,
  type GroundRule,
  newestForm,
  type Raise,
  type RoleRule,
} from "./form-table.ts";
export { isNoLonger } from "./period-order.ts";
export { nextWorkingDay, type RuleAgreement, type RuleChange, type RulesInForce, ruleSetAt, rulesOverTime } from "./rule-change.ts";
export { type RuleDifference, ruleDifference } from "./rule-order.ts";
export { BINDING_TEXTS, type BindingText, periodsAsked, unknownTexts, wallsMet, wallsOf } from "./rule-walls.ts";
export { type ShiftSpan, shiftSpan } from "./shift-span.ts";
export { type Named, namedBy, namedLike } from "./things/scanned.ts";
export * from "./things/things.ts";
export { inRole, type Told } from "./things/told.ts";
