// Every form that was ever released: its file, and bodies that it takes and does not take.
import { createHash } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { Ajv2020 } from "ajv/dist/2020.js";
import { describe, expect, test } from "vitest";
import { root } from "../../../scripts/run-tool.ts";
import { FORMS } from "../../../src/core/instrument/index.ts";
import { CORPUS } from "./corpus.ts";
import released from "./released.json" with { type: "json" };

const folder = join(root, "src/core/instrument/entries");

describe("a released form is never edited", () => {
  const files = readdirSync(folder).sort();

  test.each(files)("%s", (name) => {
    const digest = createHash("sha256")
      .update(readFileSync(join(folder, name)))
      .digest("hex");
    expect(
      (released as Readonly<Record<string, string>>)[name],
      `${name} differs from what was released, or is not listed in released.json. Entries were written by it and must be read for good: ` +
        "put the old text back, write what is new as the next form of this kind (its own file), and a raise from this form to that one.",
    ).toBe(digest);
  });

  test("none has gone", () => {
    expect(files).toEqual(Object.keys(released).sort());
  });
});

test("every form has its bodies, and every kind its form", () => {
  const forms = [...FORMS.values()].flat().map(({ kind, form }) => `${kind}.${form}`);
  expect(CORPUS.map(({ kind, form }) => `${kind}.${form}`)).toEqual(forms.sort());
});

describe.each(CORPUS)("$kind, form $form", ({ kind, form, good, bad, goodPrivate, badPrivate }) => {
  const found = FORMS.get(kind)?.[form - 1];
  if (found === undefined) throw new Error(`no form ${form} of ${kind}`);
  // An independent reader of JSON Schema; its formats are the calendar of this platform.
  const oracle = new Ajv2020({ strict: false, formats: { date: isDay, "date-time": isInstant } });
  const parts = [
    { part: "body", check: found.body, schema: found.schemas.body, good, bad },
    { part: "private", check: found.private, schema: found.schemas.private, good: goodPrivate ?? [], bad: badPrivate ?? [] },
  ];

  test("has a private part where its file says so", () => {
    expect(goodPrivate === undefined).toBe(found.privatePart === "never");
    expect([good.length >= 2, bad.length >= 2]).toEqual([true, true]);
  });

  for (const { part, check, schema, good, bad } of parts) {
    if (check === null || schema === null) continue;
    const isFit = oracle.compile({ ...schema });
    test.each(good)(`${part} fits: %j`, (body) => {
      expect(check(body)).toBeNull();
      expect(isFit(body)).toBe(true);
    });
    test.each(bad.map((one) => [one.at.join("."), one.why, one] as const))(`${part} does not fit at "%s": %s`, (_at, _why, one) => {
      expect(check(one.body)).toMatchObject({ at: one.at, why: { type: one.why } });
      expect(isFit(one.body)).toBe(false);
    });
  }
});

function isDay(text: string): boolean {
  const at = new Date(`${text}T00:00:00.000Z`);
  return !Number.isNaN(at.getTime()) && at.toISOString().startsWith(text);
}

function isInstant(text: string): boolean {
  const at = new Date(text);
  return !Number.isNaN(at.getTime()) && at.toISOString() === text;
}
