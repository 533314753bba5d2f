/** What a works has: instruments, sensors, cylinders, line parts, stations, places and people, as the book tells of them. */
import type { Bodies, Duty } from "../bodies.ts";
import { inRole, type Told } from "./told.ts";

interface Thing {
  readonly id: string;
  /** Number of the entry that told of it first. */
  readonly number: number;
  readonly isRetired: boolean;
}

export interface ModelThing extends Thing {
  readonly described: Bodies["model-described"];
}

export interface SensorThing extends Thing {
  readonly fitted: Bodies["sensor-fitted"];
  /** The instrument it sits in; null once it is out. */
  readonly instrument: string | null;
}

export interface InstrumentThing extends Thing {
  readonly serial: string;
  readonly owner: "site" | "visiting";
  readonly model: string | null;
  /** Lent to it now; null where none is. */
  readonly tag: string | null;
  /** In it now, in the order they were fitted. */
  readonly sensors: readonly string[];
}

export interface CylinderThing extends Thing {
  readonly registered: Bodies["cylinder-registered"];
  readonly regulator: string | null;
}

export interface LinePartThing extends Thing {
  readonly registered: Bodies["line-part-registered"];
}

export interface StationThing extends Thing {
  readonly name: string;
  readonly sort: "by-hand" | "automatic";
  readonly place: string | null;
}

export interface PlaceThing extends Thing {
  readonly name: string;
  readonly sort: Bodies["place-registered"]["sort"];
}

export interface PersonThing extends Thing {
  /** Null where the private part was disposed of. */
  readonly name: string | null;
  readonly badge: string | null;
  readonly call: string | null;
  readonly duties: readonly Duty[];
}

/** Each kind of thing by its id. */
export interface Things {
  readonly name: string | null;
  readonly models: ReadonlyMap<string, ModelThing>;
  readonly instruments: ReadonlyMap<string, InstrumentThing>;
  readonly sensors: ReadonlyMap<string, SensorThing>;
  readonly cylinders: ReadonlyMap<string, CylinderThing>;
  readonly lineParts: ReadonlyMap<string, LinePartThing>;
  readonly stations: ReadonlyMap<string, StationThing>;
  readonly places: ReadonlyMap<string, PlaceThing>;
  readonly people: ReadonlyMap<string, PersonThing>;
}

/**
 * What a works had at an instant, by what was known: every thing with its newest name, tag, sensors and regulator.
 *
 * Statements are taken in the order in which they happened at the latest, and by number where that is equal; what
 * happened after the instant is not counted, and neither is what its caller left out (voided, or above the number that
 * was known).
 *
 * @param told entries in any order
 * @param at milliseconds since 1970; Infinity for all there is
 * @example
 * ```ts
 * import { thingsAt } from "./things.ts";
 * const told = {
 *   number: 7,
 *   submission: "018f3c2a-7b11-7c3d-9e2f-1a2b3c4d5e6f",
 *   kind: "station-registered" as const,
 *   by: null,
 *   subjects: [{ role: "station", id: "7d1e2f30-4152-4637-8859-6a7b8c9dae0f" }],
 *   happened: { earliest: 0, latest: 0 },
 *   body: { name: "A", sort: "by-hand" as const },
 *   private: null,
 * };
 * [...thingsAt([told], 0).stations.values()].map(({ name }) => name); // => ["A"]
 * thingsAt([told], -1).stations.size; // => 0
 * ```
 * Source: design of this book, ours. Never refuses: a statement about a thing that nobody told of is passed over.
 */
export function thingsAt(told: Iterable<Told>, at: number): Things {
  const counted = [...told].filter(({ happened }) => happened.latest <= at);
  counted.sort((first, second) => first.happened.latest - second.happened.latest || first.number - second.number);
  const room = new Room();
  // First what there is, then what became of it: a sensor may have been fitted before anybody told of the instrument.
  for (const one of counted) room.register(one);
  for (const one of counted) room.follow(one);
  return room;
}

type Writable<Kind> = { -readonly [Member in keyof Kind]: Kind[Member] };

class Room implements Things {
  name: string | null = null;
  readonly models = new Map<string, ModelThing>();
  readonly instruments = new Map<string, Writable<InstrumentThing>>();
  readonly sensors = new Map<string, Writable<SensorThing>>();
  readonly cylinders = new Map<string, Writable<CylinderThing>>();
  readonly lineParts = new Map<string, LinePartThing>();
  readonly stations = new Map<string, StationThing>();
  readonly places = new Map<string, PlaceThing>();
  readonly people = new Map<string, Writable<PersonThing>>();

