/** What every keeper of a book must do, whatever it keeps it in. */
import { createPublicKey, verify } from "node:crypto";
import { describe, expect, test } from "vitest";
import { digestFromHash, growsFrom, holdsLeaf, isSignedBy, leafHash, openedPart, readSignedHead } from "../../src/core/record/index.ts";
import type { Answer, HeadSigner, KnownHead, Ledger } from "../../src/store/ledger.ts";
import { answerOf, goldenRow, nameOf } from "../cases/golden-rows.ts";
import { BOOK, MadeDevice, madeSigner, OTHER_BOOK, rememberedHead, sha256, thing } from "./made-submissions.ts";

export interface Opening {
  readonly signer: HeadSigner;
  readonly knownHead: KnownHead;
  /** Files that are there. */
  readonly files?: { readonly has: (file: string) => Promise<boolean> };
}

/** One place that keeps a book: opened as often as asked for, each time as another process would. */
export interface Keeper {
  readonly open: (opening: Opening) => Promise<Ledger>;
  /** Puts the place back to what it was when `keep` was called. */
  readonly keep: () => Promise<() => Promise<void>>;
}

const SPKI = Buffer.from("302a300506032b6570032100", "hex");
const verifies = (publicKey: Uint8Array, message: Uint8Array, signature: Uint8Array): boolean =>
  verify(null, message, createPublicKey({ key: Buffer.concat([SPKI, publicKey]), format: "der", type: "spki" }), signature);

const numbersOf = (answers: readonly Answer[]): readonly [string, number][] => answers.map(({ type, number }) => [type, number]);

export function ledgerAcceptance(name: string, makeKeeper: () => Promise<Keeper>): void {
  const begin = async (files?: Opening["files"]) => {
    const keeper = await makeKeeper();
    const opening: Opening = { signer: madeSigner(), knownHead: rememberedHead(), ...(files === undefined ? {} : { files }) };
    return { keeper, opening, ledger: await keeper.open(opening), device: new MadeDevice(1) };
  };
  describe(name, () => {
    for (const accepts of [
      acceptsNumbers,
      acceptsRepeats,
      acceptsFilesFirst,
      acceptsRequests,
      acceptsFindings,
      acceptsProcesses,
      acceptsChains,
      acceptsOlderCopies,
    ])
      accepts(begin);
  });
}

interface Begun {
  readonly keeper: Keeper;
  readonly opening: Opening;
  readonly ledger: Ledger;
  readonly device: MadeDevice;
}

type Begin = (files?: Opening["files"]) => Promise<Begun>;

function acceptsNumbers(begin: Begin): void {
  test("numbers run from 1 without holes, in the order of the call, and every entry is proven under a signed head", async () => {
    const { ledger, device, opening } = await begin();
    const offers = Array.from({ length: 37 }, () => device.say());
    for (let at = 0; at < offers.length; at += 5) answerOf(await ledger.append(offers.slice(at, at + 5)));
    const head = await ledger.head();
    const read = answerOf(readSignedHead(head.note));
    expect([head.size, read.head.size, isSignedBy(read, opening.signer.key, verifies, sha256)]).toEqual([37, 37, true]);
    const seen: number[] = [];
    const leaves: Uint8Array[] = [];
    await ledger.walk(1, 37, ({ number, bytes, submission }) => {
      seen.push(number);
      expect(submission.id).toBe(offers[number - 1]?.id);
      leaves.push(leafHash(bytes.entry, sha256));
      return true;
    });
    expect(seen).toEqual(Array.from({ length: 37 }, (_, at) => at + 1));
    for (const [index, leaf] of leaves.entries()) {
      const proof = await ledger.inclusion(index + 1, 37);
      expect(holdsLeaf({ index, size: 37, leaf, proof, head: head.root }, sha256)).toBe(true);
    }
    await ledger.close();
  });

  test("every earlier head is the beginning of a later one", async () => {
    const { ledger, device } = await begin();
    const heads: { size: number; root: Uint8Array }[] = [];
    for (let count = 0; count < 12; count += 1) {
      answerOf(await ledger.append([device.say()]));
      heads.push(await ledger.head());
    }
    const last = heads[11];
    for (const { size, root } of heads) {
      const proof = await ledger.consistency(size, 12);
      expect(growsFrom({ earlier: size, size: 12, earlierHead: root, head: last?.root ?? root, proof }, sha256)).toBe(true);
    }
    await ledger.close();
  });
}

