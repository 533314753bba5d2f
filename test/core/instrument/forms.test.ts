import { Ajv2020 } from "ajv/dist/2020.js";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  type EntryForm,
  envelopeFault,
  FORMS,
  formTable,
  groundsFault,
  newestForm,
  readBody,
  type Schema,
  type WhatIsRead,
} from "../../../src/core/instrument/index.ts";
import { type Json, sealedPart } from "../../../src/core/record/index.ts";
import { CORPUS, idOf, submissionOf } from "../../cases/forms/corpus.ts";

const forms = [...FORMS.values()].flat();
const salt = new Uint8Array(16).fill(7);
const sealed = (value: unknown): Uint8Array => {
  const part = sealedPart(value, salt);
  if (!part.ok) throw new Error(JSON.stringify(part.refusal));
  return part.value;
};

/** An envelope that fits a form: one subject in the first role of each demand, as many grounds as are demanded. */
function fitting(form: EntryForm, hasPrivate = form.privatePart === "always"): WhatIsRead {
  const subjects = form.subjects.filter(({ count }) => count === "one" || count === "some");
  const grounds = form.restsOn.filter(({ count }) => count === "one" || count === "some");
  return {
    kind: form.kind,
    form: form.form,
    manner: form.manner,
    subjects: subjects.map(({ roles }, index) => ({ role: roles[0] ?? "", id: idOf(index) })),
    restsOn: grounds.map((_, index) => submissionOf(index)),
    private: hasPrivate ? `sha256:${"0".repeat(64)}` : null,
  };
}

describe("the files are JSON Schema of the part that is read here", () => {
  test.each(forms.map((form) => [`${form.kind}.${form.form}`, form] as const))("%s", (_, { schemas }) => {
    for (const schema of [schemas.body, schemas.private]) {
      if (schema === null) continue;
      expect(new Ajv2020({ strict: false }).validateSchema({ ...schema })).toBe(true);
      expect(schemasIn(schema).filter((one) => one["type"] === "object" && one["additionalProperties"] !== false)).toEqual([]);
      expect(schemasIn(schema).filter(isUnbounded)).toEqual([]);
      expect(membersIn(schema).filter(({ schema: one, required }) => !required.includes(one))).toEqual([]);
    }
  });
});

/** Every schema within a schema, itself too. */
function schemasIn(schema: Schema): readonly Schema[] {
  const inside = Object.values(schema).flatMap((value) => (typeof value === "object" && value !== null ? schemasIn(value as Schema) : []));
  return "type" in schema || "$ref" in schema || "enum" in schema ? [schema, ...inside] : inside;
}

