/**
 * The command line as data: every command, flag, example and exit code once. Help, docs/cli.md, the reading of flags
 * and the search for a nearest name are all made from this.
 */

export interface Flag {
  /** With its dashes: "--regime". */
  readonly name: string;
  /** What stands after it, in capitals; null for a flag without a value. */
  readonly value: string | null;
  readonly repeats: boolean;
  readonly says: string;
}

export interface Example {
  readonly call: string;
  readonly says: string;
}

export interface Command {
  readonly name: string;
  readonly usage: string;
  readonly says: string;
  readonly examples: readonly Example[];
  readonly flags: readonly Flag[];
  readonly notes: readonly string[];
}

const JSON_FLAG: Flag = { name: "--json", value: null, repeats: false, says: "Print JSON (docs/schemas) instead of a page of text." };
const HELP_FLAG: Flag = { name: "--help", value: null, repeats: false, says: "Print this help." };

export const EXPOSURE: Command = {
  name: "exposure",
  usage: "lamproom exposure FILE… [FLAGS]",
  says: "What was breathed: averages, short-term windows, peaks and episodes of each channel, set against the limits.",
  examples: [
    { call: "lamproom exposure shift.csv", says: "one recording against every regime, each named" },
    { call: "lamproom exposure shift.csv --regime US-OSHA --regime GB-WEL --json", says: "two regimes, as JSON" },
    {
      call: "lamproom exposure tunnel/ --gas '*=carbon_monoxide' --start 2026-03-04T06:00:00Z",
      says: "all files of a folder that count seconds from their start",
    },
    {
      call: "lamproom exposure export.csv --zone Europe/London --unit 'CO=ppm' --save-mapping works.json",
      says: "answer what the file does not say, once",
    },
    { call: "lamproom exposure *.csv --mapping works.json", says: "and use the answers for every file with this heading" },
    {
      call: "lamproom exposure week.csv --shift 2026-03-02T22:00/2026-03-03T06:00 --shift 2026-03-03T22:00/2026-03-04T06:00",
      says: "two night shifts out of one long file",
    },
    {
      call: "lamproom exposure shift.csv --shift 06:00/14:00 --unsampled 2 --declared-by 'A. Hallam' --reason 'canteen, away from the plant'",
      says: "what the time without readings can have been, by name",
    },
    { call: "lamproom exposure shift.csv --declare statements.json", says: "statements of named persons about parts of the time" },
    {
      call: "lamproom exposure h2s.csv --measurable hydrogen_sulphide=1 --declared-by 'A. Hallam' --reason 'display step of the instrument'",
      says: "a setting of the site, which then stands in the answer",
    },
    { call: "cat shift.csv | lamproom exposure - --json", says: "from standard input" },
  ],
  flags: [
    {
      name: "--regime",
      value: "REGIME",
      repeats: true,
      says: "Set the readings against this regime's limits (US-OSHA, US-NIOSH, GB-WEL, EU-IOELV, FR, or one of your own). Without it: all, side by side.",
    },
    {
      name: "--gas",
      value: "CHANNEL=GAS",
      repeats: true,
      says: "The gas of a channel, by id or name of the gas table; *=GAS for every channel that does not say.",
    },
    {
      name: "--unit",
      value: "[CHANNEL=]UNIT",
      repeats: true,
      says: "The unit of the readings where the file does not say; without a channel, for every channel that does not: ppm, ppb, vol%, mol/mol, %LEL, mg/m3, ug/m3.",
    },
    {
      name: "--readings",
      value: "KIND",
      repeats: false,
      says: "What one reading is: spot (holds until the next), mean or peak (of the interval that it closes).",
    },
    {
      name: "--max-gap",
      value: "SECONDS",
      repeats: false,
      says: "Longest step that a reading stands for; beyond it the time is unsampled. Without it: 1.5 times the longest common step.",
    },
    { name: "--start", value: "INSTANT", repeats: false, says: "Instant of second 0 of a file that counts from its own start." },
    { name: "--zone", value: "ZONE", repeats: false, says: "Zone of times without an offset: Europe/London, +01:00." },
    {
      name: "--shift",
      value: "FROM/TO",
      repeats: true,
      says: "A shift, 24 h at most: instants, local times in the file's zone, clock times alone where the file has one such day, or seconds from the start. Without it the file is one shift.",
    },
    {
      name: "--unsampled",
      value: "HOW",
      repeats: false,
      says: "Unsampled time of a shift: open (nothing is known; the default), zero (nobody was exposed), like (like the sampled time), or the worst level in the channel's unit.",
    },
    {
      name: "--declared-by",
      value: "NAME",
      repeats: false,
      says: "Who says what --unsampled and the settings below say. Without it the answer states that nobody put a name to them.",
    },
    { name: "--reason", value: "TEXT", repeats: false, says: "Why; stands beside the name." },
    {
      name: "--declare",
      value: "FILE",
      repeats: true,
      says: "Statements of named persons about stretches of time: a JSON list (docs/schemas/declarations.json).",
    },
    {
      name: "--measurable",
      value: "GAS=VALUE",
      repeats: true,
      says: "From which level on an exposure counts as measurable (Table Z-2, once only), in the channel's unit: hydrogen_sulphide=1.",
    },
    {
      name: "--dead-band",
      value: "GAS=VALUE",
      repeats: true,
      says: "Up to which level the instrument shows nought: nought then stands for anything up to it.",
    },
    {
      name: "--negative-floor",
      value: "GAS=VALUE",
      repeats: true,
      says: "How far below nought a reading is still drift; what is lower is no reading. A number of 0 or more: 5 stands for -5.",
    },
    {
      name: "--means-stand-for-ceilings",
      value: null,
      repeats: false,
      says: "Take logged averages as they are for ceilings and peaks, although they can hide higher moments.",
    },
    {
      name: "--long-shift",
      value: "MODEL",
      repeats: false,
      says: "Also set shifts over 8 h against lowered 8-hour limits: brief-scala-daily.",
    },
    {
      name: "--answer",
      value: "ID=VALUE",
      repeats: true,
      says: "Answer a question by its id; confirm/*=yes takes every suggested answer. An id that no file has is a wrong call.",
    },
    {
      name: "--mapping",
      value: "FILE",
      repeats: true,
      says: "Use a saved mapping for files with its heading; others are read without it.",
    },
    { name: "--save-mapping", value: "FILE", repeats: false, says: "Save the answers for files with this heading." },
    {
      name: "--own-limits",
      value: "FILE",
      repeats: false,
      says: "Limits of your own beside the published ones (docs/schemas/own-limits.json).",
    },
    JSON_FLAG,
    HELP_FLAG,
  ],
  notes: [
    "A FILE may be a folder: its .csv, .tsv, .tab, .txt, .log and .senml files are read, in order of name. A file that is named itself is read whatever its name.",
    "What the file itself says is not overridden: a flag for one channel that contradicts it becomes a question, and one for all channels or the whole file is passed over with a note.",
    "Lines that cannot be read are listed, each with its number, and do not change the exit code.",
    "Outcomes are exceeds, within (the limit, on these data) or undetermined. None of them says that air or work is safe.",
  ],
};

