/** Who waits for the book to grow: told at once by this process, within a moment where another process writes. */

const LOOK_EVERY_MS = 250;

export class Changes {
  private readonly waiting = new Set<() => void>();
  private readonly sizeOf: () => Promise<number>;

  constructor(sizeOf: () => Promise<number>) {
    this.sizeOf = sizeOf;
  }

  /** The size once it is above a number, or what it is when the time is over. */
  async newerThan(size: number, waitMs: number, signal: AbortSignal): Promise<number> {
    const until = performance.now() + waitMs;
    for (;;) {
      const found = await this.sizeOf();
      const left = until - performance.now();
      if (found > size || left <= 0 || signal.aborted) return found;
      await this.untilTold(left, signal);
    }
  }

  /** Something was written, or the server ends: everybody looks again. */
  tell(): void {
    for (const look of [...this.waiting]) look();
  }

  private untilTold(atMostMs: number, signal: AbortSignal): Promise<void> {
    return new Promise((resolve) => {
      const end = setTimeout(() => done(), Math.min(atMostMs, LOOK_EVERY_MS));
      const done = (): void => {
        clearTimeout(end);
        this.waiting.delete(done);
        signal.removeEventListener("abort", done);
        resolve();
      };
      this.waiting.add(done);
      signal.addEventListener("abort", done);
    });
  }
}
