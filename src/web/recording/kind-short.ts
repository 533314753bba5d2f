import { kindName } from "../../report/index.ts";

/** The kind of a limit where its table already says that figures are averages: "15 min", "ceiling, 10 min". */
export const shortKind = (kind: string, averagingMinutes: number | null): string =>
  kindName(kind, averagingMinutes)
    .replace(/,$/, "")
    .replace(/ average$/, "");
