/** Takes an instrument out of use at once, with the cause and what the one who does it remarks. */
import type { Bodies } from "../core/instrument/index.ts";
import { type AtBench, aboutInstrument, byTester, type Said } from "./record-at-bench.ts";

export function recordWithdrawal(bench: AtBench, cause: Bodies["withdrawn"]["cause"], remark: string): Said {
  const said = remark.trim();
  const privatePart = said === "" ? null : { remark: said };
  // It may rest on what it was withdrawn for, and the round is no cause.
  return aboutInstrument("withdrawn", { ...bench, sitting: null }, { cause }, { subjects: [byTester(bench)], private: privatePart });
}
