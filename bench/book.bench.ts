// How fast a book takes entries, beside a bare durable insert of the same bytes into SQLite in the same run: durable
// means synced before the answer (WAL, synchronous=FULL). `npm run bench -- book`.
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { DatabaseSync } from "node:sqlite";
import type { Offered } from "../src/store/ledger.ts";
import { openLedger, type SqliteLedger } from "../src/store/sqlite/ledger.ts";
import { BOOK, MadeDevice, madeSigner, rememberedHead, thing } from "../test/store/made-submissions.ts";

const SINGLES = 600;
const GROUPS = 150;
const GROUP = 16;
const RUNS = 5;

const median = (values: readonly number[]): number => [...values].sort((one, other) => one - other)[Math.floor(values.length / 2)] ?? 0;
const folder = await mkdtemp(join(tmpdir(), "lamproom-bench-book-"));
let count = 0;

/** A gas test of four gases: about 1 kB in all, four things and a person. */
function offers(device: MadeDevice, howMany: number): readonly Offered[] {
  const channels = ["oxygen", "methane", "carbon_monoxide", "hydrogen_sulphide"].map((gas) => ({
    gas,
    result: "passed",
    alarmsReached: [{ name: "low", seconds: "8" }],
  }));
  return Array.from({ length: howMany }, () => {
    count += 1;
    const subjects = ["cylinder", "instrument", "station"].map((role, at) => ({ role, id: thing(at * 1000 + (count % 40)) }));
    return device.say({ subjects, by: thing(9000), kind: "gas-tested", says: { channels, count } });
  });
}

async function perSecond(howMany: number, act: () => Promise<void> | void): Promise<number> {
  const start = performance.now();
  await act();
  return (howMany / (performance.now() - start)) * 1000;
}

function bareInsert(): { readonly insert: (one: Offered) => void; readonly close: () => void } {
  const database = new DatabaseSync(join(folder, `bare-${(count += 1)}.sqlite`));
  database.exec(
    "pragma journal_mode=wal; pragma synchronous=full; create table bare (number integer primary key, submission blob, body blob)",
  );
  const statement = database.prepare("insert into bare (submission, body) values (?, ?)");
  return { insert: (one) => void statement.run(one.submission, one.body), close: () => database.close() };
}

async function newLedger(): Promise<SqliteLedger> {
  const path = join(folder, `book-${(count += 1)}.sqlite`);
  const opened = await openLedger({
    ...{ path, book: BOOK, signer: madeSigner(), knownHead: rememberedHead(), files: null, now: Date.now },
    onTrouble: (fault) => {
      throw fault;
    },
  });
  if (!opened.ok) throw new Error(JSON.stringify(opened.refusal));
  return opened.value;
}

async function taken(ledger: SqliteLedger, all: readonly Offered[]): Promise<void> {
  const answers = await ledger.append(all);
  if (!answers.ok) throw new Error(JSON.stringify(answers.refusal));
}

const figures = { bare: [] as number[], single: [] as number[], grouped: [] as number[], beside: [] as number[] };
for (let run = 0; run < RUNS; run += 1) {
  const bare = bareInsert();
  const ledger = await newLedger();
  const device = new MadeDevice(run + 1);
  const [plain, singles] = [offers(new MadeDevice(100 + run), SINGLES), offers(device, SINGLES)];
  const groups = Array.from({ length: GROUPS }, () => offers(device, GROUP));
  figures.bare.push(
    await perSecond(SINGLES, () => {
      for (const one of plain) bare.insert(one);
    }),
  );
  figures.single.push(
    await perSecond(SINGLES, async () => {
      for (const one of singles) await taken(ledger, [one]);
    }),
  );
  figures.grouped.push(
    await perSecond(GROUPS * GROUP, async () => {
      for (const group of groups) await taken(ledger, group);
    }),
  );
  figures.beside.push(1000 / (figures.single.at(-1) ?? 1) - 1000 / (figures.bare.at(-1) ?? 1));
  bare.close();
  await ledger.close();
}
await rm(folder, { recursive: true });

const [bare, single, grouped] = [median(figures.bare), median(figures.single), median(figures.grouped)];
process.stdout.write(`medians of ${RUNS} runs in turns, ${SINGLES} single entries and ${GROUPS} groups of ${GROUP}; durable before each answer
bare durable insert     ${bare.toFixed(0)} a second
entry, one a commit     ${single.toFixed(0)} a second (${(single / bare).toFixed(2)}x the bare insert; aim 0.5)
entries, ${GROUP} a commit   ${grouped.toFixed(0)} a second (${(grouped / bare).toFixed(2)}x the bare insert; aim 2)
beside the sync         ${median(figures.beside).toFixed(2)} ms an entry (aim 1)
`);
