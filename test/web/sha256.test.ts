import { createHash } from "node:crypto";
import fc from "fast-check";
import { expect, test } from "vitest";
import { RunningSha256 } from "../../src/web/desk/sha256.ts";

/** FIPS 180-4 examples (NIST, "SHA-256 examples", from memory): "abc" and the empty message. */
test.each([
  ["", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"],
  ["abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"],
])("SHA-256 of %j", (text, digest) => {
  const running = new RunningSha256();
  running.add(new TextEncoder().encode(text));
  expect(running.hex()).toBe(digest);
});

test("any bytes in any pieces give the digest that Node gives", () => {
  fc.assert(
    fc.property(fc.array(fc.uint8Array({ maxLength: 200 }), { maxLength: 12 }), (pieces) => {
      const running = new RunningSha256();
      const node = createHash("sha256");
      for (const piece of pieces) {
        running.add(piece);
        node.update(piece);
      }
      expect(running.hex()).toBe(node.digest("hex"));
    }),
  );
});
