import type { Instant } from "../time/instant.ts";

/**
 * A named person's statement about time that the data cannot speak for. `levelText` is the digits as typed, in the
 * unit of the channel. `holds`: "at any moment" serves averages, short windows and ceilings alike; "as an average"
 * serves only a period that contains the whole stretch.
 */
export type Declaration = {
  readonly id: string;
  readonly channel: string | "*";
  readonly from: Instant | null;
  readonly to: Instant | null;
  readonly by: string;
  readonly on: string;
  readonly reason: string;
} & (
  | { readonly kind: "unexposed" }
  | { readonly kind: "like the sampled time" }
  | { readonly kind: "worst case"; readonly levelText: string; readonly holds: "at any moment" | "as an average" }
  /** An upper bound for readings that were over range. */
  | { readonly kind: "over-range bound"; readonly levelText: string; readonly holds: "at any moment" | "as an average" }
);
