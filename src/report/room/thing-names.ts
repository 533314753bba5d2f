/** Names of things and people by their id, as they stand on labels. */
import type { Things } from "../../core/instrument/index.ts";
import { roleWords } from "../entry-words.ts";
import { visibleText } from "../visible-text.ts";

/**
 * The name of a thing or person; where the book has none (any more), its part and the first letters of its id.
 *
 * @example
 * ```ts
 * import { thingsAt } from "../../core/instrument/index.ts";
 * import { thingName } from "./thing-names.ts";
 * thingName(thingsAt([], 0), { role: "cylinder", id: "7d1e2f30-4152-4637-8859-6a7b8c9dae0f" }); // => "cylinder 7d1e2f30"
 * ```
 */
export function thingName(things: Things, { role, id }: { readonly role: string; readonly id: string }): string {
  return knownName(things, id) ?? `${roleWords(role)} ${id.slice(0, 8)}`;
}

/** Null where nothing and nobody of that id bears a name. */
export function knownName(things: Things, id: string): string | null {
  const instrument = things.instruments.get(id);
  if (instrument !== undefined) return visibleText(instrument.tag ?? instrument.serial);
  const name =
    things.people.get(id)?.name ??
    things.cylinders.get(id)?.registered.name ??
    things.sensors.get(id)?.fitted.serial ??
    things.stations.get(id)?.name ??
    things.places.get(id)?.name ??
    things.lineParts.get(id)?.registered.name ??
    things.models.get(id)?.described.name ??
    null;
  return name === null ? null : visibleText(name);
}
