import type { Unit } from "../quantity/unit.ts";
import type { Reason, Sureness } from "./question.ts";

/**
 * Words for gases and units, handed in: this room knows tables, not gases. The rooms quantity and gas have the real
 * ones.
 */
export interface Vocabulary {
  /** "ambiguous per cent": vol % and %LEL look the same, so a person is asked. */
  readonly unitFromText: (text: string) => Unit | "ambiguous per cent" | null;
  /** Null = the label names no gas. Gas null = it names flammable gas without saying which. */
  readonly gasInLabel: (label: string) => GasInLabel | null;
}

export interface GasInLabel {
  readonly gas: string | null;
  readonly sureness: Sureness;
  readonly reasons: readonly Reason[];
}
