/** A cylinder is on this regulator from now on, and on no other. */
import { sayable } from "../core/instrument/index.ts";
import type { WrittenInstant } from "../core/record/index.ts";
import { momentOf, type Said } from "./record-at-bench.ts";

export interface Connection {
  readonly cylinder: string;
  readonly regulator: string;
  readonly by: string;
  readonly at: WrittenInstant;
}

export const recordCylinderConnected = ({ cylinder, regulator, by, at }: Connection): Said =>
  sayable({
    ...{ kind: "cylinder-connected" as const, happened: momentOf(at), by, restsOn: [], body: {}, private: null },
    subjects: [
      { role: "cylinder", id: cylinder },
      { role: "regulator", id: regulator },
    ],
  });
