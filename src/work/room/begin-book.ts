/** Begins a book: its name and zone, the key that signs its heads, and the rules that it starts with. */
import { substance } from "../../core/gas/index.ts";
import { firstRules, type Kind, type Saying, sayable } from "../../core/instrument/index.ts";
import { writtenInstant } from "../../core/record/index.ts";
import { given, type Result, refused } from "../../core/result.ts";
import { zoneClock } from "../../core/time/index.ts";
import type { RefusalOfBook } from "../../report/index.ts";
import type { Ledger } from "../../store/ledger.ts";
import type { Outbox } from "../../store/outbox.ts";

export interface BookToBegin {
  readonly name: string;
  readonly zone: string;
  readonly isDemonstration: boolean;
}

/** The text of the key's line; the private half never comes here. */
export interface BeginGrounds {
  readonly ledger: Ledger;
  readonly outbox: Outbox;
  readonly key: string;
  /** Milliseconds since 1970. */
  readonly now: number;
}

/** Says the first entries and has the book take them; what a broken-off beginning left out is said now. */
export async function beginBook(book: BookToBegin, grounds: BeginGrounds): Promise<Result<true, RefusalOfBook>> {
  const clock = zoneClock(book.zone);
  if (!clock.ok) return refused({ type: "zone-not-known", zone: book.zone, near: clock.refusal.near });
  const had = await kindsOf(grounds.ledger);
  const { name, zone, isDemonstration } = book;
  const opened = await say(grounds, had, "book-opened", { name, zone, isDemonstration });
  if (!opened.ok) return opened;
  const begun = await say(grounds, had, "key-begun", { algorithm: "ed25519", key: grounds.key });
  if (!begun.ok) return begun;
  return say(grounds, had, "rules-set", { rules: firstRules({ zone, regime: regimeFor(zone), gases: USUAL_GASES.filter(isKnown) }).rules });
}

async function kindsOf(ledger: Ledger): Promise<ReadonlySet<string>> {
  const kinds = new Set<string>();
  await ledger.walk(1, Math.min(3, await ledger.size()), ({ submission }) => kinds.add(submission.kind).size > 0);
  return kinds;
}

async function say<Name extends Kind>(
  { ledger, outbox, now }: BeginGrounds,
  had: ReadonlySet<string>,
  kind: Name,
  body: Saying<Name>["body"],
): Promise<Result<true, RefusalOfBook>> {
  if (had.has(kind)) return given(true);
  const at = writtenInstant(now);
  const saying = { kind, body, by: null, subjects: [], restsOn: [], private: null } as unknown as Saying<Name>; // none of the three has a private part
  const said = sayable({ ...saying, happened: { earliest: at, latest: at, basis: "device-clock" } });
  if (!said.ok) return refused({ type: "asked-not-fitting", at: said.refusal.at, found: said.refusal.why, expected: "in its form" });
  const waiting = await outbox.say(said.value);
  if (!waiting.ok) return refused({ type: "book-not-opened", why: waiting.refusal.why });
  const taken = await ledger.append([waiting.value.offered]);
  if (!taken.ok) return refused({ type: "book-not-opened", why: taken.refusal.type });
  const [answer] = taken.value;
  if (answer !== undefined) await outbox.answered(waiting.value.id, answer);
  return given(true);
}

const isKnown = (gas: string): boolean => substance(gas) !== null;

/** What portable instruments measure most. [common practice] */
const USUAL_GASES: readonly string[] = [
  ...["oxygen", "methane", "carbon_monoxide", "hydrogen_sulphide", "carbon_dioxide", "sulphur_dioxide", "nitrogen_dioxide"],
  ...["ammonia", "chlorine", "hydrogen_cyanide", "hydrogen", "propane"],
];

/** A guess by the zone, that each set point shows with its source: the keeper chooses. [ours] */
function regimeFor(zone: string): "GB-WEL" | "US-OSHA" | "FR" | "EU-IOELV" | "US-NIOSH" {
  if (zone === "Europe/London" || zone === "Europe/Belfast") return "GB-WEL";
  if (zone === "Europe/Paris") return "FR";
  if (zone.startsWith("Europe/")) return "EU-IOELV";
  return zone.startsWith("America/") || zone.startsWith("US/") ? "US-OSHA" : "US-NIOSH";
}
