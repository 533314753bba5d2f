import { createRequire } from "node:module";

export interface Room {
  readonly name: string;
  readonly folder: string;
  readonly holds: string;
  readonly mayImport: readonly string[];
  readonly mayName?: readonly string[];
  readonly packages: readonly string[];
  readonly node: boolean;
}

/** The table of rooms; the file is CommonJS because the tool that holds the walls reads it so. */
export const rooms: readonly Room[] = createRequire(import.meta.url)("../rooms.cjs").rooms;
