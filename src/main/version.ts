import { readFileSync } from "node:fs";
import { join } from "node:path";

/** The version as the package states it; one place, so that help, answers and health agree. */
export function programVersion(): string {
  const text = readFileSync(join(import.meta.dirname, "../../package.json"), "utf8");
  const found: unknown = JSON.parse(text);
  if (typeof found === "object" && found !== null && "version" in found && typeof found.version === "string") return found.version;
  throw new Error("broken promise: package.json states a version");
}
