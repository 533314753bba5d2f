// The repository checks itself: names, sizes, walls, pages, commits. `node scripts/tidy.ts` lists what is untidy;
// `npm test` runs the same checks and counts each as a test.
import { cards, deadFiles, everyFileHasARoom, packagesInUse } from "./tidy/files.ts";
import { exportedNames, fileNames } from "./tidy/names.ts";
import { decisions, flags, links, settings, writtenPagesAreEqual } from "./tidy/pages.ts";
import { type Check, type Repository, thisRepository } from "./tidy/repository.ts";
import { fileLengths, functionLengths } from "./tidy/size.ts";
import { bannedText, commitSubjects, exactVersions, lockFile } from "./tidy/text.ts";

export async function tidyChecks(repository: Repository): Promise<readonly Check[]> {
  return [
    fileNames(repository),
    exportedNames(repository),
    functionLengths(repository),
    fileLengths(repository),
    ...bannedText(repository),
    commitSubjects(repository),
    lockFile(repository),
    exactVersions(repository),
    packagesInUse(repository),
    deadFiles(repository),
    everyFileHasARoom(repository),
    cards(repository),
    ...(await writtenPagesAreEqual(repository)),
    links(repository),
    flags(repository),
    settings(repository),
    decisions(repository),
  ];
}

if (import.meta.main) {
  const untidy = (await tidyChecks(thisRepository())).filter((check) => check.complaints.length > 0);
  for (const check of untidy) process.stdout.write(`✗ ${check.name}\n${check.complaints.map((line) => `    ${line}\n`).join("")}`);
  process.exitCode = untidy.length > 0 ? 1 : 0;
}
