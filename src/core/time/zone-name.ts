/** Names of zones that come nearest to one that does not exist. */

/** How many names are offered. */
const OFFERED = 5;

/**
 * Up to five zone names near to a text, nearest first: the same place without its continent, then by the number of
 * letters to change (edit distance of Levenshtein, 1965), no more than a third of the text's length.
 *
 * @example
 * ```ts
 * import { nearZoneNames } from "./zone-name.ts";
 * nearZoneNames("London")[0]; // => "Europe/London"
 * nearZoneNames("America/New York")[0]; // => "America/New_York"
 * nearZoneNames("qqqqqqqqqqqq"); // => []
 * ```
 */
export function nearZoneNames(text: string): readonly string[] {
  const wanted = plain(text).slice(0, 60);
  if (wanted === "") return [];
  const scored = Intl.supportedValuesOf("timeZone").map((name) => ({ name, distance: distanceToName(wanted, plain(name)) }));
  return scored
    .filter(({ distance }) => distance <= wanted.length / 3)
    .sort((a, b) => a.distance - b.distance || (a.name < b.name ? -1 : 1))
    .slice(0, OFFERED)
    .map(({ name }) => name);
}

const plain = (text: string): string =>
  text
    .trim()
    .toLowerCase()
    .replaceAll(/[\s_-]+/g, "_");

/** A place named without its continent counts as nearly right; a place under the wrong continent as one change. */
function distanceToName(wanted: string, name: string): number {
  const place = name.slice(name.lastIndexOf("/") + 1);
  const wantedPlace = wanted.slice(wanted.lastIndexOf("/") + 1);
  return Math.min(editDistance(wanted, name), 0.5 + editDistance(wanted, place), 1 + editDistance(wantedPlace, place));
}

function editDistance(from: string, to: string): number {
  let row = Array.from({ length: to.length + 1 }, (_, index) => index);
  for (let i = 1; i <= from.length; i++) {
    const next = [i];
    for (let j = 1; j <= to.length; j++) {
      const change = at(row, j - 1) + (from[i - 1] === to[j - 1] ? 0 : 1);
      next.push(Math.min(change, at(row, j) + 1, at(next, j - 1) + 1));
    }
    row = next;
  }
  return at(row, to.length);
}

const at = (row: readonly number[], index: number): number => row[index] as number; // every index is within the row
