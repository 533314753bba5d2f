/** Rows that can be made again are never believed: each carries a checksum over all that it says. */
import { utf8FromText } from "../../core/record/index.ts";
import type { KeptDerived } from "../ledger.ts";
import { sha256 } from "./hash.ts";

export function derivedChecksum({ name, key, edition, head, bytes }: KeptDerived): Uint8Array {
  const label = utf8FromText(JSON.stringify([name, key, edition, head]));
  const all = new Uint8Array(label.length + bytes.length);
  all.set(label);
  all.set(bytes, label.length);
  return sha256(all);
}

export const sameBytes = (one: Uint8Array, other: Uint8Array): boolean =>
  one.length === other.length && one.every((byte, at) => byte === other[at]);
