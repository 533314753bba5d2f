/** A standing as the views take it: what core found, in codes, the gravest reason first. */
import type { Duty, Source } from "../../core/instrument/index.ts";

export interface GivenReason {
  readonly rule: string;
  /** Code of what was found. */
  readonly code: string;
  /** Null = the whole instrument. */
  readonly gas: string | null;
  readonly entries: readonly number[];
  /** Null where nothing speaks against it: evidence is missing. */
  readonly whoReturns: readonly Duty[] | null;
  readonly source: Source | null;
  /** A thing that it is about, a cylinder for instance; the same cause on many instruments names the same one. */
  readonly thing: { readonly role: string; readonly id: string } | null;
}

export interface GivenStanding {
  readonly mark: "proven" | "not proven" | "withdrawn";
  /** Milliseconds since 1970; null where it is not proven. */
  readonly until: number | null;
  readonly reasons: readonly GivenReason[];
  readonly gases: readonly { readonly gas: string; readonly mark: "proven" | "not proven" | "withdrawn"; readonly until: number | null }[];
}
