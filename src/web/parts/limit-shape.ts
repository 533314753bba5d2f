import type { Limit } from "../../core/gas/limit.ts";
import type { LimitShape } from "../../report/limit-words.ts";

/** What `report` needs of a limit to name it. */
export const shapeOf = (limit: Limit): LimitShape => ({
  regime: limit.regime,
  kind: limit.kind,
  value: limit.published?.value ?? null,
  unit: limit.published?.unit ?? limit.threeLevel?.unit ?? "ppm",
  averagingMinutes: limit.averagingMinutes,
  mark: limit.mark,
  source: limit.sources.map((source) => source.title).join("; "),
  edition: limit.edition,
});
