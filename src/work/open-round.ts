/** Opens a round: tester, station, cylinder on its regulator, gauge, flow and weather, asked once a sitting. */
import { type Bodies, sayable } from "../core/instrument/index.ts";
import type { WrittenInstant } from "../core/record/index.ts";
import { momentOf, type Said } from "./record-at-bench.ts";

export interface RoundToOpen {
  readonly tester: string;
  readonly at: WrittenInstant;
  readonly station: string;
  readonly cylinder: string | null;
  readonly regulator: string | null;
  readonly lineParts: readonly string[];
  readonly place: string | null;
  readonly body: Bodies["round-opened"];
}

export function openRound({ tester, at, station, cylinder, regulator, lineParts, place, body }: RoundToOpen): Said {
  const named = [
    ["tester", tester],
    ["station", station],
    ["cylinder", cylinder],
    ["regulator", regulator],
    ["place", place],
    ...lineParts.map((id) => ["line-part", id] as const),
  ] as const;
  return sayable({
    ...{ kind: "round-opened" as const, happened: momentOf(at), by: tester, restsOn: [], body, private: null },
    subjects: named.flatMap(([role, id]) => (id === null ? [] : [{ role, id }])),
  });
}
