/** Help as text: examples first, then flags, notes and exit codes. */
import { COMMANDS, type Command, EXIT_CODES, type Flag, GLOBAL_FLAGS } from "./commands.ts";

/** Columns of a page of help: what a narrow terminal still shows whole. */
const WIDTH = 100;

export function mainHelp(): string {
  const examples = COMMANDS.flatMap(({ examples: all }) => all.slice(0, 2));
  return [
    "lamproom: turns recordings of portable gas detectors into what people breathed.",
    "",
    "Examples",
    ...examples.flatMap(({ call, says }) => [`  ${call}`, `      ${says}`]),
    "",
    "Commands",
    ...COMMANDS.flatMap(({ name, says }) => entry(name, says)),
    "",
    "Flags",
    ...GLOBAL_FLAGS.flatMap(flagEntry),
    "",
    ...exitLines(),
  ].join("\n");
}

export function commandHelp(command: Command): string {
  return [
    command.says,
    "",
    "Examples",
    ...command.examples.flatMap(({ call, says }) => [`  ${call}`, `      ${says}`]),
    "",
    "Usage",
    `  ${command.usage}`,
    "",
    "Flags",
    ...command.flags.flatMap(flagEntry),
    "",
    ...command.notes.flatMap((note) => [...wrapped(note, WIDTH), ""]),
    ...exitLines(),
  ].join("\n");
}

export function flagUsage(flag: Flag): string {
  return `${flag.name}${flag.value === null ? "" : ` ${flag.value}`}`;
}

function flagEntry(flag: Flag): string[] {
  return entry(flagUsage(flag), `${flag.says}${flag.repeats ? " May be repeated." : ""}`);
}

function entry(head: string, says: string): string[] {
  return [`  ${head}`, ...wrapped(says, WIDTH - 6).map((line) => `      ${line}`)];
}

function exitLines(): string[] {
  return [
    "Exit codes",
    ...EXIT_CODES.flatMap(([code, says]) =>
      wrapped(says, WIDTH - 7).map((line, index) => `  ${(index === 0 ? String(code) : "").padStart(3)}  ${line}`),
    ),
  ];
}

/** Breaks a sentence between words. */
export function wrapped(text: string, width: number): string[] {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(" ")) {
    if (line !== "" && line.length + 1 + word.length > width) {
      lines.push(line);
      line = word;
    } else line = line === "" ? word : `${line} ${word}`;
  }
  return [...lines, line];
}
