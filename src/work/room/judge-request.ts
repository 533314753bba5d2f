/**
 * Whether a request is granted: who may ask, what it rests on, what it would undo. Judged inside the commit that writes
 * it, on facts that nobody can change meanwhile. Reports are never judged.
 */
import {
  type Bodies,
  type Duty,
  type EntryForm,
  FORMS,
  groundsFault,
  inRole,
  type KnownEntry,
  unknownTexts,
  wallsMet,
} from "../../core/instrument/index.ts";
import { canonicalJson, instantFromWritten, type Submission } from "../../core/record/index.ts";
import { zoneClock } from "../../core/time/index.ts";
import { type RequestReason, unreadWords, wallWords } from "../../report/index.ts";
import type { Facts, KeptEntry } from "../../store/ledger.ts";
import type { BookRoom } from "./book-room.ts";
import type { RoomEntry } from "./room-entry.ts";

export type Verdict =
  | { readonly type: "granted" }
  | { readonly type: "not-granted"; readonly reason: RequestReason; readonly detail: string };

/** A request before it has a number. */
export type Asked = Pick<RoomEntry, "submission" | "happened" | "read">;

/** What a judge looks at. `room` has counted all that the facts hold. */
export interface Bench {
  readonly room: BookRoom;
  readonly facts: Facts;
  /** Milliseconds since 1970. */
  readonly now: number;
  /** A sentence of what still stands against a return; null where nothing does, "" where nothing ever did. */
  readonly againstReturn: (instrument: string, now: number) => string | null;
}

const GRANTED: Verdict = { type: "granted" };
const not = (reason: RequestReason, detail = ""): Verdict => ({ type: "not-granted", reason, detail });

export async function judgeRequest(asked: Asked, bench: Bench): Promise<Verdict> {
  const { read, submission } = asked;
  if (read.type === "unknown-kind" || read.type === "unknown-form") return not("cannot-be-judged", submission.kind);
  if (read.type !== "known") return not("not-in-form", unreadWords(read) ?? "");
  const grounds = await groundsOf(submission, bench);
  if ("type" in grounds) return grounds;
  const form = FORMS.get(read.kind)?.at(-1);
  const fault = groundsVerdict(grounds, form, bench);
  if (fault !== null) return fault;
  return entitled(asked, read, grounds, bench) ?? (await JUDGES[read.kind]?.({ asked, read, grounds, ...bench })) ?? GRANTED;
}

type Grounds = readonly KeptEntry[];

async function groundsOf({ restsOn }: Submission, { facts }: Bench): Promise<Grounds | Verdict> {
  const grounds: KeptEntry[] = [];
  for (const id of restsOn) {
    const kept = await facts.byId(id);
    if (kept === null) return not("ground-not-here", id);
    grounds.push(kept);
  }
  return grounds;
}

function groundsVerdict(grounds: Grounds, form: EntryForm | undefined, { room }: Bench): Verdict | null {
  if (form === undefined) return null;
  const kinds = grounds.map(({ submission }) => submission.kind);
  const fault = groundsFault(kinds, form);
  if (fault !== null) return not("ground-of-wrong-kind", fault.type === "grounds-count" ? fault.kinds.join(",") : "");
  const voided = grounds.find(({ submission }) => room.voidedBy(submission.id) !== null);
  if (voided === undefined) return null;
  return not(form.kind === "entry-voided" ? "already-voided" : "ground-voided", String(voided.number));
}

const KEEPERS: readonly Duty[] = ["keeper", "administrator"];
const ADMINISTRATORS: readonly Duty[] = ["administrator"];

/** Who may ask for what; the rule set says who returns and who agrees. */
function mayAsk(read: KnownEntry, { room, now }: Bench): readonly Duty[] {
  const rules = room.rulesAt(now)?.rules ?? null;
  if (read.kind === "returned") return rules?.whoReturns.value ?? KEEPERS;
  if (read.kind === "rules-agreed") return rules?.whoAgrees.value ?? KEEPERS;
  if (read.kind === "disposed") return ADMINISTRATORS;
  if (read.kind === "person-registered" || read.kind === "duties-set")
    return read.body.duties.includes("administrator") ? ADMINISTRATORS : KEEPERS;
  return KEEPERS;
}

function entitled({ submission }: Asked, read: KnownEntry, grounds: Grounds, bench: Bench): Verdict | null {
  const { room } = bench;
  // The first administrator of a book has nobody who could let him in.
  if ((read.kind === "person-registered" || read.kind === "duties-set") && administrators(room).length === 0) return null;
  if (submission.by === null) return not("nobody-asks");
  if (read.kind === "entry-voided" && grounds.every((ground) => isOwnSlip(ground, submission.by, bench.now))) return null;
  const duties = mayAsk(read, bench);
  const person = room.things().people.get(submission.by);
  const may = person !== undefined && !person.isRetired && person.duties.some((duty) => duties.includes(duty));
  return may ? null : not("not-entitled", duties.join(","));
}

/** Whoever said something may take it back at once, as with a pen: later it is for those who keep the book. [ours] */
const OWN_SLIP_MS = 60_000;

const isOwnSlip = ({ entry, submission }: KeptEntry, by: string | null, now: number): boolean =>
  by !== null && submission.by === by && now - (instantFromWritten(entry.received) ?? 0) <= OWN_SLIP_MS;

const administrators = (room: BookRoom): readonly string[] =>
  [...room.things().people.values()].filter(({ isRetired, duties }) => !isRetired && duties.includes("administrator")).map(({ id }) => id);

