import { describe, expect, test } from "vitest";
import { FORMS, type Kind, newestForm, readBody, type Schema, sayable } from "../../src/core/instrument/index.ts";
import { sealedPart } from "../../src/core/record/index.ts";
import { hasWords } from "../../src/report/entry-words.ts";
import { codeWords, kindWords, notSayableWords, roleWords, unreadWords } from "../../src/report/index.ts";
import { CORPUS } from "../cases/forms/corpus.ts";
import { answerOf } from "../cases/golden-rows.ts";

const forms = [...FORMS.values()].flat();

describe("nothing that a form may hold lacks words", () => {
  test.each([...new Set(forms.map(({ kind }) => kind))])("kind %s", (kind) => {
    expect(hasWords("kind", kind)).toBe(true);
  });

  test.each([...new Set(forms.flatMap(({ subjects }) => subjects.flatMap(({ roles }) => roles)))])("role %s", (role) => {
    expect(hasWords("role", role)).toBe(true);
  });

  const codes = forms.flatMap(({ schemas }) =>
    [schemas.body, schemas.private].flatMap((one) => (one === null ? [] : codesIn(one, one, ""))),
  );
  test.each([...new Set(codes)])("code %s", (code) => {
    const [member = "", word = ""] = code.split(" ");
    expect(hasWords("code", word)).toBe(true);
    expect(codeWords(member, word)).toMatch(/^[A-Z0-9a-z]/);
  });
});

/** Every code with the member that holds it, also through the definitions of a file. */
function codesIn(schema: Schema, root: Schema, member: string): readonly string[] {
  const definitions = root["$defs"] as Readonly<Record<string, Schema>>;
  const inner = (one: unknown, name: string): readonly string[] => codesIn(one as Schema, root, name);
  if (typeof schema["$ref"] === "string") return inner(definitions[schema["$ref"].replace("#/$defs/", "")], member);
  return [
    ...((schema["enum"] ?? ("const" in schema ? [schema["const"]] : [])) as readonly string[]).map((code) => `${member} ${code}`),
    ...((schema["anyOf"] ?? []) as readonly Schema[]).flatMap((one) => inner(one, member)),
    ...(schema["items"] === undefined ? [] : inner(schema["items"], member)),
    ...Object.entries((schema["properties"] ?? {}) as object).flatMap(([name, one]) => inner(one, name)),
  ];
}

test("what another release wrote is shown as it stands, without control characters", () => {
  expect([kindWords("gas-sung-to"), roleWords("singer"), codeWords("cause", "high-wind")]).toEqual(["gas-sung-to", "singer", "high-wind"]);
  expect(kindWords("\u001b[2Jx")).not.toContain("\u001b");
  expect(kindWords("constructor")).toBe("constructor");
});

describe("every misfit of the corpus is a sentence that names its place", () => {
  const now = "2026-03-04T07:31:00.000Z";
  test.each(CORPUS)("$kind", ({ kind, bad, goodPrivate }) => {
    const form = newestForm(kind as Kind);
    const id = "7d1e2f30-4152-4637-8859-6a7b8c9dae0f";
    const subjects = form.subjects.filter(({ count }) => count === "one").map(({ roles }) => ({ role: roles[0] ?? "", id }));
    const restsOn = form.restsOn.some(({ count }) => count !== "any") ? ["018f3c2a-7b11-7c3d-9e2f-1a2b3c4d5e6f"] : [];
    for (const { body, at } of bad) {
      const said = sayable({
        ...{ kind: kind as "tag-lent", happened: { earliest: now, latest: now, basis: "typed" as const }, by: null, subjects, restsOn },
        // A body that does not fit is what is tried here.
        ...{ body: body as { readonly tag: string }, private: (goodPrivate?.[0] ?? null) as null },
      });
      if (said.ok) throw new Error("it was said");
      const sentence = notSayableWords(said.refusal);
      expect(sentence).toMatch(/^[A-Z].*: (is|holds) .*\.$/s);
      const last = at.findLast((step) => typeof step === "string");
      if (typeof last === "string")
        expect(sentence.toLowerCase()).toContain(
          last
            .replaceAll(/([A-Z])/g, " $1")
            .replaceAll("-", " ")
            .toLowerCase(),
        );
    }
  });
});

describe("why an entry of the book cannot be used", () => {
  const envelope = { ...{ kind: "tag-lent", form: 1, manner: "report" as const, restsOn: [], private: null }, subjects: [] };
  const named = { ...envelope, subjects: [{ role: "instrument", id: "7d1e2f30-4152-4637-8859-6a7b8c9dae0f" }] };
  const sealed = (value: unknown) => answerOf(sealedPart(value, new Uint8Array(16)));

  test.each([
    [{ ...named, kind: "gas-sung-to" }, sealed({}), "This release does not know entries of the kind gas-sung-to."],
    [{ ...named, form: 3 }, sealed({}), '"tag lent" up to form 1; this one is of form 3'],
    [named, null, "What it said was disposed of"],
    [envelope, sealed({}), "It does not fit its form. Exactly one instrument must be named; 0 are."],
    [{ ...named, manner: "request" as const }, sealed({}), "It happened and is reported; it cannot be asked for."],
    [
      { ...named, kind: "rules-agreed", subjects: [], manner: "request" as const },
      sealed({}),
      'It must rest on exactly one entry "rules set"; it rests on 0.',
    ],
    [named, sealed({ tag: 7 }), "It does not fit its form. Tag: is not text."],
    [named, new Uint8Array(20), "It does not fit its form. The whole: cannot be kept as text"],
    [named, new Uint8Array(4), "Its bytes cannot be read."],
  ])("%#", (submission, body, words) => {
    expect(unreadWords(readBody(submission, { body, private: null }))).toContain(words);
  });

  test("one that can be used is none of these", () => {
    expect(unreadWords(readBody(named, { body: sealed({ tag: "MB-07" }), private: null }))).toBeNull();
  });
});
