/** How long one instrument takes at this site's bench: between one gas test of a round and the next. */
import type { RoomEntry } from "./room-entry.ts";

/** More than this between two tests is a break, not work. [ours] */
const LONGEST_MS = 15 * 60_000;
const FEWEST = 5;
const REMEMBERED = 200;

export class BenchPace {
  private readonly lastOfRound = new Map<string, number>();
  private readonly gaps: number[] = [];

  take({ read, submission, happened }: RoomEntry): void {
    if (read.type !== "known" || read.kind !== "gas-tested") return;
    for (const round of submission.restsOn) {
      const gap = happened.latest - (this.lastOfRound.get(round) ?? Number.NEGATIVE_INFINITY);
      this.lastOfRound.set(round, happened.latest);
      if (gap > 0 && gap <= LONGEST_MS) this.gaps.push(gap);
    }
    if (this.gaps.length > REMEMBERED) this.gaps.splice(0, this.gaps.length - REMEMBERED);
  }

  /** Median of the newest, in milliseconds; null while too few are known. */
  median(): number | null {
    if (this.gaps.length < FEWEST) return null;
    const rising = [...this.gaps].sort((one, other) => one - other);
    return rising[Math.floor(rising.length / 2)] ?? null;
  }
}
