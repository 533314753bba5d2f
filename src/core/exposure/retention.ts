/**
 * How long a record is kept at least. Nothing is deleted automatically: a date says until when a record must not go, not
 * when it goes. Local law decides; each rule shows its source and how far it may be trusted.
 */
import type { Mark } from "../gas/index.ts";
import { given, type Result, refused } from "../result.ts";
import { type DateRefusal, type DateText, datePlusYears } from "../time/index.ts";

export type RetentionClass =
  | "us-exposure-record"
  | "us-exposure-background-data"
  | "us-formaldehyde-monitoring"
  | "us-entry-permit"
  | "gb-monitoring-identifiable"
  | "gb-monitoring-other"
  | "eu-carcinogen-exposure"
  | "eu-reprotoxic-exposure";

/** The day from which a rule counts. */
export type RetentionStart = "date of the record" | "day the permit was cancelled" | "last entry" | "end of exposure";

export interface RetentionRule {
  readonly class: RetentionClass;
  readonly years: number;
  readonly from: RetentionStart;
  readonly rule: string;
  /** What must hold for the rule to be enough; null = nothing. */
  readonly condition: string | null;
  readonly source: string;
  readonly mark: Mark;
}

export const RETENTION_RULES: Readonly<Record<RetentionClass, RetentionRule>> = {
  "us-exposure-record": {
    class: "us-exposure-record",
    ...{ years: 30, from: "date of the record", rule: "29 CFR 1910.1020(d)(1)(ii)", condition: null },
    ...{ source: "reprints: University of Iowa records schedule; WAC 296-802-20010", mark: "read" },
  },
  "us-exposure-background-data": {
    class: "us-exposure-background-data",
    ...{ years: 1, from: "date of the record", rule: "29 CFR 1910.1020(d)(1)(ii)(A)" },
    condition: "results, sampling method, analytical and mathematical methods and a summary of the other background data are kept 30 years",
    ...{ source: "reprints: University of Iowa records schedule; WAC 296-802-20010", mark: "read" },
  },
  "us-formaldehyde-monitoring": {
    class: "us-formaldehyde-monitoring",
    ...{ years: 30, from: "date of the record", rule: "29 CFR 1910.1048(o)", condition: null },
    ...{ source: "WAC 296-856-20070, read; the federal paragraph from memory", mark: "read" },
  },
  "us-entry-permit": {
    class: "us-entry-permit",
    ...{ years: 1, from: "day the permit was cancelled", rule: "29 CFR 1910.146(e)(6), (f)(10)" },
    condition: "no test result on it shows what a worker was actually exposed to",
    ...{ source: "OSHA letters of 10 December 1996 and 3 November 2023", mark: "read" },
  },
  "gb-monitoring-identifiable": {
    class: "gb-monitoring-identifiable",
    ...{ years: 40, from: "last entry", rule: "COSHH 2002 reg. 10(5)(a)", condition: null },
    ...{ source: "read in the Northern Ireland text, SR 2003/34 reg. 10; Great Britain the same from memory", mark: "read" },
  },
  "gb-monitoring-other": {
    class: "gb-monitoring-other",
    ...{
      years: 5,
      from: "last entry",
      rule: "COSHH 2002 reg. 10(5)(b)",
      condition: "the record does not represent the personal exposure of identifiable employees",
    },
    ...{ source: "read in the Northern Ireland text, SR 2003/34 reg. 10; Great Britain the same from memory", mark: "read" },
  },
  "eu-carcinogen-exposure": {
    class: "eu-carcinogen-exposure",
    ...{ years: 40, from: "end of exposure", rule: "Directive 2004/37/EC art. 15", condition: null },
    ...{ source: "Directive 2004/37/EC", mark: "memory" },
  },
  "eu-reprotoxic-exposure": {
    class: "eu-reprotoxic-exposure",
    ...{
      years: 5,
      from: "end of exposure",
      rule: "Directive 2004/37/EC art. 15",
      condition: "the substance is a reprotoxic one that is neither carcinogen nor mutagen",
    },
    ...{ source: "Directive 2004/37/EC as amended in 2022", mark: "memory" },
  },
};

export interface KeptUnder {
  readonly rule: RetentionRule;
  readonly from: string;
  readonly keepUntilAtLeast: DateText;
}

export interface Retention {
  /** The latest of all the dates below. */
  readonly keepUntilAtLeast: DateText;
  readonly decidedBy: RetentionRule;
  readonly rules: readonly KeptUnder[];
}

export type RetentionRefusal = DateRefusal | { readonly type: "no-retention-class" };

/**
 * Until when a record is kept at least: of several rules the one that ends last.
 *
 *     keep until at least = day from which the rule counts + years; a day that does not exist in that year becomes the next later one [ours]
 *
 * @param claims one or more: the class and the day from which its rule counts (yyyy-mm-dd); see `RETENTION_RULES` for which day.
 * @example
 * ```ts
 * import { retentionOf } from "./retention.ts";
 * const kept = retentionOf([
 *   { class: "us-entry-permit", from: "2026-05-10" },
 *   { class: "us-exposure-record", from: "2026-05-10" },
 * ]);
 * kept.ok && [kept.value.keepUntilAtLeast, kept.value.decidedBy.years]; // => ["2056-05-10", 30]
 * ```
 */
export function retentionOf(
  claims: readonly { readonly class: RetentionClass; readonly from: string }[],
): Result<Retention, RetentionRefusal> {
  const rules: KeptUnder[] = [];
  for (const claim of claims) {
    const rule = RETENTION_RULES[claim.class];
    const until = datePlusYears(claim.from, rule.years);
    if (!until.ok) return until;
    rules.push({ rule, from: claim.from, keepUntilAtLeast: until.value });
  }
  // Dates of this form sort as texts.
  const last = rules.reduce<KeptUnder | null>(
    (latest, next) => (latest === null || next.keepUntilAtLeast > latest.keepUntilAtLeast ? next : latest),
    null,
  );
  return last === null
    ? refused({ type: "no-retention-class" })
    : given({ keepUntilAtLeast: last.keepUntilAtLeast, decidedBy: last.rule, rules });
}

/**
 * The classes of a test result on a US entry permit. One that shows what a worker was actually exposed to, respirator or
 * not, is an exposure record as well (OSHA letter of 26 November 1996 [read]; the reply of 3 November 2023 revisits it: read
 * it before a site sets its default). One that only kept people out is not [memory].
 *
 * @param result showsActualExposure: null where nobody has said yet. Unknown is kept as long as the longer rule asks.
 * @example
 * ```ts
 * import { classesOfPermitResult } from "./retention.ts";
 * classesOfPermitResult({ showsActualExposure: false }); // => ["us-entry-permit"]
 * classesOfPermitResult({ showsActualExposure: null }); // => ["us-entry-permit", "us-exposure-record"]
 * ```
 */
export function classesOfPermitResult({
  showsActualExposure,
}: {
  readonly showsActualExposure: boolean | null;
}): readonly RetentionClass[] {
  return showsActualExposure === false ? ["us-entry-permit"] : ["us-entry-permit", "us-exposure-record"];
}
