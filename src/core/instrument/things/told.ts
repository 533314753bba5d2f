/** An entry as the lists of things read it: known, well formed, and not voided. */
import type { Bodies, Kind, PrivateParts } from "../bodies.ts";

interface ToldOf<Name extends Kind> {
  readonly number: number;
  readonly submission: string;
  readonly kind: Name;
  readonly by: string | null;
  readonly subjects: readonly { readonly role: string; readonly id: string }[];
  /** Milliseconds since 1970. */
  readonly happened: { readonly earliest: number; readonly latest: number };
  readonly body: Bodies[Name];
  /** Null where there is none, or it was disposed of. */
  readonly private: Name extends keyof PrivateParts ? PrivateParts[Name] | null : null;
}

export type Told = { [Name in Kind]: ToldOf<Name> }[Kind];

/** The one thing in a part; null where nobody is named in it. */
export const inRole = (told: Pick<Told, "subjects">, role: string): string | null =>
  told.subjects.find((one) => one.role === role)?.id ?? null;