interface Case<Kind extends KnownEntry["kind"]> extends Bench {
  readonly asked: Asked;
  readonly read: Extract<KnownEntry, { readonly kind: Kind }>;
  readonly grounds: Grounds;
}

type Judge<Kind extends KnownEntry["kind"]> = (one: Case<Kind>) => Verdict | null | Promise<Verdict | null>;

const judgeDuties: Judge<"duties-set" | "person-registered"> = ({ asked, read, room }) => {
  const person = inRole(asked.submission, "person");
  if (read.kind === "duties-set" && (person === null || !room.things().people.has(person))) return not("thing-not-here", "person");
  const left = administrators(room);
  const isLast = left.length === 1 && left[0] === person && !read.body.duties.includes("administrator");
  return isLast ? not("last-administrator") : null;
};

const judgeReturn: Judge<"returned"> = ({ asked, grounds, room, againstReturn, now }) => {
  const instrument = inRole(asked.submission, "instrument");
  if (instrument === null || !room.things().instruments.has(instrument)) return not("thing-not-here", "instrument");
  const other = grounds.find(({ submission }) => inRole(submission, "instrument") !== instrument);
  if (other !== undefined) return not("ground-of-another", String(other.number));
  const against = againstReturn(instrument, now);
  if (against === null) return null;
  return against === "" ? not("not-withdrawn") : not("still-against-it", against);
};

/** What begins and ends by entries of its own is not undone by voiding. */
const NEVER_VOIDED: ReadonlySet<string> = new Set<keyof Bodies>([
  ...(["book-opened", "key-begun", "key-ended", "book-put-back", "disposed", "entry-voided", "rules-set", "rules-agreed"] as const),
]);

const judgeVoiding: Judge<"entry-voided"> = ({ grounds }) => {
  const never = grounds.find(({ submission }) => NEVER_VOIDED.has(submission.kind));
  return never === undefined ? null : not("never-voided", never.submission.kind);
};

const judgeThingVoiding: Judge<"thing-voided"> = ({ asked, read, room }) => {
  const [about] = asked.submission.subjects;
  const things = room.things();
  const all = [things.cylinders, things.stations, things.sensors, things.lineParts, things.people];
  if (about === undefined || !all.some((some) => some.has(about.id))) return not("thing-not-here", about?.role ?? "");
  const { from, until } = read.body;
  const isBackwards = until !== null && (instantFromWritten(until) ?? 0) <= (instantFromWritten(from) ?? 0);
  return isBackwards ? not("ends-before-it-begins") : null;
};

const judgeRules: Judge<"rules-set"> = ({ read, grounds, room }) => {
  const { rules } = read.body;
  if (!zoneClock(rules.zone).ok) return not("not-in-form", `"${rules.zone}" is no time zone that is known.`);
  const unknown = unknownTexts(rules);
  if (unknown.length > 0) return not("wall", `nobody here can tell what ${unknown.join(", ")} demands.`);
  const passed = wallsMet(rules).filter(({ gas, model }) => gas === null && model === null);
  if (passed.length > 0) return not("wall", passed.map(wallWords).join(" "));
  const { changes } = room.courseOfRules();
  const newest = changes.at(-1);
  if (newest === undefined) return null;
  if (!grounds.some(({ submission }) => submission.id === newest.submission)) return not("overtaken");
  return sameText(newest.rules, rules) ? not("nothing-changes") : null;
};

function sameText(first: unknown, second: unknown): boolean {
  const [one, other] = [canonicalJson(first), canonicalJson(second)];
  return one.ok && other.ok && one.value === other.value;
}

const judgeAgreement: Judge<"rules-agreed"> = ({ asked, grounds, room, now }) => {
  const [ground] = grounds;
  const { changes, agreements } = room.courseOfRules();
  const change = changes.find(({ submission }) => submission === ground?.submission.id);
  if (change === undefined) return not("nothing-waits");
  if (change.by !== null && change.by === asked.submission.by) return not("same-person");
  if (change !== changes.at(-1)) return not("overtaken");
  if (room.rulesAt(now)?.waiting === null) return not("nothing-waits");
  return agreements.some((one) => one.change === change.submission && one.by !== change.by) ? not("already-agreed") : null;
};

/** Without these the book could not be read any more. */
const NEVER_DISPOSED: ReadonlySet<string> = new Set<keyof Bodies>([
  ...(["book-opened", "key-begun", "key-ended", "book-put-back", "disposed", "entry-voided", "thing-voided"] as const),
  ...(["rules-set", "rules-agreed", "question-answered"] as const),
]);

const judgeDisposal: Judge<"disposed"> = async ({ read, facts }) => {
  for (const { submission, part } of read.body.parts) {
    const kept = await facts.byId(submission);
    if (kept === null) return not("ground-not-here", submission);
    if (part === "body" && NEVER_DISPOSED.has(kept.submission.kind)) return not("never-disposed", kept.submission.kind);
    if (kept[part] === null) return not("already-disposed", String(kept.number));
  }
  return null;
};

/** Judged by kind; a request of another kind is granted to whoever may ask. */
const JUDGES = {
  "person-registered": judgeDuties,
  "duties-set": judgeDuties,
  returned: judgeReturn,
  "entry-voided": judgeVoiding,
  "thing-voided": judgeThingVoiding,
  "rules-set": judgeRules,
  "rules-agreed": judgeAgreement,
  disposed: judgeDisposal,
} as unknown as Readonly<Record<string, Judge<KnownEntry["kind"]> | undefined>>; // each is called with the kind it stands under
