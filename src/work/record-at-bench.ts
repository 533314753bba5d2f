/** What every entry of the bench has around it: who did it with what, when, on which instrument, as part of which round. */
import { type ChannelReference, type Kind, type NotSayable, type Sayable, type Saying, sayable } from "../core/instrument/index.ts";
import type { Happened, Subject, WrittenInstant } from "../core/record/index.ts";
import type { Result } from "../core/result.ts";

/** What a round asked once: it holds for every instrument of the sitting. */
export interface Sitting {
  /** Submission that opened it. */
  readonly round: string;
  readonly station: string;
  readonly cylinder: string | null;
  readonly regulator: string | null;
  readonly lineParts: readonly string[];
}

export interface AtBench {
  readonly instrument: string;
  readonly tester: string;
  /** The moment it was said, by the clock of the device. */
  readonly at: WrittenInstant;
  /** Null where no round is open: then nothing is known of cylinder and station. */
  readonly sitting: Sitting | null;
}

export type Said = Result<Sayable, NotSayable>;

/** Kinds whose private part is left empty here, or that have none. */
type Body<Name extends Kind> = Saying<Name>["body"];

export interface More {
  readonly subjects?: readonly Subject[];
  readonly restsOn?: readonly string[];
  readonly private?: unknown;
}

/** An entry about one instrument, by whoever tested it. */
export function aboutInstrument<Name extends Kind>(kind: Name, bench: AtBench, body: Body<Name>, more: More = {}): Said {
  const { instrument, tester, at, sitting } = bench;
  const saying = {
    ...{ kind, body, by: tester, happened: momentOf(at), private: more.private ?? null },
    subjects: [{ role: "instrument", id: instrument }, ...(more.subjects ?? [])],
    restsOn: [...(sitting === null || REQUESTS.has(kind) ? [] : [sitting.round]), ...(more.restsOn ?? [])],
  };
  return sayable(saying as unknown as Saying<Name>); // the private part is that of the kind: whoever gives one gives it typed
}

/** A request rests on what shows that it may be granted, and the round shows nothing. */
const REQUESTS: ReadonlySet<Kind> = new Set<Kind>(["returned", "entry-voided"]);

/** Said as it was done: the moment that the device's clock showed. */
export const momentOf = (at: WrittenInstant): Happened => ({ earliest: at, latest: at, basis: "device-clock" });

export const byTester = ({ tester }: AtBench): Subject => ({ role: "tester", id: tester });

/** Tester, and what gas came from and through. */
export function withGas(bench: AtBench): readonly Subject[] {
  const { sitting } = bench;
  if (sitting === null) return [byTester(bench)];
  return [
    byTester(bench),
    { role: "station", id: sitting.station },
    ...(sitting.cylinder === null ? [] : [{ role: "cylinder", id: sitting.cylinder }]),
    ...(sitting.regulator === null ? [] : [{ role: "regulator", id: sitting.regulator }]),
    ...sitting.lineParts.map((id) => ({ role: "line-part", id })),
  ];
}

export const referenceOf = ({ sensor, gas }: ChannelReference): ChannelReference => ({ sensor, gas });
