// Writes the pages, and the parts of pages, that are made from the code: docs/errors.md, the rooms in docs/architecture.md.
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { root } from "./run-tool.ts";
import { writtenPages } from "./written-pages.ts";

for (const page of writtenPages()) {
  writeFileSync(join(root, page.path), page.text);
  process.stdout.write(`${page.path}\n`);
}
