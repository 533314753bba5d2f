import type { TableMapping } from "../../core/table/mapping.ts";
import type { Answers } from "../../core/table/question.ts";
import { forgetUnder, remember, remembered } from "../parts/remember.ts";

/** What a person confirmed about files with one heading: the mapping, and the answers that it came from. No reading. */
export interface KeptMapping {
  readonly mapping: TableMapping;
  readonly given: Answers;
}

export const keepMapping = (kept: KeptMapping): void => remember(`mapping/${kept.mapping.fingerprint}`, JSON.stringify(kept));

/** Whether it still fits is checked where it is used: the reader refuses one that does not. */
export const mappingKept = (fingerprint: string): KeptMapping | null => {
  const text = remembered(`mapping/${fingerprint}`);
  // Written by `keepMapping` alone.
  return text === null ? null : (JSON.parse(text) as KeptMapping);
};

export const forgetMapping = (fingerprint: string): void => remember(`mapping/${fingerprint}`, null);

/** Those of every heading; gives how many there were. */
export const forgetMappings = (): number => forgetUnder("mapping/");