function acceptsRepeats(begin: Begin): void {
  test.each(["formats-g-idempotency-01", "formats-g-idempotency-02"].map((id) => [nameOf(id), goldenRow(id)] as const))(
    "%s",
    async (_, { inputs, expected }) => {
      const { ledger, device } = await begin();
      const [one, two] = inputs.sends;
      const first = device.say({ says: one.body });
      // The same bytes again where the body is the same: a device sends what it kept.
      const second = JSON.stringify(one.body) === JSON.stringify(two.body) ? first : device.say({ says: two.body, id: first.id });
      answerOf(await ledger.append([first]));
      const [answer] = answerOf(await ledger.append([second]));
      expect([answer?.type, await ledger.size()]).toEqual([expected.second_answer, expected.records]);
      expect(openedPart((await ledger.byId(first.id))?.body ?? new Uint8Array(0))).toEqual({ ok: true, value: one.body });
      await ledger.close();
    },
  );

  test("the same twice is once; the same id with other bytes is a conflict and is kept aside", async () => {
    const { ledger, device } = await begin();
    const first = device.say();
    expect(numbersOf(answerOf(await ledger.append([first, first])))).toEqual([
      ["taken", 1],
      ["exists", 1],
    ]);
    const other = new MadeDevice(2).say({ id: first.id, says: { note: "another" } });
    expect(numbersOf(answerOf(await ledger.append([other])))).toEqual([["conflict", 1]]);
    expect(numbersOf(answerOf(await ledger.append([other])))).toEqual([["conflict", 1]]);
    expect(await ledger.size()).toBe(1);
    expect((await ledger.entry(1))?.bytes.submission).toEqual(first.submission);
    expect((await ledger.conflicts()).map(({ number, submission }) => [number, submission])).toEqual([[1, other.submission]]);
    await ledger.close();
  });
}

function acceptsFilesFirst(begin: Begin): void {
  test("what is damaged, or for another book, is refused, and nothing of the call is taken", async () => {
    const { ledger, device } = await begin();
    const good = device.say();
    const bad = device.say({ keepsPrivate: { name: "Ines" } });
    const touched = bad.body.map((byte, at) => (at === 20 ? byte ^ 1 : byte));
    const refusal = async (offered: typeof bad) => (await ledger.append([good, offered])) as { refusal?: unknown };
    expect(await refusal({ ...bad, body: touched })).toMatchObject({ refusal: { type: "damaged", at: 1, part: "body" } });
    expect(await refusal({ ...bad, private: null })).toMatchObject({ refusal: { type: "damaged", at: 1, part: "private" } });
    expect(await refusal({ ...bad, submission: bad.submission.slice(1) })).toMatchObject({
      refusal: { type: "damaged", at: 1, part: "submission" },
    });
    expect(await refusal(new MadeDevice(3).say({ book: OTHER_BOOK }))).toMatchObject({
      refusal: { type: "other-book", at: 1, book: OTHER_BOOK },
    });
    expect(await ledger.size()).toBe(0);
    await ledger.close();
  });

  test("a file must be there before the entry that names it", async () => {
    const there = new Set<string>();
    const { ledger, device } = await begin({ has: async (file) => there.has(file) });
    const digest = digestFromHash(sha256(new Uint8Array(3)));
    const offer = device.say({ says: { files: [{ digest, name: "a.csv", size: 3 }] } });
    expect(await ledger.append([offer])).toMatchObject({ refusal: { type: "file-missing", at: 0, file: digest } });
    there.add(digest);
    expect(numbersOf(answerOf(await ledger.append([offer])))).toEqual([["taken", 1]]);
    await ledger.close();
  });
}

