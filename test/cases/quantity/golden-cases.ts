import { convertQuantity, type QuantityParts, quantity, type Target } from "../../../src/core/quantity/index.ts";
import chemicals from "../goldens/chemicals.json" with { type: "json" };
import exposure from "../goldens/exposure.json" with { type: "json" };
import formats from "../goldens/formats.json" with { type: "json" };
import sensing from "../goldens/sensing.json" with { type: "json" };

/** One published check value; the shapes of inputs and expectations differ from topic to topic. */
export interface GoldenCase {
  readonly id: string;
  readonly topic: string;
  readonly statement: string;
  // biome-ignore lint/suspicious/noExplicitAny: each topic has fields of its own, and the test that reads them names them
  readonly inputs: any;
  // biome-ignore lint/suspicious/noExplicitAny: as above
  readonly expected: any;
  readonly tolerance: unknown;
  readonly source: string;
  readonly mark: string;
}

const files: Readonly<Record<string, readonly GoldenCase[]>> = { chemicals, exposure, formats, sensing };

/** The cases of a topic, as rows for `test.each`: name, then the case. An empty topic would be a test that cannot fail. */
export function goldenCases(file: string, topic: string, count: number): readonly (readonly [string, GoldenCase])[] {
  const cases = (files[file] ?? []).filter((one) => one.topic === topic);
  if (cases.length !== count) throw new Error(`${file}/${topic} holds ${cases.length} cases, not ${count}`);
  return cases.map((one) => [`${one.id}: ${one.statement} [${one.source}; ${one.mark}]`, one]);
}

/** One case by its id. */
export function goldenCase(file: string, id: string): GoldenCase {
  const found = (files[file] ?? []).find((one) => one.id === id);
  if (found === undefined) throw new Error(`${file} holds no case ${id}`);
  return found;
}

/** Difference that a relative tolerance allows. */
export const within = (given: number, wanted: number, relative: number): boolean => Math.abs(given - wanted) <= relative * Math.abs(wanted);

/** A conversion that must not be refused. */
export function convertedValue(parts: QuantityParts, to: Target): number {
  const from = quantity(parts);
  const moved = from.ok ? convertQuantity(from.value, to) : from;
  if (!moved.ok) throw new Error(moved.refusal.type);
  return moved.value.value;
}
