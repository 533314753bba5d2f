/** Refusals of a call: a flag, a calculator's input, a port. */
import { type Catalogue, shortened } from "./catalogue.ts";
import { countText } from "./digits.ts";
import type { CallRefusal, SlateRefusal } from "./door-refusal.ts";

/** More ids than these are no help in one sentence. */
const MOST_IDS = 12;

/** `"level" in row 1 of "pieces" (pieces/0/level)`: names as the help of a calculator has them, and the place in the JSON. */
function inputWords(path: string): string {
  const [list, row, ...rest] = path.split("/");
  if (row === undefined) return `"${path}"`;
  const name = rest.join("/");
  return `${name === "" ? "Row" : `"${name}" in row`} ${Number(row) + 1} of "${list}" (${path})`;
}

export const REFUSALS_OF_CALLS: Catalogue<CallRefusal | SlateRefusal> = {
  "no-such-calculator": {
    exit: 2,
    status: 404,
    says: ({ name }) => `The slate has no calculator "${name}".`,
    mend: ({ near }) => (near.length > 0 ? `Did you mean ${near.join(" or ")}?` : "lamproom slate --help names them all."),
    example: { type: "no-such-calculator", name: "twaa", near: ["twa"] },
  },
  "input-not-json": {
    exit: 1,
    status: 400,
    says: ({ why }) => `The input is not JSON: ${why}.`,
    mend: () => "Send one JSON object; lamproom slate NAME --help shows one.",
    example: { type: "input-not-json", why: "unexpected end" },
  },
  "input-missing": {
    exit: 1,
    status: 422,
    says: ({ path }) => `${inputWords(path)} is missing.`,
    mend: ({ path }) => `Give ${inputWords(path)}; lamproom slate NAME --help says what it stands for.`,
    example: { type: "input-missing", path: "pieces/0/level" },
  },
  "input-unknown": {
    exit: 1,
    status: 422,
    says: ({ path }) => `This calculator has no input ${inputWords(path)}.`,
    mend: ({ near }) =>
      near.length > 0 ? `Did you mean ${near.join(" or ")}?` : "Take it away: what is not read must not look as if it were.",
    example: { type: "input-unknown", path: "limt", near: ["limit"] },
  },
  "input-not-fitting": {
    exit: 1,
    status: 422,
    says: ({ path, found, expected }) => `${inputWords(path)} is ${found}; it has to be ${expected}.`,
    mend: ({ path }) => `Mend ${inputWords(path)} and send it again.`,
    example: { type: "input-not-fitting", path: "windowMinutes", found: "-15", expected: "a number above 0" },
  },
  "cannot-be-computed": {
    exit: 1,
    status: 422,
    says: ({ why }) => `This cannot be computed: ${why}.`,
    mend: ({ path }) => `Look at ${inputWords(path)}.`,
    example: { type: "cannot-be-computed", path: "gas", why: "10 %LEL of one basis is not 10 %LEL of another" },
  },
  "unknown-command": {
    exit: 2,
    status: 404,
    says: ({ name }) => `There is no command "${name}".`,
    mend: ({ near }) => (near.length > 0 ? `Did you mean ${near.join(" or ")}?` : "lamproom --help names them all."),
    example: { type: "unknown-command", name: "expsure", near: ["exposure"] },
  },
  "unknown-flag": {
    exit: 2,
    status: 400,
    says: ({ name }) => `There is no flag ${name}.`,
    mend: ({ near }) => (near.length > 0 ? `Did you mean ${near.join(" or ")}?` : "--help names them all."),
    example: { type: "unknown-flag", name: "--regimes", near: ["--regime"] },
  },
  "flag-without-value": {
    exit: 2,
    status: 400,
    says: ({ name, value }) => `${name} needs ${value} after it.`,
    mend: ({ name, value }) => `Write ${name} ${value}.`,
    example: { type: "flag-without-value", name: "--zone", value: "ZONE" },
  },
  "flag-with-value": {
    exit: 2,
    status: 400,
    says: ({ name }) => `${name} takes no value.`,
    mend: ({ name }) => `Write ${name} alone.`,
    example: { type: "flag-with-value", name: "--json" },
  },
  "flag-value-not-fitting": {
    exit: 2,
    status: 400,
    says: ({ name, value, expected }) => `${name} cannot be "${value}": it takes ${expected}.`,
    mend: ({ name }) => `Mend ${name}; --help shows an example.`,
    example: { type: "flag-value-not-fitting", name: "--max-gap", value: "long", expected: "seconds above 0" },
  },
  "no-such-question": {
    exit: 2,
    status: 400,
    says: ({ question }) => `No file of this call has a question "${shortened(question)}".`,
    mend: ({ near, known }) => {
      const listed = (ids: readonly string[], last: string): string => ids.map((id) => `"${shortened(id)}"`).join(last);
      return near.length > 0 ? `Did you mean ${listed(near, " or ")}?` : `Answers are taken for ${listed(known.slice(0, MOST_IDS), ", ")}.`;
    },
    example: { type: "no-such-question", question: "zon", near: ["zone"], known: ["zone", "unit/CO"] },
  },
  "flags-belong-together": {
    exit: 2,
    status: 400,
    says: ({ name, needs }) => `${name} says nothing without ${needs}.`,
    mend: ({ name, needs }) => `Give ${needs} too, or leave ${name} out.`,
    example: { type: "flags-belong-together", name: "--reason", needs: "--declared-by" },
  },
  "unknown-regime": {
    exit: 2,
    status: 400,
    says: ({ regime }) => `The limits table has no regime "${regime}".`,
    mend: ({ known }) => `It has ${known.join(", ")}; a regime of your own comes in with --own-limits FILE.`,
    example: { type: "unknown-regime", regime: "OSHA", known: ["US-OSHA", "US-NIOSH"] },
  },
  "no-file": {
    exit: 2,
    status: 400,
    says: () => "No file was named.",
    mend: () => "Name files or folders, or - for standard input.",
    example: { type: "no-file" },
  },
  "no-book-in-folder": {
    exit: 2,
    status: 404,
    says: ({ folder }) => `There is no book in ${folder}.`,
    mend: () => "Name the folder that holds book.sqlite, or into which a book was exported.",
    example: { type: "no-book-in-folder", folder: "works" },
  },
  "folder-taken": {
    exit: 2,
    status: 409,
    says: ({ folder }) => `There is something in ${folder} already.`,
    mend: () => "Name a folder that is not there yet, or an empty one.",
    example: { type: "folder-taken", folder: "works" },
  },
  "words-not-fitting": {
    exit: 2,
    status: 400,
    says: ({ found, expected }) => `The call wants ${expected}; ${countText(found)} ${found === 1 ? "word was" : "words were"} given.`,
    mend: ({ expected }) => `Give ${expected}.`,
    example: { type: "words-not-fitting", found: 0, expected: "the folder of one book" },
  },
  "port-in-use": {
    exit: 3,
    status: 503,
    says: ({ port }) => `Port ${port} is taken by another program.`,
    mend: ({ port }) => `End that program, or choose another port: PORT=${port + 1} npm start.`,
    example: { type: "port-in-use", port: 4680 },
  },
  "port-not-allowed": {
    exit: 3,
    status: 503,
    says: ({ port }) => `This account may not listen on port ${port}.`,
    mend: () => "Choose a port above 1023: PORT=4680 npm start.",
    example: { type: "port-not-allowed", port: 80 },
  },
  "foreign-host": {
    exit: 3,
    status: 421,
    says: ({ host }) => `This server answers only for this machine, not for "${host}".`,
    mend: () => "Open it as http://127.0.0.1 with the port that it printed at its start.",
    example: { type: "foreign-host", host: "elsewhere.example" },
  },
  "web-part-not-built": {
    exit: 3,
    status: 503,
    says: () => "The pages have not been built.",
    mend: () => "Start with npm start, which builds them.",
    example: { type: "web-part-not-built" },
  },
};
