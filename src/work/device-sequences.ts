/** The chains of the devices, followed entry by entry: what is missing in them, and what does not fit. */
import type { Digest, Submission } from "../core/record/index.ts";

export type ChainRemark =
  /** Submissions that are not here: said and not handed over yet, or lost. */
  | { readonly type: "hole"; readonly device: string; readonly from: number; readonly to: number }
  /** A second submission under a sequence, or one that does not follow the one before it. */
  | { readonly type: "fork"; readonly device: string; readonly sequence: number; readonly number: number };

interface Link {
  readonly own: Digest;
  readonly previous: Digest | null;
  readonly number: number;
}

interface Chain {
  /** All up to this one are here, each following the one before. */
  upTo: number;
  last: Digest | null;
  /** Further ones, by sequence: they came before those that they follow. */
  readonly waiting: Map<number, Link>;
}

/** Remembers of each device no more than its last link and what waits for an earlier one. */
export class DeviceSequences {
  private readonly chains = new Map<string, Chain>();
  private readonly forks: ChainRemark[] = [];

  take({ device, sequence, previous }: Submission, own: Digest, number: number): void {
    const chain = this.chains.get(device) ?? { upTo: 0, last: null, waiting: new Map() };
    this.chains.set(device, chain);
    if (sequence <= chain.upTo || chain.waiting.has(sequence)) return void this.forks.push({ type: "fork", device, sequence, number });
    chain.waiting.set(sequence, { own, previous, number });
    for (let next = chain.waiting.get(chain.upTo + 1); next !== undefined; next = chain.waiting.get(chain.upTo + 1)) {
      chain.waiting.delete(chain.upTo + 1);
      chain.upTo += 1;
      if (next.previous !== chain.last) this.forks.push({ type: "fork", device, sequence: chain.upTo, number: next.number });
      chain.last = next.own;
    }
  }

  remarks(): readonly ChainRemark[] {
    return [...this.forks, ...[...this.chains].flatMap(([device, chain]) => holesOf(device, chain))];
  }
}

function holesOf(device: string, { upTo, waiting }: Chain): readonly ChainRemark[] {
  const holes: ChainRemark[] = [];
  let last = upTo;
  for (const sequence of [...waiting.keys()].sort((one, other) => one - other)) {
    if (sequence > last + 1) holes.push({ type: "hole", device, from: last + 1, to: sequence - 1 });
    last = sequence;
  }
  return holes;
}
