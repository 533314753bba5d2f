import { randomUUID } from "node:crypto";
import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { digestOf, fromBase64, growsFrom, holdsLeaf, isSignedBy, keyFrom, leafHash, readSignedHead } from "../../src/core/record/index.ts";
import type { EntriesView, EntryView, RoomView } from "../../src/report/room/index.ts";
import type { BookState, SubmissionAnswer } from "../../src/server/contract.ts";
import { sha256 } from "../../src/store/sqlite/hash.ts";
import { type Device, forged, named, Site } from "./book-site.ts";

const DAY = 24 * 60;

let site: Site;
let book = "";
let bench: Device;
const ann = randomUUID();
const bob = randomUUID();
const instrument = randomUUID();

beforeAll(async () => {
  site = await Site.open(Date.UTC(2026, 2, 4, 7));
  const begun = await site.post<BookState>("/book", { name: "Marl Beck", zone: "Europe/London", isDemonstration: true });
  expect(begun.status).toBe(201);
  book = begun.body.book?.id ?? "";
  bench = await site.device("bench", book);
  await bench.say(
    "person-registered",
    { person: ann },
    { duties: ["administrator", "keeper", "tester"] },
    { private: named("Ann Hallam") },
  );
  await bench.say("person-registered", { person: bob }, { duties: ["keeper"] }, { private: named("Bob Okafor"), by: ann });
  await bench.say("instrument-registered", { instrument }, { serial: "A-17", owner: "site" }, { by: ann });
});

afterAll(async () => {
  expect(site.faults).toEqual([]);
  await site.close();
});

describe("a book is begun once", () => {
  test("its first entries say what it is, who signs, and by which rules", async () => {
    const { entries, size, older } = await site.get<EntriesView>("/entries?before=4");
    expect([size, older]).toEqual([6, null]);
    expect(entries.map(({ number, kind }) => [number, kind])).toEqual([
      [3, "rules-set"],
      [2, "key-begun"],
      [1, "book-opened"],
    ]);
  });

  test("a second one is refused", async () => {
    const second = await site.post<{ type: string }>("/book", { name: "Other", zone: "UTC", isDemonstration: false });
    expect([second.status, second.body.type]).toEqual([409, "book-there-already"]);
  });

  test("a zone that nobody knows is refused, with one that is near", async () => {
    const other = await Site.open(0);
    const answer = await other.post<{ type: string; mend: string }>("/book", { name: "A", zone: "Europe/Londn", isDemonstration: false });
    expect([answer.status, answer.body.type]).toEqual([422, "zone-not-known"]);
    expect(answer.body.mend).toContain("Europe/London");
    expect((await other.get<BookState>("/book")).book).toBeNull();
    await other.close();
  });
});

test("an entry can be checked with nothing but its answer and the key", async () => {
  const view = await site.get<EntryView>("/entries/6");
  expect(view.body).toBe('{"owner":"site","serial":"A-17"}');
  const key = keyFrom(view.key, sha256);
  const head = readSignedHead(view.head);
  if (!key.ok || !head.ok) throw new Error("not readable");
  const { verify, createPublicKey } = await import("node:crypto");
  const isSigned = isSignedBy(
    head.value,
    key.value,
    (publicKey, message, signature) => {
      const der = Buffer.concat([Buffer.from("302a300506032b6570032100", "hex"), publicKey]);
      return verify(null, message, createPublicKey({ key: der, format: "der", type: "spki" }), signature);
    },
    sha256,
  );
  expect(isSigned).toBe(true);
  const leaf = leafHash(fromBase64(view.bytes.entry) ?? new Uint8Array(), sha256);
  const { size, head: root } = head.value.head;
  const proof = view.proof.map((one) => fromBase64(one) ?? new Uint8Array());
  expect(holdsLeaf({ leaf, index: 5, size, head: root, proof }, sha256)).toBe(true);
});

const refusalOf = (answer: SubmissionAnswer): string => (answer.type === "refused" ? answer.refusal : answer.type);

