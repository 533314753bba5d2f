/** Run as a process of its own by kill.test.ts: writes to a book until it is killed, and says ACK after each answer. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { folderFiles } from "../../src/store/folder/files.ts";
import { openLedger } from "../../src/store/sqlite/ledger.ts";
import { BOOK, MadeDevice, madeSigner, rememberedHead } from "./made-submissions.ts";

const [, , folder = "", device = "1", first = "1"] = process.argv;
const files = folderFiles(join(folder, "files"));
const opened = await openLedger({
  ...{ path: join(folder, "book.sqlite"), book: BOOK, signer: madeSigner(), knownHead: rememberedHead(), files, now: Date.now },
  onTrouble: (fault) => {
    throw fault;
  },
});
if (!opened.ok) throw new Error(JSON.stringify(opened.refusal));
const writer = new MadeDevice(Number(device));

async function* once(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
  yield bytes;
}

/** Ids are told before they are offered: whatever is found later must be one of them. */
for (let count = Number(first); ; count += 1) {
  const group = count % 5 === 0 ? 16 : 1;
  const kept = count % 7 === 0 ? await files.put(once(readFileSync(process.execPath).subarray(0, 40_000 + count))) : null;
  const named =
    kept?.ok === true ? { files: [{ digest: kept.value.digest, name: "made", size: kept.value.size }] } : { note: String(count) };
  const offers = Array.from({ length: group }, () => writer.say({ says: named, id: idOf(count, writer.sequence) }));
  for (const { id } of offers) process.stdout.write(`SENT ${id}\n`);
  const answers = await opened.value.append(offers);
  if (!answers.ok) throw new Error(JSON.stringify(answers.refusal));
  for (const [at, { number }] of answers.value.entries()) process.stdout.write(`ACK ${number} ${offers[at]?.id ?? ""}\n`);
  if (kept?.ok === true) process.stdout.write(`FILE ${kept.value.digest}\n`);
}

function idOf(count: number, sequence: number): string {
  const device4 = Number(device).toString(16).padStart(4, "0");
  return `018f3c2a-${device4}-7000-8${count.toString(16).padStart(3, "0").slice(-3)}-${(count * 1000 + sequence).toString(16).padStart(12, "0")}`;
}
