import { oldSubjects } from "./ratchets.ts";
import { type Check, isBinary, isCode, type Repository } from "./repository.ts";

interface Ban {
  readonly name: string;
  readonly pattern: RegExp;
  readonly where: (path: string) => boolean;
  readonly mend: string;
}

/** Written in pieces, so that this list does not complain of itself. */
const pattern = (...pieces: readonly string[]) => new RegExp(pieces.join(""), "i");
const everywhere = () => true;
const isFixture = (path: string) => /^test\/cases\/(goldens|table\/made)\//.test(path);

const bans: readonly Ban[] = [
  {
    name: "no work is left as a remark",
    pattern: new RegExp(["\\b(TO", "DO|FIX", "ME|XX", "X|HA", "CK)\\b"].join("")),
    where: (path) => !isFixture(path) && !path.endsWith(".svg") && path !== "package-lock.json",
    mend: "do it, or file it as an issue",
  },
  {
    name: "no path of one machine",
    pattern: pattern("(^|[\\s\"'`(=:])(/wo", "rk/|/ro", "ot/|/ho", "me/|/Us", "ers/|C:\\\\Us", "ers)"),
    where: everywhere,
    mend: "say it relative to the repository",
  },
  {
    name: "no host of a package registry",
    pattern: pattern("(regis", "try\\.[a-z]|npm", "js\\.(com|org)|deb\\.deb", "ian\\.org)"),
    where: everywhere,
    mend: "the ordinary client knows its registry",
  },
  {
    name: "nobody is told that entering is safe",
    // A line that denies it ("none of them says that …") is what we want to see.
    pattern:
      /^(?!.*\b(none|never|no|not|nothing|neither)\b).*(\b(is|it'?s|are|was) safe\b|\bsafe to (enter|breathe|go|work)\b|\bair is (good|fine|ok|clean)\b)/i,
    where: (path) => path.startsWith("src/"),
    mend: "say which stated limits the data meet and what was not measured",
  },
  {
    name: "no test is left alone or left out without a reason",
    pattern: /\b(test|it|describe)\.(only|todo)\(/,
    where: (path) => path.startsWith("test/"),
    mend: "run them all",
  },
  {
    name: "no compiler is silenced without a reason",
    pattern: /@ts-(ignore|nocheck|expect-error)\s*$|biome-ignore [^:]*$|biome-ignore [^:]*:\s*$/,
    where: isCode,
    mend: "write the reason behind it",
  },
];

export function bannedText(repository: Repository): readonly Check[] {
  return bans.map((ban) => ({
    name: ban.name,
    complaints: repository.paths
      .filter((path) => !isBinary(path) && ban.where(path))
      .flatMap((path) => linesWith(path, repository.text(path), ban)),
  }));
}

function linesWith(path: string, text: string, ban: Ban): readonly string[] {
  if (!new RegExp(ban.pattern, `${ban.pattern.flags}m`).test(text)) return [];
  return text
    .split("\n")
    .flatMap((line, index) => (ban.pattern.test(line) ? [`${path}:${index + 1}: ${line.trim().slice(0, 120)} - ${ban.mend}`] : []));
}

const form = /^[a-z][a-z0-9-]*(?:[/, ]+[a-z][a-z0-9-]*)*: \S.*[^.\s]$/;
const longestSubject = 60;

/** `room: what is now true`. Commits of the past cannot be mended, so those that stood before are listed by subject. */
export function commitSubjects(repository: Repository): Check {
  const complaints = repository.subjects
    .filter((subject) => !oldSubjects.includes(subject))
    .flatMap((subject) => [
      ...(form.test(subject) ? [] : [`"${subject}" is not of the form "room: what is now true"`]),
      ...(subject.length <= longestSubject ? [] : [`"${subject}" has ${subject.length} characters, at most ${longestSubject}`]),
    ]);
  return { name: "commits say which room and what is now true", complaints };
}

/** A lock file with addresses would bind everybody to the registry of whoever wrote it. */
export function lockFile(repository: Repository): Check {
  const complaints = /"resolved": "https?:/.test(repository.text("package-lock.json"))
    ? ["package-lock.json holds download addresses; install with the .npmrc of this repository"]
    : [];
  return { name: "the lock file holds no addresses", complaints };
}

export function exactVersions(repository: Repository): Check {
  const manifest: { readonly dependencies: Record<string, string>; readonly devDependencies: Record<string, string> } = JSON.parse(
    repository.text("package.json"),
  );
  const complaints = Object.entries({ ...manifest.dependencies, ...manifest.devDependencies })
    .filter(([, version]) => !/^(npm:[^@]+@)?\d+\.\d+\.\d+(-[\w.]+)?$/.test(version))
    .map(([name, version]) => `${name} ${version} is not one exact version`);
  return { name: "every package has one exact version", complaints };
}
