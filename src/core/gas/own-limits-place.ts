import { isIsoDate } from "./iso-date.ts";

/** One thing wrong with a file of own limits. */
export interface OwnLimitsFault {
  /** Place in the file: `limits[2].unit`; empty = the file as a whole. */
  readonly at: string;
  readonly why: OwnLimitsFaultCode;
  /** What stands there, as JSON, cut after 60 characters; null = nothing does. */
  readonly found: string | null;
}

export type OwnLimitsFaultCode =
  | "not-an-object"
  | "not-a-list"
  | "not-words"
  | "not-a-date"
  | "not-true-or-false"
  | "not-one-of-the-choices"
  | "unknown-field"
  | "unknown-gas"
  | "unknown-unit"
  | "unit-without-a-basis"
  | "not-a-number-above-nought"
  | "minutes-above-nought-up-to-1440"
  | "never-averaged"
  | "peak-below-ceiling"
  | "only-for-three-level"
  | "no-such-limit"
  | "replaces-another-gas-or-kind"
  | "replacement-without-official-text"
  | "own-limit-without-a-regime"
  | "regime-id-taken-or-not-in-capitals"
  | "ends-before-it-begins"
  | "given-twice";

/** A value in a JSON file that knows where it stands; what is wrong with it is noted, never thrown. */
export class Place {
  readonly value: unknown;
  readonly #at: string;
  readonly #faults: OwnLimitsFault[];

  constructor(value: unknown, at: string, faults: OwnLimitsFault[]) {
    this.value = value;
    this.#at = at;
    this.#faults = faults;
  }

  get isAbsent(): boolean {
    return this.value === undefined;
  }

  at(field: string): Place {
    const inner = isRecord(this.value) && Object.hasOwn(this.value, field) ? this.value[field] : undefined;
    return new Place(inner, this.#at === "" ? field : `${this.#at}.${field}`, this.#faults);
  }

  item(index: number): Place {
    return new Place(Array.isArray(this.value) ? this.value[index] : undefined, `${this.#at}[${index}]`, this.#faults);
  }

  complain(why: OwnLimitsFaultCode): void {
    this.#faults.push({ at: this.#at, why, found: this.isAbsent ? null : (JSON.stringify(this.value) ?? "").slice(0, 60) });
  }

  /** An object with none but these fields: a misspelt field must not pass for one that is absent. */
  record(fields: readonly string[]): Place {
    if (!isRecord(this.value)) this.complain("not-an-object");
    else for (const field of Object.keys(this.value)) if (!fields.includes(field)) this.at(field).complain("unknown-field");
    return this;
  }

  list(): readonly Place[] {
    if (Array.isArray(this.value)) return this.value.map((_, index) => this.item(index));
    this.complain("not-a-list");
    return [];
  }

  words(): string {
    if (typeof this.value === "string" && this.value.trim() !== "") return this.value.trim();
    this.complain("not-words");
    return "";
  }

  wordsIfAny(): readonly string[] {
    return this.isAbsent ? [] : this.list().map((item) => item.words());
  }

  date(): string {
    const text = this.words();
    if (text !== "" && !isIsoDate(text)) this.complain("not-a-date");
    return text;
  }

  truth(): boolean | null {
    if (this.isAbsent) return null;
    if (typeof this.value === "boolean") return this.value;
    this.complain("not-true-or-false");
    return null;
  }

  oneOf<Choice extends string>(choices: readonly Choice[]): Choice | null {
    const found = choices.find((choice) => choice === this.value);
    if (found === undefined) this.complain("not-one-of-the-choices");
    return found ?? null;
  }
}

const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === "object" && value !== null && !Array.isArray(value);
