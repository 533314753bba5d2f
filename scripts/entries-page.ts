import { type Count, type EntryForm, FORMS, type Schema } from "../src/core/instrument/index.ts";
import { codeWords, roleWords } from "../src/report/index.ts";

/** docs/entries.md: every kind of entry in words, as its schema file says it. */
export function entriesPage(): string {
  const forms = [...FORMS.values()].flat();
  const definitions = definitionsOf(forms);
  return [
    "# What entries say",
    "",
    "Written from `src/core/instrument/entries` by `node scripts/write-docs.ts`; a test holds both equal. Each kind and form has a file of",
    "JSON Schema there that stands alone; a released file is never edited. Around the body stands the envelope: who, when, about what, resting",
    "on what ([decision 0007](decisions/0007-what-an-envelope-holds.md)). A request is judged and may be refused; a report is always kept. All",
    "members are always there; what nobody knows is `null`. Bodies hold codes and digits as they were shown.",
    "",
    "## Kinds",
    "",
    "| kind | form | is |",
    "| --- | --- | --- |",
    ...forms.map(({ kind, form, title, manner }) => `| [\`${kind}\`](#${headingLink(kind, form)}) | ${form} | ${title}; a ${manner} |`),
    ...forms.flatMap(kindSection),
    "",
    "## Pieces that several kinds share",
    ...[...definitions].flatMap(([name, schema]) => pieceSection(name, schema)),
    "",
  ].join("\n");
}

/** A piece is the same in every file of a release; where a later form changes it, each text is shown. */
function definitionsOf(forms: readonly EntryForm[]): ReadonlyMap<string, Schema> {
  const found = new Map<string, Schema>();
  for (const { schemas } of forms)
    for (const schema of [schemas.body, schemas.private])
      for (const [name, piece] of Object.entries((schema?.["$defs"] ?? {}) as Readonly<Record<string, Schema>>)) found.set(name, piece);
  return new Map([...found].sort(([one], [other]) => (one < other ? -1 : 1)));
}

const headingLink = (kind: string, form: number): string => `${kind}-form-${form}`;

function kindSection(entry: EntryForm): readonly string[] {
  const { kind, form, title, description, manner, subjects, restsOn, schemas } = entry;
  const named = subjects.map(({ roles, count, description }) => {
    const parts = roles.map((role) => `\`${role}\` (${roleWords(role)})`).join(" or ");
    return `- ${COUNTS[count]} ${parts}${description === undefined ? "" : `: ${lower(description)}`}`;
  });
  const grounds = restsOn.map(({ count, kinds, description }) => {
    const sorts = kinds.length === 0 ? "entry" : kinds.map((one) => `\`${one}\``).join(" or ");
    return `- ${COUNTS[count]} ${sorts}${description === undefined ? "" : `: ${lower(description)}`}`;
  });
  return [
    ...["", `### ${kind}, form ${form}`, "", `**${title}.** ${description} A ${manner}.`, ""],
    ...list("Subjects:", named),
    ...list("Rests on:", grounds),
    ...members(schemas.body, "It says nothing more."),
    ...(schemas.private === null ? [] : ["", `Private part (${entry.privatePart}):`, "", ...members(schemas.private, "")]),
  ];
}

const COUNTS: Readonly<Record<Count, string>> = { one: "one", "at-most-one": "at most one", some: "one or more", any: "any number of" };
const list = (heading: string, lines: readonly string[]): readonly string[] => (lines.length === 0 ? [] : [heading, "", ...lines, ""]);
const lower = (sentence: string): string => cell(sentence.slice(0, 1).toLowerCase() + sentence.slice(1));

function members(schema: Schema, otherwise: string): readonly string[] {
  const rows = rowsOf(schema, "");
  return rows.length === 0 ? [otherwise] : ["| member | holds | says |", "| --- | --- | --- |", ...rows];
}

/** A record inside a record is shown member by member, as long as it is no shared piece. */
function rowsOf(schema: Schema, before: string): readonly string[] {
  const properties = Object.entries((schema["properties"] ?? {}) as Readonly<Record<string, Schema>>);
  return properties.flatMap(([name, member]) => {
    const { inner, suffix } = innermost(member);
    const path = `${before}${name}`;
    const row = `| \`${path}${suffix}\` | ${cell(holds(member, name))} | ${cell((member["description"] as string | undefined) ?? "")} |`;
    return [row, ...rowsOf(inner, `${path}${suffix}.`)];
  });
}

function innermost(schema: Schema): { readonly inner: Schema; readonly suffix: string } {
  const [first] = (schema["anyOf"] ?? []) as readonly Schema[];
  if (first !== undefined && isOrNull(schema)) return innermost(first);
  if (schema["type"] !== "array") return { inner: schema, suffix: "" };
  const { inner, suffix } = innermost(schema["items"] as Schema);
  return { inner, suffix: `[]${suffix}` };
}

const isOrNull = (schema: Schema): boolean => {
  const ways = (schema["anyOf"] ?? []) as readonly Schema[];
  return ways.length === 2 && ways[1]?.["type"] === "null";
};

function holds(schema: Schema, member: string): string {
  if (typeof schema["$ref"] === "string") return pieceLink(schema["$ref"].replace("#/$defs/", ""));
  const ways = (schema["anyOf"] ?? []) as readonly Schema[];
  if (ways.length > 0) return ways.map((way) => (isOrNull(schema) ? holds(way, member) : holdsAsWay(way, member))).join(" or ");
  const codes = (schema["enum"] ?? ("const" in schema ? [schema["const"]] : null)) as readonly string[] | null;
  if (codes !== null) return codes.map((code) => `\`${code}\` (${codeWords(member, code)})`).join(", ");
  if (schema["type"] === "array")
    return `list of ${schema["minItems"]} to ${schema["maxItems"]}: ${holds(schema["items"] as Schema, member)}`;
  if (schema["type"] === "integer") return `whole number ${schema["minimum"]} to ${schema["maximum"]}`;
  if (schema["type"] === "string") return schema["maxLength"] === undefined ? "text" : `text of at most ${schema["maxLength"]} letters`;
  return SORTS[String(schema["type"])] ?? String(schema["type"]);
}

/** One of several records is told by its members. */
function holdsAsWay(way: Schema, member: string): string {
  if (way["type"] !== "object") return holds(way, member);
  const properties = Object.entries(way["properties"] as Readonly<Record<string, Schema>>);
  return `record of ${properties.map(([name, one]) => `${name} ${holds(one, name)}`).join(" and ")}`;
}

const SORTS: Readonly<Record<string, string>> = { object: "record", boolean: "true or false", null: "null" };
const pieceLink = (name: string): string => `[${name}](#${name.toLowerCase()})`;

function pieceSection(name: string, schema: Schema): readonly string[] {
  const said = schema["description"] === undefined ? [] : [String(schema["description"]), ""];
  const pattern = schema["pattern"] === undefined ? [] : [`Pattern: \`${schema["pattern"]}\``];
  const body =
    schema["type"] === "object" ? members(schema, "") : [`Holds: ${cell(holds(schema, name))}.`, ...pattern.flatMap((line) => ["", line])];
  return ["", `### ${name}`, "", ...said, ...body];
}

/** Text inside a table of Markdown. */
const cell = (text: string): string => text.replaceAll("|", "\\|").replaceAll("<", "&lt;").replaceAll("\n", " ");
