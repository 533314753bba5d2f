/** What a scanned or typed text names: a tag, a serial, a cylinder, a badge. */
import type { Things } from "./things.ts";

export interface Named {
  readonly sort: "instrument" | "sensor" | "cylinder" | "line-part" | "station" | "place" | "person";
  readonly id: string;
  /** The text by which it is found. */
  readonly text: string;
}

const plain = (text: string): string => text.trim().toUpperCase().replace(/\s+/g, " ");

/**
 * Things that a text names exactly, capitals and spaces around it aside: a scanner must never pick the nearest. Several
 * are given where several bear the same text; the caller asks. Retired things are found too.
 *
 * @example
 * ```ts
 * import { namedBy } from "./scanned.ts";
 * import { thingsAt } from "./things.ts";
 * namedBy(thingsAt([], 0), "MB-01"); // => []
 * ```
 * Source: ours. Never refuses.
 */
export function namedBy(things: Things, text: string): readonly Named[] {
  const wanted = plain(text);
  return wanted === "" ? [] : [...everyName(things)].filter((named) => plain(named.text) === wanted);
}

/**
 * Things whose names hold a part of a text, at most so many, in the order instruments, cylinders, people, then others:
 * for a list to choose from while typing.
 *
 * @example
 * ```ts
 * import { namedLike } from "./scanned.ts";
 * import { thingsAt } from "./things.ts";
 * namedLike(thingsAt([], 0), "MB", 8); // => []
 * ```
 * Source: ours. Never refuses.
 */
export function namedLike(things: Things, part: string, most: number): readonly Named[] {
  const wanted = plain(part);
  const found: Named[] = [];
  if (wanted === "") return found;
  for (const named of everyName(things)) {
    if (found.length >= most) break;
    if (plain(named.text).includes(wanted)) found.push(named);
  }
  return found;
}

function* everyName(things: Things): Generator<Named> {
  for (const { id, tag, serial } of things.instruments.values()) {
    if (tag !== null) yield { sort: "instrument", id, text: tag };
    yield { sort: "instrument", id, text: serial };
  }
  for (const { id, registered } of things.cylinders.values()) yield { sort: "cylinder", id, text: registered.name };
  for (const { id, badge, name } of things.people.values()) {
    if (badge !== null) yield { sort: "person", id, text: badge };
    if (name !== null) yield { sort: "person", id, text: name };
  }
  for (const { id, registered } of things.lineParts.values()) yield { sort: "line-part", id, text: registered.name };
  for (const { id, name } of things.stations.values()) yield { sort: "station", id, text: name };
  for (const { id, name } of things.places.values()) yield { sort: "place", id, text: name };
  for (const { id, fitted } of things.sensors.values()) if (fitted.serial !== null) yield { sort: "sensor", id, text: fitted.serial };
}
