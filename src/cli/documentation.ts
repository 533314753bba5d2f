/** docs/cli.md, written from the same data as the help. */
import { calculators } from "../work/slate/index.ts";
import { COMMANDS, type Command, EXIT_CODES, type Flag, GLOBAL_FLAGS } from "./commands.ts";
import { flagUsage } from "./help.ts";
import { calculatorHelp } from "./slate-command.ts";

export function cliPage(): string {
  return [
    "# Command line",
    "",
    "This page is written from the descriptions that also make `--help` (`src/cli/commands.ts`); do not edit it by hand.",
    "From a clone, `npm run -s lamproom -- …` stands for `lamproom …`. Standard output holds the answer and nothing else; every message goes to standard error. NO_COLOR is respected, and nothing is coloured where the answer goes into a file or a pipe.",
    "",
    ...COMMANDS.flatMap(commandSection),
    "## Calculators of the slate",
    "",
    ...calculators.flatMap((calculator) => [
      `### ${calculator.id}: ${calculator.title}`,
      "",
      "```",
      calculatorHelp(calculator),
      "```",
      "",
      `Schemas: [input](schemas/slate-${calculator.id}-input.json), [answer](schemas/slate-${calculator.id}-answer.json).`,
      "",
    ]),
    "## Everywhere",
    "",
    ...flagTable(GLOBAL_FLAGS),
    "",
    "## Exit codes",
    "",
    "| code | meaning |",
    "| --- | --- |",
    ...EXIT_CODES.map(([code, says]) => `| ${code} | ${says} |`),
    "",
    "What each refusal means: [errors](errors.md). Forms of the JSON: [schemas/exposure.json](schemas/exposure.json), [schemas/mapping.json](schemas/mapping.json), [schemas/own-limits.json](schemas/own-limits.json).",
    "",
  ].join("\n");
}

function commandSection({ name, usage, says, examples, flags, notes }: Command): string[] {
  return [
    `## lamproom ${name}`,
    "",
    says,
    "",
    "```",
    ...examples.flatMap(({ call, says: what }) => [`# ${what}`, call]),
    "```",
    "",
    `Usage: \`${usage}\``,
    "",
    ...flagTable(flags),
    "",
    ...notes.flatMap((note) => [note, ""]),
  ];
}

function flagTable(flags: readonly Flag[]): string[] {
  return [
    "| flag | meaning |",
    "| --- | --- |",
    ...flags.map((flag) => `| \`${flagUsage(flag)}\` | ${flag.says}${flag.repeats ? " May be repeated." : ""} |`),
  ];
}
