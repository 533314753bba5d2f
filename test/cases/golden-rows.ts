import exposure from "./goldens/exposure.json" with { type: "json" };
import formats from "./goldens/formats.json" with { type: "json" };
import statistics from "./goldens/statistics.json" with { type: "json" };

/** One published check value; the shapes of inputs and expectations differ from topic to topic. */
export interface GoldenRow {
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

const files: Readonly<Record<string, readonly GoldenRow[]>> = { exposure, formats, statistics };

/** One case by its id; a missing one fails the test that asks. */
export function goldenRow(id: string): GoldenRow {
  const found = Object.values(files)
    .flat()
    .find((row) => row.id === id);
  if (found === undefined) throw new Error(`no golden has the id ${id}`);
  return found;
}

/** Name of a test that stands on a case: its id, what it says, where it is published. */
export const nameOf = (id: string): string => {
  const { statement, source, mark } = goldenRow(id);
  return `${id}: ${statement} [${source}; ${mark}]`;
};

/** The value of an answer that must not be refused. */
export function answerOf<Value>(
  answer: { readonly ok: true; readonly value: Value } | { readonly ok: false; readonly refusal: unknown },
): Value {
  if (!answer.ok) throw new Error(JSON.stringify(answer.refusal));
  return answer.value;
}