function acceptsRequests(begin: Begin): void {
  test("entries are found by subject, by person, by id and by what they rest on, as known at any number", async () => {
    const { ledger, device } = await begin();
    const subjects = [{ role: "instrument", id: thing(1) }];
    const ground = device.say({ subjects, by: thing(9) });
    const rests = device.say({ subjects: [{ role: "cylinder", id: thing(2) }, ...subjects], restsOn: [ground.id], kind: "gas-tested" });
    answerOf(await ledger.append([ground, rests, device.say()]));
    const numbers = async (...query: Parameters<Ledger["about"]>) => (await ledger.about(...query)).map(({ number }) => number);
    expect(await numbers(thing(1))).toEqual([2, 1]);
    expect(await numbers(thing(1), { upTo: 1 })).toEqual([1]);
    expect(await numbers(thing(1), { kinds: ["gas-tested"], limit: 5 })).toEqual([2]);
    expect(await numbers(thing(1), { limit: 1 })).toEqual([2]);
    expect(await numbers(thing(9))).toEqual([1]);
    expect([await ledger.newestAbout(thing(2)), await ledger.newestAbout(thing(3))]).toEqual([2, 0]);
    expect(await ledger.restingOn(ground.id)).toEqual([2]);
    expect((await ledger.byId(rests.id))?.number).toBe(2);
    await ledger.close();
  });

  test("a request is judged on fresh facts; what is not granted, or stale, leaves nothing behind", async () => {
    const { ledger, device } = await begin();
    const about = (id: number) => ({ subjects: [{ role: "instrument", id: thing(id) }] });
    answerOf(await ledger.append([device.say(about(1))]));
    const asked = device.say({ ...about(1), manner: "request", kind: "returned" });
    const seen: unknown[] = [];
    const refused = await ledger.append([asked], {
      decide: async (offered, facts) => {
        seen.push(
          offered.map(({ kind }) => kind),
          await facts.newestAbout(thing(1)),
        );
        return { type: "not-granted", reason: "not-withdrawn", detail: "" };
      },
    });
    expect([seen, refused]).toMatchObject([[["returned"], 1], { refusal: { type: "not-granted", reason: "not-withdrawn" } }]);
    const expecting = (newest: number) => ledger.append([asked], { expect: [{ subject: thing(1), newest }] });
    expect(await expecting(0)).toMatchObject({ refusal: { type: "stale", subject: thing(1), newest: 1 } });
    expect(await ledger.size()).toBe(1);
    expect(numbersOf(answerOf(await expecting(1)))).toEqual([["taken", 2]]);
    await ledger.close();
  });
}

function acceptsFindings(begin: Begin): void {
  test("a request whose answer was lost is not judged again: it is there already", async () => {
    const { ledger, device } = await begin();
    const asked = device.say({ subjects: [{ role: "instrument", id: thing(1) }], manner: "request", kind: "returned" });
    const terms = { expect: [{ subject: thing(1), newest: 0 }] };
    expect(numbersOf(answerOf(await ledger.append([asked], terms)))).toEqual([["taken", 1]]);
    const never = async () => ({ type: "not-granted", reason: "not-withdrawn", detail: "" }) as const;
    expect(numbersOf(answerOf(await ledger.append([asked], { ...terms, decide: never })))).toEqual([["exists", 1]]);
    await ledger.close();
  });

  test("a fault of the judge, or of what derives, goes on to the caller and leaves nothing behind", async () => {
    const { ledger, device } = await begin();
    const fault = async () => {
      throw new Error("a fault of our own");
    };
    const offer = device.say({ subjects: [{ role: "instrument", id: thing(1) }] });
    await expect(ledger.append([offer], { decide: fault })).rejects.toThrow("a fault of our own");
    await expect(ledger.append([offer], { derive: fault })).rejects.toThrow("a fault of our own");
    expect([await ledger.size(), await ledger.newestAbout(thing(1))]).toEqual([0, 0]);
    expect(numbersOf(answerOf(await ledger.append([offer])))).toEqual([["taken", 1]]);
    expect(await ledger.newestAbout(thing(1))).toBe(1);
    await ledger.close();
  });

  test("two who expect the same at once: one is taken, the other is told", async () => {
    const { keeper, opening, ledger, device } = await begin();
    const second = await keeper.open(opening);
    const say = (who: MadeDevice) => who.say({ subjects: [{ role: "instrument", id: thing(1) }] });
    const expect1 = { expect: [{ subject: thing(1), newest: 0 }] };
    const answers = await Promise.all([ledger.append([say(device)], expect1), second.append([say(new MadeDevice(2))], expect1)]);
    expect(answers.map(({ ok }) => ok).sort()).toEqual([false, true]);
    await Promise.all([ledger.close(), second.close()]);
  });
}

