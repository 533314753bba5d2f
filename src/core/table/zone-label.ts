/** Which clock a heading or a units row says the times are on: `Time (UTC)`, `+01:00`, `time_utc`, `Time [Europe/Paris]`. */
import { zoneClock } from "../time/index.ts";

/**
 * The zone that a label or a cell of the units row names; null where it names none.
 *
 * UTC and GMT count in any case, Z as a capital of its own, offsets with a sign, and zone names of the IANA database.
 * Letters such as EST or CET mean different offsets in different places (common practice), so they name none.
 *
 * @param text a label, or a cell of the units row.
 * @example
 * ```ts
 * import { zoneInText } from "./zone-label.ts";
 * [zoneInText("Time (UTC)"), zoneInText("time_utc"), zoneInText("GMT-5"), zoneInText("+0530")]; // => ["UTC", "UTC", "-05:00", "+05:30"]
 * [zoneInText("Time [Europe/Paris]"), zoneInText("Time (EST)"), zoneInText("Time")]; // => ["Europe/Paris", null, null]
 * ```
 */
export function zoneInText(text: string): string | null {
  const named = /(?:^|[\s([,])([A-Za-z]{3,}(?:\/[A-Za-z_+-]+){1,2})(?=$|[\s)\],])/.exec(text)?.[1];
  const known = named === undefined ? null : zoneClock(named);
  if (known?.ok === true) return known.value.zone;
  const offset = /(?:^|[\s([_,]|UTC|GMT)([+-])(\d{1,2})(?::?([0-5]\d))?(?=$|[\s)\],])/i.exec(text);
  if (offset !== null) {
    const zone = `${offset[1]}${(offset[2] as string).padStart(2, "0")}:${offset[3] ?? "00"}`; // the pattern has this group
    return zoneClock(zone).ok ? zone : null;
  }
  return /(?:^|[\s([_,]|[a-z](?=UTC|GMT))(?:UTC|GMT|utc|gmt|Utc|Gmt|Z)(?=$|[\s)\],_])/.test(text) ? "UTC" : null;
}

/** A cell of the units row that says a zone and nothing else. */
export const isZoneText = (text: string): boolean =>
  /^[([]?(?:(?:UTC|GMT)(?:\s?[+-]\d{1,2}(?::?\d\d)?)?|Z|[+-]\d\d(?::?\d\d)?|[A-Za-z]{3,}(?:\/[A-Za-z_+-]+){1,2})[)\]]?$/i.test(text) &&
  zoneInText(text) !== null;

/** True where two names stand for the same clock: UTC has several. */
export const isSameClock = (one: string, other: string): boolean => plainZone(one) === plainZone(other);

function plainZone(text: string): string {
  const clock = zoneClock(text);
  const zone = clock.ok ? clock.value.zone : text;
  return /^(?:UTC|GMT|[+-]00:00|Etc\/(?:UTC|GMT|UCT|Zulu|Universal|Greenwich)|Zulu|UCT|Universal)$/.test(zone) ? "UTC" : zone;
}
