/** Reads a whole book and holds it against itself: digests, numbers, the tree, the head. */
import { expect } from "vitest";
import { type Digest, digestOf, EMPTY_TREE, grown, leafHash, treeHead } from "../../src/core/record/index.ts";
import { filesNamed } from "../../src/store/files-named.ts";
import type { Ledger } from "../../src/store/ledger.ts";
import { sha256 } from "./made-submissions.ts";

export async function whole(ledger: Ledger): Promise<{ readonly ids: readonly string[]; readonly named: readonly Digest[] }> {
  const ids: string[] = [];
  const named = new Set<Digest>();
  let tree = EMPTY_TREE;
  const head = await ledger.head();
  await ledger.walk(1, head.size + 1000, ({ number, entry, submission, bytes, body }) => {
    expect([number, entry.number]).toEqual([ids.length + 1, ids.length + 1]);
    expect(digestOf(bytes.submission, sha256)).toBe(entry.submission);
    expect(body === null ? null : digestOf(body, sha256)).toBe(submission.body);
    for (const file of filesNamed(body ?? new Uint8Array(0))) named.add(file);
    tree = grown(tree, leafHash(bytes.entry, sha256), sha256);
    ids.push(submission.id);
    return true;
  });
  expect([tree.size, treeHead(tree, sha256)]).toEqual([head.size, head.root]);
  return { ids, named: [...named] };
}
