/** An instant: whole milliseconds since 1970-01-01T00:00:00Z, leap seconds not counted. */
export type Instant = number & { readonly __brand: "Instant" };

/** A half-open stretch of time [from, to). */
export interface Span {
  readonly from: Instant;
  readonly to: Instant;
}
