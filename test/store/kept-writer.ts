/** Run as a process of its own by kill.test.ts: writes to a book until it is killed, and says ACK after each answer. */
import { join } from "node:path";
import { folderFiles } from "../../src/store/folder/files.ts";
import { openLedger } from "../../src/store/sqlite/ledger.ts";
import { BOOK, MadeDevice, madeOutbox, madeSigner, rememberedHead } from "./made-submissions.ts";

const [, , folder = "", device = "1", first = "1"] = process.argv;
const files = folderFiles(join(folder, "files"));
const opened = await openLedger({
  ...{ path: join(folder, "book.sqlite"), book: BOOK, signer: madeSigner(), knownHead: rememberedHead(), files, now: Date.now },
  onTrouble: (fault) => {
    throw fault;
  },
});
if (!opened.ok) throw new Error(JSON.stringify(opened.refusal));
const ledger = opened.value;
const outbox = madeOutbox(join(folder, `outbox-${device}.sqlite`));
const writer = new MadeDevice(Number(device));

async function* once(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
  yield bytes;
}

/** Ids are told before they are offered: whatever is found later must be one of them. */
for (let count = Number(first); ; count += 1) {
  const group = count % 5 === 0 ? 16 : 1;
  const kept = count % 7 === 0 ? await files.put(once(new Uint8Array(40_000 + count).fill(count))) : null;
  const named =
    kept?.ok === true ? { files: [{ digest: kept.value.digest, name: "made", size: kept.value.size }] } : { note: String(count) };
  const offers = Array.from({ length: group }, () => writer.say({ says: named, id: idOf(count, writer.sequence) }));
  for (const { id } of offers) process.stdout.write(`SENT ${id}\n`);
  const answers = await ledger.append(offers);
  if (!answers.ok) throw new Error(JSON.stringify(answers.refusal));
  for (const [at, { number }] of answers.value.entries()) process.stdout.write(`ACK ${number} ${offers[at]?.id ?? ""}\n`);
  if (kept?.ok === true) process.stdout.write(`FILE ${kept.value.digest}\n`);
  if (count % 3 === 0) await throughOutbox(count);
}

/** KEPT once the outbox has it; from then on it is there or in the book, whenever this process is killed. */
async function throughOutbox(count: number): Promise<void> {
  const said = await outbox.say({
    ...{ kind: "upset-seen", form: 1, manner: "report", by: null, subjects: [], restsOn: [], private: null },
    happened: { earliest: "2026-03-04T07:30:00.000Z", latest: "2026-03-04T07:31:00.000Z", basis: "device-clock" },
    body: { note: String(count) },
  });
  if (!said.ok) throw new Error(JSON.stringify(said.refusal));
  process.stdout.write(`KEPT ${said.value.id}\nSENT ${said.value.id}\n`);
  const answers = await ledger.append([said.value.offered]);
  if (!answers.ok) throw new Error(JSON.stringify(answers.refusal));
  for (const answer of answers.value) {
    process.stdout.write(`ACK ${answer.number} ${said.value.id}\n`);
    await outbox.answered(said.value.id, answer);
  }
}

function idOf(count: number, sequence: number): string {
  const device4 = Number(device).toString(16).padStart(4, "0");
  return `018f3c2a-${device4}-7000-8${count.toString(16).padStart(3, "0").slice(-3)}-${(count * 1000 + sequence).toString(16).padStart(12, "0")}`;
}
