import { hash } from "node:crypto";

/** SHA-256 by the machine's own library. */
export const sha256 = (bytes: Uint8Array): Uint8Array => new Uint8Array(hash("sha256", bytes, "buffer"));