describe("a request is judged, and says why it is not granted", () => {
  let seen = "";
  const other = randomUUID();

  beforeAll(async () => {
    seen = (await bench.say("upset-seen", { instrument }, { what: "wet" }, { by: bob })).id;
    await bench.say("instrument-registered", { instrument: other }, { serial: "B-2", owner: "visiting" }, { by: ann });
  });

  const slip = { cause: "wrong-thing" as const, reason: "it was the other one" };
  const cases: readonly (readonly [string, string, () => Promise<{ readonly answer: SubmissionAnswer }>])[] = [
    ["nobody asks", "nobody-asks", () => bench.say("entry-voided", {}, slip, { restsOn: [seen] })],
    ["a stranger asks", "not-entitled", () => bench.say("entry-voided", {}, slip, { restsOn: [seen], by: randomUUID() })],
    [
      "an administrator is made by a keeper",
      "not-entitled",
      () => bench.say("duties-set", { person: bob }, { duties: ["administrator"] }, { by: bob }),
    ],
    [
      "the last administrator goes",
      "last-administrator",
      () => bench.say("duties-set", { person: ann }, { duties: ["keeper"] }, { by: ann }),
    ],
    ["nobody of that id", "thing-not-here", () => bench.say("duties-set", { person: randomUUID() }, { duties: [] }, { by: ann })],
    ["what it rests on is not here", "ground-not-here", () => bench.say("entry-voided", {}, slip, { restsOn: [uuidv7()], by: ann })],
    [
      "what it rests on is about another instrument",
      "ground-of-another",
      () => bench.say("returned", { instrument: other }, { cause: "repaired", reason: null }, { restsOn: [seen], by: bob }),
    ],
    [
      "a cylinder that nobody registered",
      "thing-not-here",
      () =>
        bench.say(
          "thing-voided",
          { cylinder: randomUUID() },
          { from: "2026-03-01T00:00:00.000Z", until: null, cause: "decayed", reason: "x" },
          { by: bob },
        ),
    ],
  ];

  test.each(cases)("%s: %s", async (_what, reason, say) => {
    const { size } = await site.get<EntriesView>("/entries?limit=1");
    const { answer } = await say();
    expect(refusalOf(answer)).toBe(reason);
    expect(answer).toMatchObject({
      mayRetry: false,
      message: expect.stringMatching(/^[A-Z].*\.$/),
      mend: expect.stringMatching(/^[A-Z].*\.$/),
    });
    expect((await site.get<EntriesView>("/entries?limit=1")).size).toBe(size);
  });

  test("somebody wrote about it meanwhile: read anew and ask again", async () => {
    const { answer } = await bench.say("entry-voided", { instrument }, slip, { restsOn: [seen], by: bob }, [
      { subject: instrument, newest: 1 },
    ]);
    expect(answer).toMatchObject({ type: "refused", refusal: "stale", mayRetry: true });
    // It waits on the device still; with what is newest now it is granted.
    const { entries } = await site.get<EntriesView>(`/entries?subject=${instrument}&limit=1`);
    const [again] = await bench.send([{ subject: instrument, newest: entries[0]?.number ?? 0 }]);
    expect(again?.type).toBe("taken");
    expect(refusalOf((await bench.say("entry-voided", {}, slip, { restsOn: [seen], by: bob })).answer)).toBe("already-voided");
  });

  test("who said it takes it back within a minute, whatever the duties; later it is for a keeper", async () => {
    const tess = randomUUID();
    await bench.say("person-registered", { person: tess }, { duties: ["tester"] }, { by: bob, private: named("Tess") });
    const [first, second] = [
      await bench.say("charge-seen", { instrument }, { percent: "80", hours: null, bars: null }, { by: tess }),
      await bench.say("charge-seen", { instrument }, { percent: "90", hours: null, bars: null }, { by: tess }),
    ];
    expect((await bench.say("entry-voided", {}, slip, { by: tess, restsOn: [first.id] })).answer.type).toBe("taken");
    site.pass(2);
    expect(refusalOf((await bench.say("entry-voided", {}, slip, { by: tess, restsOn: [second.id] })).answer)).toBe("not-entitled");
  });

  test("one that is refused holds up none of the others", async () => {
    const only = await bench.keep("charge-seen", { instrument }, { percent: "70", hours: null, bars: null });
    await bench.keep("entry-voided", {}, slip, { restsOn: [only] });
    await bench.keep("charge-seen", { instrument }, { percent: "60", hours: null, bars: null });
    expect((await bench.send()).map(refusalOf)).toEqual(["taken", "nobody-asks", "taken"]);
  });

  test("a request that calls itself a report is kept, and grants nothing", async () => {
    const claims = forged({ book, kind: "entry-voided", by: ann, restsOn: [seen] }, { cause: "other", reason: "x" });
    expect((await site.offer([claims])).map(({ type }) => type)).toEqual(["taken"]);
    const { entries } = await site.get<EntriesView>("/entries?limit=1");
    expect(entries[0]?.says).toContain("does not fit its form");
  });
});