function acceptsProcesses(begin: Begin): void {
  test("several processes on one place number without holes", async () => {
    const { keeper, opening, ledger } = await begin();
    const others = await Promise.all([1, 2, 3].map(() => keeper.open(opening)));
    const ledgers = [ledger, ...others];
    const devices = ledgers.map((_, at) => new MadeDevice(at + 1));
    const all = ledgers.flatMap((one, at) =>
      Array.from({ length: 10 }, async () => answerOf(await one.append([(devices[at] as MadeDevice).say()]))),
    );
    const numbers = (await Promise.all(all)).flat().map(({ number }) => number);
    expect(numbers.sort((one, other) => one - other)).toEqual(Array.from({ length: 40 }, (_, at) => at + 1));
    expect(await ledger.chainFaults()).toEqual([]);
    for (const one of ledgers) await one.close();
  });

  test("holes and forks of a device are told, and a hole that is filled is none any more", async () => {
    const { ledger, device } = await begin();
    const [one, two, three] = [device.say(), device.say(), device.say()];
    answerOf(await ledger.append([one]));
    const [late] = answerOf(await ledger.append([three]));
    expect(late).toEqual({ type: "taken", number: 2, remarks: [{ type: "hole-before", from: 2, to: 2 }] });
    expect(await ledger.chainFaults()).toMatchObject([
      { device: device.device, remark: { type: "hole-before", from: 2, to: 2 }, number: 2 },
    ]);
    answerOf(await ledger.append([two]));
    expect(await ledger.chainFaults()).toEqual([]);
    device.sequence = 2;
    const [fork] = answerOf(await ledger.append([device.say()]));
    expect(fork).toMatchObject({
      type: "taken",
      number: 4,
      remarks: [
        { type: "chain-forks", sequence: 3, other: 2 },
        { type: "chain-forks", sequence: 2, other: 3 },
      ],
    });
    expect((await ledger.chainFaults()).map(({ remark }) => remark.type)).toContain("chain-forks");
    await ledger.close();
  });

  test("a device that knew a head which this book never had is told", async () => {
    const { ledger, device } = await begin();
    answerOf(await ledger.append([device.say()]));
    const { root } = await ledger.head();
    const knows = (size: number, of: Uint8Array) => device.say({ head: { size, root: digestFromHash(of) } });
    const answers = answerOf(await ledger.append([knows(1, root), knows(1, sha256(root)), knows(9, root)]));
    expect(answers.map((answer) => (answer.type === "taken" ? answer.remarks : null))).toEqual([
      [],
      [{ type: "unknown-head", size: 1 }],
      [{ type: "unknown-head", size: 9 }],
    ]);
    await ledger.close();
  });
}

