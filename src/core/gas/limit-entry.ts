import type { LimitOperator } from "../outcome.ts";
import type { Unit } from "../quantity/index.ts";
import type { LimitKind, Mark, ThreeLevel } from "./limit.ts";

/** What one source says of one substance, as carried over; `limit-table.ts` makes limits of it. */
export interface LimitEntry {
  readonly gas: string;
  /** The source's own words, where they were read. */
  readonly asPublished: string | null;
  /** Row of Table Z-1 as printed: substance | ppm | mg/m3. */
  readonly tableRow?: string;
  readonly sources: readonly string[];
  readonly mark: Mark;
  readonly skin?: true;
  readonly carcinogen?: true;
  readonly notes?: readonly string[];
  /** Empty: the table was looked at and holds no figure, which is not the same as not having been looked at. */
  readonly limits: readonly LimitRow[];
  /** What holds instead for a part of working life; never applied unless it is asked for by name. */
  readonly alternates?: readonly AlternateEntry[];
}

export interface LimitRow {
  readonly kind: LimitKind;
  readonly published: readonly [number, Unit] | null;
  readonly also?: readonly [number, Unit];
  readonly minutes: number | null;
  readonly threeLevel?: ThreeLevel;
  readonly operator?: LimitOperator;
  readonly textNeedsPerson?: string;
  readonly statedAs?: string;
  readonly validFrom?: string;
  readonly validUntil?: string;
}

export interface AlternateEntry {
  readonly id: string;
  readonly for: string;
  readonly limits: readonly LimitRow[];
  readonly sources: readonly string[];
  readonly mark: Mark;
}

export interface LimitSource {
  readonly id: string;
  readonly title: string;
  /** How a part that is named after the colon of an id reads: "record {part}". */
  readonly part?: string;
  readonly edition: string;
  readonly reprint?: string;
  readonly live?: string;
}
