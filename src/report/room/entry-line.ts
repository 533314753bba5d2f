/** An entry as a line of a list: what it says, of what and whom, and what a reader should know of how it came here. */
import type { Things } from "../../core/instrument/index.ts";
import { writtenInstant } from "../../core/record/index.ts";
import type { RoomEntry } from "../../work/room/room-entry.ts";
import { counted } from "../digits.ts";
import { durationText } from "../figure.ts";
import { entrySays } from "./entry-says.ts";
import { thingName } from "./thing-names.ts";
import type { EntryLine } from "./views.ts";

export interface LineGrounds {
  readonly things: Things;
  /** Number of the entry that voided it; null where none did. */
  readonly voidedBy: number | null;
  /** A device clock farther out than so many minutes is told. */
  readonly clockMinutes: number;
}

export function entryLine(entry: RoomEntry, { things, voidedBy, clockMinutes }: LineGrounds): EntryLine {
  const { number, submission, happened, received, read } = entry;
  const { by, subjects, kind } = submission;
  return {
    ...{ number, kind, says: entrySays(read) },
    happened: { earliest: submission.happened.earliest, latest: submission.happened.latest, basis: happened.basis },
    received: writtenInstant(received),
    by: by === null ? null : thingName(things, { role: "person", id: by }),
    subjects: subjects.map(({ role, id }) => ({ role, id, name: thingName(things, { role, id }) })),
    isVoided: voidedBy !== null,
    remarks: [...(voidedBy === null ? [] : [`voided by entry ${voidedBy}`]), ...remarksOn(entry, clockMinutes)],
  };
}

/** What comes in within the quarter of an hour came as it should. */
const LATE_MS = 15 * 60_000;

function remarksOn({ happened, received, clockOffset, submission }: RoomEntry, clockMinutes: number): readonly string[] {
  const remarks: string[] = [];
  const late = received - happened.latest;
  if (happened.basis === "from-paper") remarks.push("typed in from paper");
  if (late > LATE_MS) remarks.push(`came in ${about(late)} after it happened`);
  if (happened.earliest > received) remarks.push(`says that it happened ${about(happened.earliest - received)} after it came in`);
  const ahead = clockOffset === null ? 0 : clockOffset.lowest > 0 ? clockOffset.lowest : Math.min(0, clockOffset.highest);
  if (Math.abs(ahead) > clockMinutes * 60_000)
    remarks.push(`its device's clock was ${about(Math.abs(ahead))} ${ahead > 0 ? "ahead" : "behind"}`);
  if (submission.manner === "request") remarks.push("asked for and granted");
  return remarks;
}

/** Long times need no minutes: 2 days, 5 hours. */
function about(milliseconds: number): string {
  const hours = Math.floor(milliseconds / 3_600_000);
  if (hours >= 48) return counted(Math.floor(hours / 24), "day");
  if (hours >= 2) return counted(hours, "hour");
  return durationText(Math.floor(milliseconds / 60_000) * 60);
}
