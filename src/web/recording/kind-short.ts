import { kindName } from "../../report/index.ts";

/** The kind of a limit where there is little room, and its table says that figures are averages: "15 min", "10 min ceiling", "Table Z-2". */
export const shortKind = (kind: string, averagingMinutes: number | null): string => {
  if (kind === "three-level") return "Table Z-2";
  if (kind === "immediately-dangerous") return "immediately dangerous";
  return kindName(kind, averagingMinutes)
    .replace(/,$/, "")
    .replace(/ average$/, "");
};