const isUnbounded = (schema: Schema): boolean =>
  (schema["type"] === "array" && schema["maxItems"] === undefined) ||
  (schema["type"] === "integer" && (schema["minimum"] === undefined || schema["maximum"] === undefined)) ||
  (schema["type"] === "string" && schema["maxLength"] === undefined && !/\{\d+(,\d+)?\}|^\^\(\[01\]/.test(String(schema["pattern"])));

const membersIn = (schema: Schema) =>
  schemasIn(schema)
    .filter((one) => one["type"] === "object")
    .flatMap((one) =>
      Object.keys(one["properties"] as object).map((name) => ({ schema: name, required: one["required"] as readonly string[] })),
    );

describe("what another reader of JSON Schema takes is taken here, and nothing else", () => {
  const bodies = CORPUS.flatMap(({ kind, form, good, bad }) =>
    [...good, ...bad.map(({ body }) => body)].map((body) => ({ kind, form, body: body as Json })),
  );
  const oracles = new Map(forms.map(({ kind, schemas }) => [kind, compiled(schemas.body)] as const));

  test("bodies with one thing changed", () => {
    fc.assert(
      fc.property(fc.constantFrom(...bodies), fc.nat(), fc.nat(), changes(), ({ kind, form, body }, which, way, value) => {
        const changed = changedAt(body, which, way, value);
        const mine = FORMS.get(kind)?.[form - 1]?.body(changed);
        expect(mine === null).toBe(oracles.get(kind)?.(changed));
      }),
      { numRuns: 6000 },
    );
  });
});

const compiled = (schema: Schema) => {
  const day = (text: string) => new Date(`${text}T00:00:00Z`).toISOString().startsWith(text);
  const formats = {
    date: (text: string) => !Number.isNaN(Date.parse(text)) && day(text),
    "date-time": (text: string) => !Number.isNaN(Date.parse(text)) && new Date(text).toISOString() === text,
  };
  return new Ajv2020({ strict: false, formats }).compile({ ...schema });
};

function changes(): fc.Arbitrary<Json> {
  const words = [
    "",
    "yes",
    "passed",
    "[ppm]",
    "-1",
    "0",
    "20.9",
    "1e3",
    "2026-02-29",
    "2024-02-29",
    "2026-03-04T07:31:00.000Z",
    "🝗",
    "a".repeat(201),
  ];
  return fc.oneof(
    fc.constantFrom<Json>(null, true, false, -1, 0, 1, 0.5, 21, 1e300, [], {}, ...words),
    fc.constantFrom(...CORPUS.flatMap(({ good }) => good as readonly Json[])),
    fc.string({ unit: "grapheme", maxLength: 12 }),
    fc.stringMatching(/^[0-9a-z:.-]{0,24}$/),
  );
}

/** The value with the part numbered `which` (in the order of reading) replaced, deleted, doubled, or given a member more. */
function changedAt(value: Json, which: number, way: number, put: Json): Json {
  const copy = structuredClone({ root: value }) as unknown as { root: Json };
  const places: { holder: Record<string, Json> | Json[]; key: string }[] = [];
  const walk = (holder: Record<string, Json> | Json[]): void => {
    for (const [key, inner] of Object.entries(holder)) {
      places.push({ holder, key });
      if (typeof inner === "object" && inner !== null) walk(inner as Record<string, Json>);
    }
  };
  walk(copy as unknown as Record<string, Json>);
  const { holder, key } = places[which % places.length] as (typeof places)[number]; // there is always the root
  const inner = (holder as Record<string, Json>)[key] as Json;
  if (way % 4 === 1 && !Array.isArray(holder) && holder !== (copy as unknown)) delete holder[key];
  else if (way % 4 === 2 && Array.isArray(inner)) (inner as Json[]).push(put);
  else if (way % 4 === 3 && typeof inner === "object" && inner !== null && !Array.isArray(inner))
    (inner as Record<string, Json>)["more"] = put;
  else (holder as Record<string, Json>)[key] = put;
  return copy.root;
}

describe("an entry is read by its form", () => {
  const tagLent = fitting(newestForm("tag-lent"));
  const body = sealed({ tag: "MB-07" });

  test.each(CORPUS)("$kind: what fits is known", ({ kind, form, good, goodPrivate }) => {
    for (const [index, one] of good.entries()) {
      const found = FORMS.get(kind)?.[form - 1];
      if (found === undefined) throw new Error(kind);
      const privatePart = goodPrivate?.[index] ?? null;
      const parts = { body: sealed(one), private: privatePart === null ? null : sealed(privatePart) };
      expect(readBody(fitting(found, privatePart !== null), parts)).toEqual({
        ...{ type: "known", kind, body: one, private: privatePart, isPrivateDisposed: false },
      });
    }
  });

  test.each(CORPUS)("$kind: what does not fit is told with its place", ({ kind, form, bad, good, badPrivate }) => {
    const envelope = fitting(newestForm(kind as "tag-lent"), badPrivate !== undefined);
    for (const { body, at, why } of bad)
      expect(readBody(envelope, { body: sealed(body), private: null })).toMatchObject({
        ...{ type: "misfit", kind, form, why: { part: "body", fault: { at, why: { type: why } } } },
      });
    for (const { body, at, why } of badPrivate ?? [])
      expect(readBody(envelope, { body: sealed(good[0]), private: sealed(body) })).toMatchObject({
        ...{ type: "misfit", kind, form, why: { part: "private", fault: { at, why: { type: why } } } },
      });
  });

  test.each([
    ["a kind of another release", { ...tagLent, kind: "tag-sung-to" }, body, { type: "unknown-kind", kind: "tag-sung-to" }],
    ["a kind named like a thing of the language", { ...tagLent, kind: "constructor" }, body, { type: "unknown-kind", kind: "constructor" }],
    ["a form of another release", { ...tagLent, form: 2 }, body, { type: "unknown-form", kind: "tag-lent", form: 2, newest: 1 }],
    ["a body that was disposed of", tagLent, null, { type: "disposed", kind: "tag-lent", form: 1 }],
    ["bytes without salt", tagLent, new Uint8Array(3), { type: "misfit", why: { part: "body", fault: { type: "not-a-sealed-part" } } }],
    [
      "text in another order",
      tagLent,
      withText('{"tag" :"x"}'),
      { type: "misfit", why: { part: "body", fault: { type: "not-canonical" } } },
    ],
    ["a member that stands twice", tagLent, withText('{"tag":"x","tag":"x"}'), { type: "misfit", why: { part: "body" } }],
    [
      "a request of what happens",
      { ...tagLent, manner: "request" as const },
      body,
      { type: "misfit", why: { part: "envelope", fault: { type: "manner", wanted: "report" } } },
    ],
    [
      "no instrument",
      { ...tagLent, subjects: [] },
      body,
      { type: "misfit", why: { fault: { type: "role-count", roles: ["instrument"], wanted: "one", found: 0 } } },
    ],
    [
      "two instruments",
      { ...tagLent, subjects: [1, 2].map((n) => ({ role: "instrument", id: idOf(n) })) },
      body,
      { type: "misfit", why: { fault: { type: "role-count", found: 2 } } },
    ],
    [
      "a role that it does not know",
      { ...tagLent, subjects: [...tagLent.subjects, { role: "witness", id: idOf(3) }] },
      body,
      { type: "misfit", why: { fault: { type: "role-not-known", role: "witness" } } },
    ],
    [
      "a private part where there is none",
      { ...tagLent, private: `sha256:${"0".repeat(64)}` as const },
      body,
      { type: "misfit", why: { fault: { type: "private-part", wanted: "never" } } },
    ],
  ] as const)("%s", (_, submission, bytes, wanted) => {
    expect(readBody(submission, { body: bytes, private: null })).toMatchObject(wanted);
  });

  test("a private part that was disposed of leaves the rest to be read", () => {
    const read = readBody(fitting(newestForm("person-registered")), { body: sealed({ duties: ["tester"] }), private: null });
    expect(read).toMatchObject({ type: "known", body: { duties: ["tester"] }, private: null, isPrivateDisposed: true });
  });

  test("a person without a private part does not fit", () => {
    const read = readBody(fitting(newestForm("person-registered"), false), { body: sealed({ duties: [] }), private: null });
    expect(read).toMatchObject({ type: "misfit", why: { fault: { type: "private-part", wanted: "always" } } });
  });

  test("whatever the bytes, it answers", () => {
    const anyForm = fc.constantFrom(...forms);
    fc.assert(
      fc.property(anyForm, fc.uint8Array({ maxLength: 60 }), fc.json({ maxDepth: 3 }), (form, bytes, text) => {
        const envelope = fitting(form);
        for (const one of [bytes, withText(text)]) expect(readBody(envelope, { body: one, private: one }).type).toMatch(/^(known|misfit)$/);
      }),
      { numRuns: 1000 },
    );
  });
});

function withText(text: string): Uint8Array {
  return new Uint8Array([...salt, ...new TextEncoder().encode(text)]);
}

describe("what an entry rests on", () => {
  test.each([
    ["gas-test-cause-claimed", ["gas-tested", "round-opened"], null],
    ["gas-test-cause-claimed", ["gas-tested", "gas-tested"], { wanted: "one", found: 2 }],
    ["gas-test-cause-claimed", ["round-opened"], { wanted: "one", found: 0 }],
    ["rules-agreed", ["rules-set"], null],
    ["rules-agreed", ["calibrated"], { kinds: ["rules-set"], wanted: "one", found: 0 }],
    ["returned", [], { kinds: [], wanted: "some", found: 0 }],
    ["returned", ["calibrated", "gas-tested"], null],
    ["rules-set", [], null],
  ] as const)("%s on %j", (kind, kinds, wanted) => {
    const fault = groundsFault(kinds, newestForm(kind));
    if (wanted === null) expect(fault).toBeNull();
    else expect(fault).toMatchObject({ type: "grounds-count", ...wanted });
  });

  test("without any where some are demanded, the envelope alone tells", () => {
    const claimed = newestForm("gas-test-cause-claimed");
    const envelope = { ...fitting(claimed), hasPrivate: false, restsOn: [] };
    expect(envelopeFault(envelope, claimed)).toMatchObject({ type: "grounds-count", found: 0 });
  });
});

describe("a later form", () => {
  const file = (form: number, members: readonly string[]): Schema => ({
    ...newestForm("tag-lent").schemas.body,
    "x-form": form,
    properties: Object.fromEntries(members.map((name) => [name, { type: "string", maxLength: 20 }])),
    required: members,
  });
  const files = [file(1, ["tag"]), file(2, ["tag", "colour"]), file(3, ["label", "colour"])];
  const raises = {
    "tag-lent.1": ({ body }: { readonly body: Json }) => ({ body: { ...(body as object), colour: "not said" }, private: null }),
    "tag-lent.2": ({ body }: { readonly body: Json }) => {
      const { tag, colour } = body as { readonly tag: string; readonly colour: string };
      return { body: { label: tag, colour }, private: null };
    },
  };
  const table = formTable(files, raises);
  const envelope = fitting(newestForm("tag-lent"));
  const read = (form: number, body: unknown) => readBody({ ...envelope, form }, { body: sealed(body), private: null }, table);

  test.each([
    [1, { tag: "7" }, { label: "7", colour: "not said" }],
    [2, { tag: "7", colour: "red" }, { label: "7", colour: "red" }],
    [3, { label: "7", colour: "red" }, { label: "7", colour: "red" }],
  ])("form %i is read as the newest", (form, body, wanted) => {
    expect(read(form, body)).toMatchObject({ type: "known", body: wanted });
  });

  test("each is held against the form that it was written in", () => {
    expect(read(1, { tag: "7", colour: "red" })).toMatchObject({ type: "misfit", form: 1, why: { fault: { at: ["colour"] } } });
    expect(read(4, {})).toMatchObject({ type: "unknown-form", newest: 3 });
  });

  test("a raise that does not give the next form is told, not believed", () => {
    const broken = formTable(files, { ...raises, "tag-lent.2": () => ({ body: { label: 7 }, private: null }) });
    const bytes = { body: sealed({ tag: "7", colour: "red" }), private: null };
    expect(readBody({ ...envelope, form: 2 }, bytes, broken)).toMatchObject({ type: "misfit", why: { fault: { at: ["label"] } } });
  });

  test("files with a hole, or without a raise, are not taken", () => {
    expect(() => formTable([file(2, ["tag"])], {})).toThrow("have no hole");
    expect(() => formTable(files, {})).toThrow("is raised from each form but the newest");
  });
});