function acceptsChains(begin: Begin): void {
  test("a place put back to an older copy takes nothing until a person has said why", async () => {
    const { keeper, opening, ledger, device } = await begin();
    answerOf(await ledger.append([device.say()]));
    await ledger.close();
    const putBack = await keeper.keep();
    const grown = await keeper.open(opening);
    answerOf(await grown.append([device.say(), device.say()]));
    await grown.close();
    await putBack();
    const older = await keeper.open(opening);
    const other = new MadeDevice(4);
    expect(await older.append([other.say()])).toMatchObject({ refusal: { type: "held", why: "smaller", known: 3, found: 1 } });
    expect(await older.size()).toBe(1);
    answerOf(await older.append([other.say({ kind: "book-put-back", sequence: 1 })]));
    expect(await older.append([other.say()])).toMatchObject({ refusal: { type: "held" } });
    await older.goOn();
    expect(numbersOf(answerOf(await older.append([other.say()])))).toEqual([["taken", 3]]);
    await older.close();
    const again = await keeper.open(opening);
    expect(numbersOf(answerOf(await again.append([other.say()])))).toEqual([["taken", 4]]);
    await again.close();
  });

  test("a place that went another way than the known head takes nothing", async () => {
    const { keeper, opening, ledger, device } = await begin();
    answerOf(await ledger.append([device.say()]));
    await ledger.close();
    const putBack = await keeper.keep();
    const grown = await keeper.open(opening);
    answerOf(await grown.append([device.say()]));
    await grown.close();
    await putBack();
    const silent = await keeper.open({ ...opening, knownHead: rememberedHead() });
    answerOf(await silent.append([new MadeDevice(5).say()]));
    await silent.close();
    const odd = await keeper.open(opening);
    expect(await odd.append([device.say()])).toMatchObject({ refusal: { type: "held", why: "at-odds", known: 2, found: 2 } });
    await odd.close();
  });

  test("derived rows come back as they went in, of their own edition only", async () => {
    const { ledger, device } = await begin();
    const row = { name: "standing", key: thing(1), edition: 3, bytes: Uint8Array.of(1, 2, 3) };
    answerOf(await ledger.append([device.say()], { derive: async (taken) => taken.map(() => row) }));
    expect(await ledger.derived("standing", thing(1), 3)).toEqual({ ...row, head: 1 });
    expect([await ledger.derived("standing", thing(1), 4), await ledger.derived("standing", thing(2), 3)]).toEqual([null, null]);
    await ledger.keepDerived([{ ...row, head: 1, bytes: Uint8Array.of(9) }]);
    expect((await ledger.derived("standing", thing(1), 3))?.bytes).toEqual(Uint8Array.of(9));
    await ledger.close();
  });
}

function acceptsOlderCopies(begin: Begin): void {
  test("a part that is disposed of is gone, and the tree stays whole", async () => {
    const { ledger, device } = await begin();
    answerOf(await ledger.append([device.say({ keepsPrivate: { name: "Ines Calloway" } }), device.say()]));
    const { root } = await ledger.head();
    expect(await ledger.dispose([{ number: 1, part: "private" }])).toBe(1);
    expect(await ledger.dispose([{ number: 1, part: "private" }])).toBe(0);
    const kept = await ledger.entry(1);
    expect([kept?.private, kept?.body === null, (await ledger.head()).root]).toEqual([null, false, root]);
    const leaf = leafHash(kept?.bytes.entry ?? new Uint8Array(0), sha256);
    expect(holdsLeaf({ index: 0, size: 2, leaf, proof: await ledger.inclusion(1, 2), head: root }, sha256)).toBe(true);
    await ledger.close();
  });

  test("one reader sees one state from its first call to its last", async () => {
    const { ledger, device } = await begin();
    answerOf(await ledger.append([device.say()]));
    const sizes = await ledger.reading(async (facts) => {
      const before = await facts.size();
      answerOf(await ledger.append([device.say({ says: { more: true } })]));
      return [before, await facts.size(), await ledger.size()];
    });
    expect(sizes).toEqual([1, 1, 2]);
    expect(openedPart((await ledger.entry(2))?.body ?? new Uint8Array(0))).toEqual({ ok: true, value: { more: true } });
    await ledger.close();
  });

  test("the same book is told by its id", async () => {
    const { ledger } = await begin();
    expect([ledger.book, await ledger.size(), await ledger.entry(1)]).toEqual([BOOK, 0, null]);
    await ledger.close();
  });
}