describe("rules change by two people", () => {
  let before = "";

  beforeAll(async () => {
    const { rules } = await site.get<RoomView>("/room");
    const entry = await site.get<EntryView>(`/entries/${rules.number}`);
    before = JSON.parse(entry.submission).id;
  });

  test("a law that binds is a wall", async () => {
    const { rules } = await site.get<RoomView>("/room");
    if (rules.inForce === null) throw new Error("no rules");
    const bound = { ...rules.inForce, bindingTexts: ["de-dguv-vorschrift-21"] };
    const { answer } = await bench.say("rules-set", {}, { rules: bound }, { by: bob, restsOn: [before] });
    expect(refusalOf(answer)).toBe("wall");
    expect(answer).toMatchObject({ message: expect.stringContaining("DGUV Vorschrift 21") });
  });

  test("looser rules wait for a second person and the next working day; tighter ones hold at once", async () => {
    const { rules } = await site.get<RoomView>("/room");
    if (rules.inForce === null) throw new Error("no rules");
    const { repeatMinutes, longestStintHours } = rules.inForce;
    const wanted = {
      ...rules.inForce,
      repeatMinutes: { ...repeatMinutes, value: 60 },
      longestStintHours: { ...longestStintHours, value: 8 },
    };
    const change = await bench.say("rules-set", {}, { rules: wanted }, { by: bob, restsOn: [before] });
    expect(change.answer.type).toBe("taken");
    const meanwhile = (await site.get<RoomView>("/room")).rules;
    expect([meanwhile.inForce?.repeatMinutes.value, meanwhile.inForce?.longestStintHours.value]).toEqual([15, 8]);
    expect(meanwhile.waiting).toEqual([{ number: meanwhile.number, from: null }]);

    expect(refusalOf((await bench.say("rules-agreed", {}, {}, { by: bob, restsOn: [change.id] })).answer)).toBe("same-person");
    expect((await bench.say("rules-agreed", {}, {}, { by: ann, restsOn: [change.id] })).answer.type).toBe("taken");
    expect(refusalOf((await bench.say("rules-agreed", {}, {}, { by: ann, restsOn: [change.id] })).answer)).toBe("already-agreed");
    // Wednesday, 4 March; the working day of the 5th begins at 06:00 in London, which is UTC then.
    expect((await site.get<RoomView>("/room")).rules.waiting[0]?.from).toBe("2026-03-05T06:00:00.000Z");
    expect((await site.get<RoomView>("/room")).rules.inForce?.repeatMinutes.value).toBe(15);
    site.pass(DAY);
    expect((await site.get<RoomView>("/room")).rules.inForce?.repeatMinutes.value).toBe(60);
  });

  test("a change of rules that were changed meanwhile is read anew first", async () => {
    const { rules } = await site.get<RoomView>("/room");
    if (rules.inForce === null) throw new Error("no rules");
    const { answer } = await bench.say("rules-set", {}, { rules: rules.inForce }, { by: ann, restsOn: [before] });
    expect(refusalOf(answer)).toBe("overtaken");
  });
});

describe("late, doubled, contradictory: each kept and shown, nothing lost", () => {
  test("a day late it is taken, and says so", async () => {
    const phone = await site.device("late phone", book);
    const id = await phone.keep("upset-seen", { instrument }, { what: "dropped" });
    site.pass(DAY);
    expect((await phone.send()).map(({ type }) => type)).toEqual(["taken"]);
    const { entries } = await site.get<EntriesView>(`/entries?subject=${instrument}&kind=upset-seen&limit=1`);
    expect(entries[0]?.remarks).toContain("came in 24 hours after it happened");
    expect(id).not.toBe("");
  });

  test("the same twice is once; the same id with other bytes is kept aside, and asked about", async () => {
    const phone = await site.device("doubled", book);
    await phone.keep("upset-seen", { instrument }, { what: "wet" });
    const [waiting] = await phone.outbox.waiting(1);
    if (waiting === undefined) throw new Error("nothing waits");
    const [first] = await phone.send();
    const again = await site.offer([waiting.offered]);
    expect([first?.type, again[0]?.type]).toEqual(["taken", "exists"]);
    expect(again[0]).toMatchObject({ number: first !== undefined && "number" in first ? first.number : 0 });
    const other = await site.offer([
      forged({ book, id: waiting.id, subjects: [{ role: "instrument", id: instrument }] }, { what: "dropped" }),
    ]);
    expect(other.map(({ type }) => type)).toEqual(["conflict"]);
  });

  test("a hole in the chain of a device is told with the entry that shows it", async () => {
    const phone = await site.device("holed", book);
    await phone.keep("upset-seen", { instrument }, { what: "wet" });
    await phone.keep("upset-seen", { instrument }, { what: "dropped" });
    const [, second] = await phone.outbox.waiting(2);
    if (second === undefined) throw new Error("nothing waits");
    const [answer] = await site.offer([second.offered]);
    expect(answer).toMatchObject({ type: "taken", remarks: [{ type: "hole-before", from: 1, to: 1 }] });
  });

  test("a clock 48 hours ahead is measured, kept and told", async () => {
    const phone = await site.device("ahead", book, 2 * DAY * 60_000);
    await phone.say("upset-seen", { instrument }, { what: "wet" });
    const { entries } = await site.get<EntriesView>(`/entries?subject=${instrument}&limit=1`);
    expect(entries[0]?.remarks).toContain("says that it happened 2 days after it came in");
    expect(entries[0]?.remarks.some((remark) => /clock was (47 hours|2 days) ahead/.test(remark))).toBe(true);
  });

  test("bytes that were damaged on the way are refused by themselves", async () => {
    const phone = await site.device("damaged", book);
    await phone.keep("upset-seen", { instrument }, { what: "wet" });
    await phone.keep("upset-seen", { instrument }, { what: "dropped" });
    const [first, second] = await phone.outbox.waiting(2);
    if (first === undefined || second === undefined) throw new Error("nothing waits");
    const body = Uint8Array.from(first.offered.body, (byte, at) => (at === 20 ? byte ^ 1 : byte));
    expect((await site.offer([{ ...first.offered, body }, second.offered])).map(refusalOf)).toEqual(["damaged", "taken"]);
  });
});

