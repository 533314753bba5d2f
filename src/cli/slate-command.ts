/** `lamproom slate NAME`: JSON in, the answer with its grounds out. */
import { callWords, exitCodeOf, inertJson, nearestNames, type Refusal, withVisibleTexts } from "../report/index.ts";
import type { Calculator, Field, SlateAnswer } from "../work/slate/description.ts";
import { calculators, numberExpected, workOut } from "../work/slate/index.ts";
import { parsedJson } from "../work/texts-given.ts";
import { SLATE } from "./commands.ts";
import type { ReadFlags } from "./flags.ts";
import { commandHelp, wrapped } from "./help.ts";
import type { Surroundings } from "./surroundings.ts";

export async function runSlate(flags: ReadFlags, surroundings: Surroundings): Promise<number> {
  const [name, file = "-", ...rest] = flags.words;
  const wantsHelp = flags.values.has("--help");
  if (name === undefined)
    return wantsHelp
      ? say(`${commandHelp(SLATE)}\n\n${calculatorList()}\n`, surroundings)
      : slateRefusal({ type: "no-such-calculator", name: "", near: [] }, false, surroundings);
  const calculator = calculators.find(({ id }) => id === name);
  if (calculator === undefined)
    return slateRefusal(
      {
        type: "no-such-calculator",
        name,
        near: nearestNames(
          name,
          calculators.map(({ id }) => id),
        ),
      },
      false,
      surroundings,
    );
  if (wantsHelp) return say(`${calculatorHelp(calculator)}\n`, surroundings);
  if (rest.length > 0) return slateRefusal({ type: "unknown-flag", name: rest.join(" "), near: [] }, false, surroundings);
  return answer(calculator, file, flags.values.has("--json"), surroundings);
}

async function answer(calculator: Calculator, file: string, json: boolean, surroundings: Surroundings): Promise<number> {
  const text = await surroundings.readText(file);
  if (!text.ok) return slateRefusal(text.refusal, json, surroundings);
  const input = parsedJson(text.value);
  if (input === undefined)
    return slateRefusal(
      { type: "input-not-json", why: text.value.trim() === "" ? "it is empty" : "its brackets, quotation marks or commas do not fit" },
      json,
      surroundings,
    );
  const worked = workOut(calculator.id, input);
  if (!worked.ok) return slateRefusal(worked.refusal, json, surroundings);
  return say(
    json ? `${inertJson(JSON.stringify(worked.value, null, 2))}\n` : slatePage(withVisibleTexts(worked.value), calculator),
    surroundings,
  );
}

function say(text: string, surroundings: Surroundings): number {
  surroundings.answer(text);
  return 0;
}

/** With --json the refusal is an answer too, so that whoever reads it needs one form only. */
function slateRefusal(refusal: Refusal, json: boolean, surroundings: Surroundings): number {
  const { message, mend } = callWords(refusal);
  if (json)
    surroundings.answer(`${inertJson(JSON.stringify({ form: "lamproom-slate/1", refusal: { ...refusal, message, mend } }, null, 2))}\n`);
  else surroundings.message(`${message} ${mend}\n`);
  return exitCodeOf(refusal);
}

function slatePage({ sentence, grounds, cautions, sources }: SlateAnswer, { title }: Calculator): string {
  const lines = [
    sentence,
    "",
    ...section("Rests on", grounds),
    ...section("Cautions", cautions),
    ...section(
      "Sources",
      sources.map((source) => `${source.title}${source.mark === "read" ? "" : ` (${source.mark})`}`),
    ),
    `${title}. JSON with every figure: --json`,
  ];
  return `${lines.join("\n")}\n`;
}

function section(title: string, sentences: readonly string[]): string[] {
  return sentences.length === 0 ? [] : [title, ...sentences.flatMap((sentence) => wrapped(sentence, 96).map((line) => `  ${line}`)), ""];
}

export function calculatorList(): string {
  return ["Calculators", ...calculators.flatMap(({ id, says }) => [`  ${id}`, ...wrapped(says, 94).map((line) => `      ${line}`)])].join(
    "\n",
  );
}

/** Help of one calculator: an example that can be run as it stands, then its inputs. */
export function calculatorHelp(calculator: Calculator): string {
  const examples = calculator.examples.flatMap(({ says, input }) => [
    `  echo '${JSON.stringify(input)}' | lamproom slate ${calculator.id}`,
    `      ${says}`,
  ]);
  return [
    calculator.says,
    "",
    "Examples",
    ...examples,
    "",
    "Input (JSON)",
    ...calculator.inputs.flatMap((field) => fieldLines(field, "  ")),
    "",
    ...section("Cautions", calculator.cautions),
  ]
    .join("\n")
    .trimEnd();
}

function fieldLines(field: Field, indent: string): string[] {
  const need = field.required ? "" : ", may be left out";
  const head = `${indent}${field.name}: ${fieldExpected(field)}${need}`;
  const rows = field.type === "rows" ? field.fields.flatMap((inner) => fieldLines(inner, `${indent}    `)) : [];
  return [head, ...wrapped(field.says, 90).map((line) => `${indent}    ${line}`), ...rows];
}

function fieldExpected(field: Field): string {
  switch (field.type) {
    case "number":
      return `${numberExpected(field)}${field.unit === null ? "" : ` (${field.unit})`}`;
    case "choice":
      return `${field.choices.map(({ value }) => `"${value}"`).join(", ")}${field.otherwise === null ? "" : ` (otherwise "${field.otherwise}")`}`;
    case "gas":
      return "an id or a name of the gas table";
    case "text":
      return "a text";
    case "rows":
      return `a list of ${field.fewest} to ${field.most} rows, each with`;
  }
}
