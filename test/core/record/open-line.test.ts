import fc from "fast-check";
import { expect, test } from "vitest";
import { canonicalJson, fromOpenLine, type LineBytes, openLine, utf8FromText } from "../../../src/core/record/index.ts";

const text = (value: unknown): Uint8Array => {
  const written = canonicalJson(value);
  if (!written.ok) throw new Error(written.refusal.why);
  return utf8FromText(written.value);
};

const anyBytes = fc.uint8Array({ maxLength: 60 });
const record = fc.dictionary(fc.string(), fc.oneof(fc.string(), fc.integer(), fc.constant(null))).map(text);
const salted = fc
  .tuple(
    fc.uint8Array({ minLength: 16, maxLength: 16 }),
    fc
      .jsonValue()
      .filter((value) => canonicalJson(value).ok)
      .map(text),
  )
  .map(([salt, bytes]) => Uint8Array.from([...salt, ...bytes]));
const part = fc.option(fc.oneof(anyBytes, salted), { nil: null });
const envelope = fc.oneof(anyBytes, record, fc.constant(text({ bytes: "AAAA" })), fc.constant(text({ bytes: 1, more: 2 })));

test("any bytes, readable or not, come back as they were", () => {
  fc.assert(
    fc.property(fc.record({ entry: envelope, submission: envelope, body: part, private: part }), (bytes: LineBytes) => {
      const line = openLine(bytes);
      expect(line).not.toContain("\n");
      expect(fromOpenLine(line)).toEqual({ ok: true, value: bytes });
    }),
    { numRuns: 1000 },
  );
});

test("a value as deep as canonical text may be comes back, too", () => {
  const deep = (levels: number): unknown => (levels === 0 ? 1 : { a: deep(levels - 1) });
  for (const levels of [61, 62, 63, 64]) {
    const value = text(deep(levels));
    const bytes = { entry: value, submission: value, body: Uint8Array.from([...new Uint8Array(16), ...value]), private: null };
    expect(fromOpenLine(openLine(bytes))).toEqual({ ok: true, value: bytes });
  }
});

const whole = openLine({ entry: text({ a: 1 }), submission: text({ b: 2 }), body: new Uint8Array(20), private: null });

test.each([
  ["", "line"],
  ["[]", "line"],
  [`${whole} `, "line"],
  [whole.replace('"private":null,', '"private":null,"private":null,'), "line"],
  [whole.replace('{"a":1}', "7"), "entry"],
  [whole.replace('{"b":2}', '{"bytes":"*"}'), "submission"],
  [whole.replace(/"body":\{[^}]*\}/, '"body":{"salt":"AAAA","value":1}'), "body"],
  [whole.replace('"private":null', '"private":{"salt":1}'), "private"],
])("%s is refused at %s", (line, at) => {
  expect(fromOpenLine(line)).toEqual({ ok: false, refusal: { type: "not-an-open-line", at } });
});
