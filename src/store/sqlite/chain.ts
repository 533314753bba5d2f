/** The chains of the devices: holes, forks, and heads that this book never had. */
import { hashFromDigest, type Submission, type SubtreeHeads } from "../../core/record/index.ts";
import type { ChainFault, Remark } from "../ledger.ts";
import { sameBytes } from "./derived.ts";
import type { Rows } from "./facts.ts";
import type { Checked } from "./offered-submission.ts";
import { rootAt } from "./tree-rows.ts";

type Prepared = (sql: string) => ReturnType<Rows["database"]["prepare"]>;

/** What a person must hear of, looked for before the submission is written. */
export function remarksOn(
  { submission, digest }: Checked,
  size: number,
  heads: SubtreeHeads,
  { book }: Rows,
  prepared: Prepared,
): readonly Remark[] {
  const { device, sequence } = submission;
  const remarks: Remark[] = [];
  const before = prepared("select max(sequence) as newest from entry where book = ? and device = ? and sequence < ?").get(
    book,
    device,
    sequence,
  );
  const newest = Number(before?.["newest"] ?? 0);
  if (newest < sequence - 1) remarks.push({ type: "hole-before", from: newest + 1, to: sequence - 1 });
  for (const { number, found, own, other } of prepared(NEIGHBOURS).all(book, device, sequence - 1, sequence + 1)) {
    const isFork =
      found === sequence || (found === sequence - 1 && own !== submission.previous) || (found === sequence + 1 && other !== digest);
    if (isFork) remarks.push({ type: "chain-forks", sequence: Number(found), other: Number(number) });
  }
  if (isUnknownHead(submission.head, size, heads)) remarks.push({ type: "unknown-head", size: submission.head?.size ?? 0 });
  return remarks;
}

const NEIGHBOURS = `select number, sequence as found, digest as own, previous as other from entry
  where book = ? and device = ? and sequence between ? and ? order by number`;

function isUnknownHead(known: Submission["head"], size: number, heads: SubtreeHeads): boolean {
  if (known === null) return false;
  return known.size > size || !sameBytes(rootAt(known.size, heads), hashFromDigest(known.root));
}

/** As the book is now: a hole that was filled is none any more. */
export function chainFaults({ book }: Rows, prepared: Prepared): readonly ChainFault[] {
  const holes = prepared(HOLES)
    .all(book)
    .map((row) => faultOf(row, { type: "hole-before", from: Number(row["before"]) + 1, to: Number(row["sequence"]) - 1 }));
  const forks = prepared(FORKS)
    .all(book)
    .map((row) => faultOf(row, { type: "chain-forks", sequence: Number(row["sequence"]), other: Number(row["other"]) }));
  const heads = prepared("select number, device, size from unknown_head join entry using (book, number) where book = ?")
    .all(book)
    .map((row) => faultOf(row, { type: "unknown-head", size: Number(row["size"]) }));
  return [...holes, ...forks, ...heads];
}

const faultOf = (row: Readonly<Record<string, unknown>>, remark: Remark): ChainFault => ({
  ...{ device: String(row["device"]), remark, number: Number(row["number"]) },
});

const HOLES = `select * from (select device, sequence, number,
    coalesce(lag(sequence) over (partition by device order by sequence, number), 0) as before
  from entry where book = ?) where sequence > before + 1`;

const FORKS = `select later.device, later.sequence, later.number, earlier.number as other from entry as later
  join entry as earlier on earlier.book = later.book and earlier.device = later.device and earlier.number <> later.number
  where later.book = ? and ((earlier.sequence = later.sequence and earlier.number < later.number)
    or (earlier.sequence = later.sequence - 1 and earlier.digest <> later.previous))`;
