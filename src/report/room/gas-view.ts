/** Test gas that is about to expire, or that proves nothing already, and why that matters. */
import type { CylinderThing, Things } from "../../core/instrument/index.ts";
import { daysFromCivil, readDate } from "../../core/time/index.ts";
import { counted } from "../digits.ts";
import { gasWords } from "../gas-words.ts";
import { visibleText } from "../visible-text.ts";
import { naturalOrder } from "./natural-order.ts";
import type { TodayView } from "./views.ts";

/** A new cylinder takes weeks to come. [common practice] */
const TOLD_DAYS_BEFORE = 30;

/** @param today days since 1970 by the site's clock */
export function gasView(things: Things, today: number): TodayView["gas"] {
  const inUse = [...things.cylinders.values()].filter(({ isRetired, regulator }) => !isRetired && regulator !== null);
  inUse.sort((one, other) => naturalOrder(one.registered.name, other.registered.name));
  return inUse.flatMap((cylinder) => {
    const words = expiryWords(cylinder, today);
    return words === null ? [] : [{ cylinder: cylinder.id, words }];
  });
}

/** One sentence for the gases that go first; null where none goes soon. */
function expiryWords({ registered: { name, components } }: CylinderThing, today: number): string | null {
  const dated = components.map(({ gas, expires }) => ({ gas, left: daysLeft(expires, today), expires }));
  const label = visibleText(name);
  const undated = dated.filter(({ left }) => left === null);
  if (undated.length > 0) return `Cylinder ${label}: no expiry date is known for ${gasesOf(undated)}. A test with it proves nothing.`;
  const gone = dated.filter(({ left }) => (left ?? 0) < 0);
  if (gone.length > 0) return `Cylinder ${label}: ${gasesOf(gone)} expired on ${gone[0]?.expires}. A test with it proves nothing.`;
  const soon = dated.filter(({ left }) => (left ?? 0) <= TOLD_DAYS_BEFORE).sort((one, other) => (one.left ?? 0) - (other.left ?? 0));
  const [first] = soon;
  if (first === undefined) return null;
  const when = first.left === 0 ? "today is its last day" : `${counted(first.left ?? 0, "day")} left`;
  return `Cylinder ${label}: ${gasesOf(soon.filter(({ expires }) => expires === first.expires))} may be used up to ${first.expires}, ${when}. From then on a test with it proves nothing.`;
}

const gasesOf = (components: readonly { readonly gas: string }[]): string => components.map(({ gas }) => gasWords(gas)).join(", ");

/** Null where no date is known. */
function daysLeft(expires: string | null, today: number): number | null {
  const date = readDate(expires ?? "");
  return date.ok ? daysFromCivil(date.value.year, date.value.month, date.value.day) - today : null;
}
