import type { Batch } from "./batch.ts";
import type { SurveyEvidence } from "./evidence.ts";
import type { Plan } from "./plan.ts";

/** The shorter way for lines that hold nothing unusual. */
export class PlainLines {
  readonly isPossible: boolean = false;
  position = 0;
  carriageReturns = 0;
  lastTime = Number.NEGATIVE_INFINITY;
  lastLocal = Number.NaN;
  lastRowTime = Number.NEGATIVE_INFINITY;
  constructor(_plan: Plan, _batch: Batch) {}
  read(_bytes: Uint8Array, _start: number, _limit: number, _line: number, _after: number, _series: number): number {
    return 0;
  }
  fold(_evidence: SurveyEvidence): void {}
}