export const SLATE: Command = {
  name: "slate",
  usage: "lamproom slate NAME [FILE] [FLAGS]",
  says: "Calculators that need no recording: JSON in from a file or standard input, the answer with its grounds out.",
  examples: [
    {
      call: `echo '{"value": 50, "from": "ppm", "to": "mg/m3", "gas": "carbon_monoxide", "molarVolume": "24.45"}' | lamproom slate unit`,
      says: "a conversion, with what it rests on",
    },
    {
      call: `echo '{"pieces": [{"minutes": 390, "level": 40}], "unsampledMinutes": 90, "limit": 50, "unit": "ppm"}' | lamproom slate twa --json`,
      says: "an 8-hour average by hand",
    },
    { call: "lamproom slate mixture --help", says: "what one calculator takes, and an example" },
  ],
  flags: [JSON_FLAG, HELP_FLAG],
  notes: [],
};

export const VERIFY: Command = {
  name: "verify",
  usage: "lamproom verify FOLDER|EXPORT [FLAGS]",
  says: "Whether a book is whole: every entry, part and file against its digest, the tree over all, the signed head.",
  examples: [
    { call: 'lamproom verify works/book --key "$(cat key-kept-elsewhere.txt)"', says: "against the key that was kept elsewhere" },
    { call: "lamproom verify works/book --json", says: "with the key that the book itself names, as JSON" },
  ],
  flags: [
    {
      name: "--key",
      value: "LINE",
      repeats: false,
      says: "The line of the public key, name+fingerprint+key. Without it the key of the book itself is taken, which shows only that the book agrees with itself.",
    },
    JSON_FLAG,
    HELP_FLAG,
  ],
  notes: [
    "Three verdicts: whole; not whole, with each entry that is wrong; not verified, with the reason. The last is not the first. Only whole ends with exit code 0, the others with 1.",
    "It shows that nothing was changed since it was received, not that what was written is right.",
  ],
};