describe("several servers over one folder", () => {
  test("what one writes the other shows, and who waits is told", async () => {
    const second = await site.serve();
    const { size } = await site.get<EntriesView>("/entries?limit=1");
    const waiting = site.get<{ size: number }>(`/changes?after=${size}`, second);
    await bench.say("upset-seen", { instrument }, { what: "wet" });
    expect(await waiting).toEqual({ size: size + 1 });
    expect((await site.get<EntriesView>("/entries?limit=1", second)).entries[0]?.number).toBe(size + 1);
    expect(await site.get<RoomView>("/room", second)).toEqual(await site.get<RoomView>("/room"));
  });

  test("both take at once: each number is given once", async () => {
    const second = await site.serve();
    const phones = await Promise.all(["p1", "p2", "p3", "p4"].map((name) => site.device(name, book)));
    for (const phone of phones) for (let count = 0; count < 5; count += 1) await phone.keep("upset-seen", { instrument }, { what: "wet" });
    const answers = await Promise.all(phones.map((phone, at) => phone.send([], at % 2 === 0 ? site.address : second)));
    const numbers = answers.flat().map((answer) => ("number" in answer ? answer.number : 0));
    expect(new Set(numbers).size).toBe(20);
    expect(Math.max(...numbers) - Math.min(...numbers)).toBe(19);
  });

  test("a restart answers the same", async () => {
    const ask = async (): Promise<readonly unknown[]> => [
      await site.get<RoomView>("/room"),
      await site.get<EntriesView>("/entries?limit=500"),
      await site.get<BookState>("/book"),
    ];
    const before = await ask();
    await site.restart();
    expect(await ask()).toEqual(before);
  });
});

test("a file is durable before the entry that names it", async () => {
  const bytes = new TextEncoder().encode("certificate");
  const digest = digestOf(bytes, sha256);
  const file = { digest, name: "certificate.txt", size: bytes.length };
  const body = { done: ["calibrated" as const], files: [file] };
  const early = await bench.say("back-from-service", { instrument }, body, { by: bob });
  expect(early.answer).toMatchObject({ type: "refused", refusal: "file-missing", mayRetry: true });
  const kept = await fetch(`${site.address}/api/1/files`, {
    method: "PUT",
    headers: { "content-type": "application/octet-stream" },
    body: bytes,
  });
  expect([kept.status, await kept.json()]).toEqual([201, { digest, size: bytes.length }]);
  expect((await bench.send()).map(({ type }) => type)).toEqual(["taken"]);
});

test("that the book only grew can be checked", async () => {
  const { size } = await site.get<EntriesView>("/entries?limit=1");
  const earlier = readSignedHead((await site.get<BookState>("/book")).head);
  await bench.say("upset-seen", { instrument }, { what: "wet" });
  const { proof, head } = await site.get<{ proof: readonly string[]; head: string }>(`/consistency?earlier=${size}`);
  const later = readSignedHead(head);
  if (!earlier.ok || !later.ok) throw new Error("heads are read");
  const bytes = proof.map((one) => fromBase64(one) ?? new Uint8Array());
  const [one, other] = [earlier.value.head, later.value.head];
  expect([one.size, other.size]).toEqual([size, size + 1]);
  const grows = { earlier: one.size, earlierHead: one.head, size: other.size, head: other.head, proof: bytes };
  expect(growsFrom(grows, sha256)).toBe(true);
  expect(growsFrom({ ...grows, earlierHead: other.head }, sha256)).toBe(false);
  const beyond = await fetch(`${site.address}/api/1/consistency?earlier=${size + 2}`);
  expect(beyond.status).toBe(404);
});
