/** How far a device's clock was ahead as its call left, as far as the exchange can tell. */

/** Clocks are told in whole milliseconds. */
const STEP_MS = 1;

/**
 * The call left the device at `sentMs` of its clock and came in here at `receivedMs`; it was under way for anything from
 * nothing to the round trip. Null where nobody measured a round trip: then the way may have been of any length.
 */
export function clockOffset(
  sentMs: number,
  receivedMs: number,
  roundTripMs: number | null,
): { readonly lowest: number; readonly highest: number } | null {
  if (roundTripMs === null) return null;
  const lowest = Math.floor(sentMs - receivedMs) - STEP_MS;
  return { lowest, highest: lowest + 2 * STEP_MS + Math.ceil(roundTripMs) };
}
