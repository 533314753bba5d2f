/** Which files an entry names: they must be durable before it, and are looked for when a book is checked. */
import { type Digest, isDigest, openedPart } from "../core/record/index.ts";

/** Every member `digest` of a body, however deep. A body that cannot be opened names none, and is kept all the same. */
export function filesNamed(body: Uint8Array): readonly Digest[] {
  // Most bodies name none, and need not be read for that.
  if (!Buffer.from(body.buffer, body.byteOffset, body.byteLength).includes('"digest":"sha256:')) return [];
  const opened = openedPart(body);
  return opened.ok ? [...digestsIn(opened.value)] : [];
}

function* digestsIn(value: unknown): Generator<Digest> {
  if (typeof value !== "object" || value === null) return;
  for (const [name, member] of Object.entries(value)) {
    if (name === "digest" && isDigest(member)) yield member;
    else yield* digestsIn(member);
  }
}