  register(told: Told): void {
    if (told.kind === "book-opened") this.name = told.body.name;
    else if (told.kind === "model-described") put(this.models, told, "model", { described: told.body }, {});
    else if (told.kind === "instrument-registered")
      put(this.instruments, told, "instrument", { ...told.body, model: inRole(told, "model") }, { tag: null, sensors: [] });
    else if (told.kind === "sensor-fitted") put(this.sensors, told, "sensor", { fitted: told.body }, { instrument: null });
    else if (told.kind === "cylinder-registered") put(this.cylinders, told, "cylinder", { registered: told.body }, { regulator: null });
    else if (told.kind === "line-part-registered") put(this.lineParts, told, "line-part", { registered: told.body }, {});
    else this.registerPlace(told);
  }

  private registerPlace(told: Told): void {
    if (told.kind === "station-registered") put(this.stations, told, "station", { ...told.body, place: inRole(told, "place") }, {});
    else if (told.kind === "place-registered") put(this.places, told, "place", told.body, {});
    else if (told.kind === "person-registered") {
      const { name = null, badge = null, call = null } = told.private ?? {};
      put(this.people, told, "person", { name, badge, call, duties: told.body.duties }, {});
    }
  }

  follow(told: Told): void {
    const instrument = inRole(told, "instrument");
    if (told.kind === "tag-lent") this.lend(told.body.tag, instrument);
    else if (told.kind === "tag-returned") change(this.instruments, instrument, { tag: null });
    else if (told.kind === "sensor-fitted" || told.kind === "sensor-moved") this.place(inRole(told, "sensor"), instrument);
    else if (told.kind === "sensor-removed") this.place(inRole(told, "sensor"), null);
    else if (told.kind === "cylinder-connected") this.connect(inRole(told, "cylinder"), inRole(told, "regulator"));
    else if (told.kind === "duties-set") change(this.people, inRole(told, "person"), { duties: told.body.duties });
    else if (told.kind === "thing-retired") this.retire(inRole(told, "retired"));
  }

  private retire(id: string | null): void {
    if (id === null) return;
    const all = [this.models, this.instruments, this.sensors, this.cylinders, this.lineParts, this.stations, this.places, this.people];
    for (const things of all as Map<string, Thing>[]) {
      const thing = things.get(id);
      if (thing !== undefined) things.set(id, { ...thing, isRetired: true });
    }
  }

  /** A regulator sits on one cylinder at a time. */
  private connect(cylinder: string | null, regulator: string | null): void {
    for (const other of this.cylinders.values()) if (other.regulator === regulator) other.regulator = null;
    change(this.cylinders, cylinder, { regulator });
  }

  /** A tag is on one instrument at a time. */
  private lend(tag: string, instrument: string | null): void {
    for (const other of this.instruments.values()) if (other.tag === tag) other.tag = null;
    change(this.instruments, instrument, { tag });
  }

  private place(sensor: string | null, instrument: string | null): void {
    if (sensor === null) return;
    for (const other of this.instruments.values()) other.sensors = other.sensors.filter((one) => one !== sensor);
    change(this.sensors, sensor, { instrument });
    const body = instrument === null ? undefined : this.instruments.get(instrument);
    if (body !== undefined) body.sensors = [...body.sensors, sensor];
  }
}

/** Told of twice, a thing keeps the number of its first entry and what became of it, and takes what was said last. */
function put<One extends Thing, Started extends Partial<One>>(
  things: Map<string, One>,
  told: Told,
  role: string,
  said: Omit<One, keyof Thing | keyof Started>,
  start: Started,
): void {
  const id = inRole(told, role);
  if (id === null) return;
  const before = things.get(id) ?? { ...start, id, number: told.number, isRetired: false };
  things.set(id, { ...before, ...said, number: Math.min(before.number, told.number) } as unknown as One); // all members of it are there
}

function change<One extends Thing>(things: Map<string, One>, id: string | null, change: Partial<One>): void {
  const thing = id === null ? undefined : things.get(id);
  if (thing !== undefined) Object.assign(thing, change);
}
