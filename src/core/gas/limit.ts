import type { LimitOperator } from "../outcome.ts";
import type { Unit } from "../quantity/unit.ts";

/** Lower case id of a substance, as in the limits table: `carbon_monoxide`, `hydrogen_sulphide`, `oxygen`. */
export type GasId = string & { readonly __brand: "GasId" };

export type RegimeId = "US-OSHA" | "US-NIOSH" | "GB-WEL" | "EU-IOELV" | "FR" | (string & { readonly __brand: "OwnRegime" });

/** How far a figure may be trusted: read in its source, recalled, worked out, or known in the trade. */
export type Mark = "read" | "memory" | "computed" | "common practice" | "own";

export type LimitKind =
  | "twa" // average over the reference period of the regime
  | "stel" // short-term: sliding mean, averagingMinutes long
  | "excursion" // as a short-term limit, under that name
  | "ceiling" // averagingMinutes null = at no instant; else a sliding mean
  | "any-shorter-period" // mean over any period not exceeding averagingMinutes
  | "three-level" // average, acceptable ceiling and maximum peak at once (Table Z-2)
  | "immediately-dangerous"; // never averaged: every reading at or above it is an event

export interface Source {
  readonly id: string;
  readonly title: string;
  readonly reprint?: string;
}

/** A published concentration: the digits as published, never a rounded conversion. */
export interface PublishedValue {
  readonly value: number;
  readonly unit: Unit;
}

export interface Limit {
  /** `US-OSHA/carbon_monoxide/twa`; unique in the table, stable over releases. */
  readonly id: string;
  readonly gas: GasId;
  readonly regime: RegimeId;
  readonly kind: LimitKind;
  /** Null only for a three-level row without an average of its own (hydrogen sulphide); see `threeLevel`. */
  readonly published: PublishedValue | null;
  /** The same limit in a second published unit, if any. Not an exact conversion. */
  readonly alsoPublished: PublishedValue | null;
  readonly operator: LimitOperator;
  readonly averagingMinutes: number | null;
  readonly threeLevel: ThreeLevel | null;
  readonly notes: readonly string[];
  /** The text says more than a number can: computed all the same, but a person settles a "within". Absent = nothing of the kind. */
  readonly textNeedsPerson?: string;
  /** The figure counts a part of the molecule only ("as F"); between ppm and mg/m3 a person decides. Absent = the whole molecule. */
  readonly statedAs?: string;
  readonly skin: boolean;
  readonly carcinogen: boolean;
  /**
   * ISO dates; null = open. The edition is chosen by the date of exposure: `validFrom` is the first day, and
   * `validUntil` the first day on which it holds no more.
   */
  readonly validFrom: string | null;
  readonly validUntil: string | null;
  readonly edition: string;
  readonly sources: readonly Source[];
  readonly mark: Mark;
}

/** Table Z-2 of 29 CFR 1910.1000: acceptable ceiling, and a maximum peak above it for at most so long. */
export interface ThreeLevel {
  readonly ceiling: number;
  readonly peak: number;
  readonly unit: Unit;
  readonly longestMinutes: number;
  /** The sliding window in which those minutes are counted; null = the shift. */
  readonly withinMinutes: number | null;
  /** One unbroken stretch only, and only if no other measurable exposure occurs. */
  readonly onceOnly: boolean;
}

/** What the table says of a gas under a regime; "not covered" is not "no limit". */
export type LimitsAnswer =
  /** `editionBy` "latest": no date of exposure was given, so the latest edition was taken and the reader must be told. */
  | { readonly status: "limits"; readonly limits: readonly Limit[]; readonly editionBy: "date" | "latest" }
  | { readonly status: "no limit"; readonly asPublished: string; readonly sources: readonly Source[]; readonly mark: Mark }
  | { readonly status: "not covered" };
