import { isDeepStrictEqual } from "node:util";

export type Same = (line: number, given: unknown, wanted: unknown) => void;

/** Runs one example and prints, on one line, what differed from what it promises. */
export async function example(name: string, run: (same: Same) => Promise<void>): Promise<void> {
  const complaints: string[] = [];
  let compared = 0;
  const same: Same = (line, given, wanted) => {
    compared++;
    if (!isSame(given, wanted)) complaints.push(`line ${line}: gives ${shown(given)}, the example says ${shown(wanted)}`);
  };
  try {
    await run(same);
    if (compared === 0) complaints.push("compared nothing");
  } catch (fault) {
    complaints.push(`threw ${String(fault)}`);
  }
  process.stdout.write(`example ${JSON.stringify({ name, complaints })}\n`);
}

/** Equal as JSON would show them, numbers within a billionth of their size. */
export function isSame(given: unknown, wanted: unknown): boolean {
  if (typeof given === "number" && typeof wanted === "number") {
    return Object.is(given, wanted) || given === wanted || Math.abs(given - wanted) <= 1e-9 * Math.max(Math.abs(given), Math.abs(wanted));
  }
  if (ArrayBuffer.isView(given) && Array.isArray(wanted)) return isSame([...(given as Float64Array)], wanted); // Any typed array spreads to numbers.
  if (Array.isArray(given) && Array.isArray(wanted)) {
    return given.length === wanted.length && given.every((one, index) => isSame(one, wanted[index]));
  }
  if (isPlain(given) && isPlain(wanted)) {
    const names = namesWithValue(wanted);
    return isDeepStrictEqual(namesWithValue(given), names) && names.every((name) => isSame(given[name], wanted[name]));
  }
  return isDeepStrictEqual(given, wanted);
}

const isPlain = (value: unknown): value is Record<string, unknown> =>
  typeof value === "object" &&
  value !== null &&
  !Array.isArray(value) &&
  !ArrayBuffer.isView(value) &&
  !(value instanceof Map) &&
  !(value instanceof Set);

/** A field that is undefined is not there, as in JSON. */
const namesWithValue = (value: Record<string, unknown>) =>
  Object.keys(value)
    .filter((name) => value[name] !== undefined)
    .sort();

const shown = (value: unknown) =>
  JSON.stringify(value, (_, inner) =>
    typeof inner === "bigint" ? `${inner}n` : typeof inner === "number" && !Number.isFinite(inner) ? String(inner) : inner,
  ) ?? "undefined";