const KEY_FLAG: Flag = {
  name: "--key",
  value: "LINE",
  repeats: false,
  says: "The line of the public key that what is written is checked with afterwards. Without it the key that the book itself names.",
};

export const BOOK: Command = {
  name: "book",
  usage: "lamproom book new FOLDER --name NAME --zone ZONE [FLAGS]",
  says: "Begins the book of a site: its folder, its key, and the rules that it starts with.",
  examples: [
    { call: "lamproom book new works/book --name 'Marl Beck' --zone Europe/London", says: "an empty book, its key in the usual place" },
    { call: "lamproom book new works/book --name 'Marl Beck' --zone Europe/London --keys /media/keys", says: "its key elsewhere" },
  ],
  flags: [
    { name: "--name", value: "NAME", repeats: false, says: "Name of the site." },
    { name: "--zone", value: "ZONE", repeats: false, says: "Time zone of the site: Europe/London." },
    {
      name: "--keys",
      value: "FOLDER",
      repeats: false,
      says: "Folder for the private key, outside of that of the book. Without it: LAMPROOM_KEYS, or lamproom/keys in the folder for settings.",
    },
    { name: "--demonstration", value: null, repeats: false, says: "A book of invented things, marked so on every page." },
    JSON_FLAG,
    HELP_FLAG,
  ],
  notes: ["The server finds its book by LAMPROOM_BOOK, and keys by LAMPROOM_KEYS."],
};

export const EXPORT: Command = {
  name: "export",
  usage: "lamproom export FOLDER OUT [FLAGS]",
  says: "Writes a whole book into a folder in an open form, with words on how to check it, and checks what was written.",
  examples: [
    { call: "lamproom export works/book works/2026-03-04", says: "one line of JSON an entry, heads, keys, files" },
    { call: 'lamproom verify works/2026-03-04 --key "$(cat key-kept-elsewhere.txt)"', says: "checks it anywhere" },
  ],
  flags: [KEY_FLAG, JSON_FLAG, HELP_FLAG],
  notes: [
    "It may run while others write: what leaves is the book as it was at one moment.",
    "The export holds private parts, names of people among them. The form is described in docs/methods/record.md.",
  ],
};

export const IMPORT: Command = {
  name: "import",
  usage: "lamproom import EXPORT FOLDER [FLAGS]",
  says: "Brings a book back from its export: the same entries under the same numbers, times and head.",
  examples: [{ call: "lamproom import works/2026-03-04 works/book", says: "into a folder that is not there yet" }],
  flags: [KEY_FLAG, JSON_FLAG, HELP_FLAG],
  notes: ["An export that is not whole is not brought back. To write into the book, its private key must be on this machine."],
};

export const COMMANDS: readonly Command[] = [EXPOSURE, SLATE, BOOK, VERIFY, EXPORT, IMPORT];

export const GLOBAL_FLAGS: readonly Flag[] = [
  { name: "--help", value: null, repeats: false, says: "Print help; also after a command." },
  { name: "--version", value: null, repeats: false, says: "Print the version." },
];

export const EXIT_CODES: readonly (readonly [number, string])[] = [
  [0, "Every file or calculation was answered; faulty lines that were left out are listed."],
  [
    1,
    "A file was refused or has open questions (a gas that is not named is one), no file was read, no mapping fits, or an input does not fit; all others were answered.",
  ],
  [2, "The call is wrong: a flag, a gas, a regime, a mapping, an answer to no question, a channel that no file has."],
  [3, "The disk did not do its part: a file could not be read or written."],
  [70, "A fault of this program itself; the other files were answered."],
  [130, "Stopped by Ctrl-C."],
];
