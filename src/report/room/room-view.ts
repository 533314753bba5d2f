/** Every list of a site, as the screens show them. */
import type { Things } from "../../core/instrument/index.ts";
import { writtenInstant } from "../../core/record/index.ts";
import type { BookRoom } from "../../work/room/book-room.ts";
import type { RoomView } from "./views.ts";

export function roomView(room: BookRoom, now: number): RoomView {
  const things = room.things();
  const { name = "", zone = "UTC", isDemonstration = false } = room.named ?? {};
  return { name, zone, isDemonstration, size: room.size, ...listsOf(things), rules: rulesOf(room, now), rounds: roundsOf(room) };
}

type Lists = Omit<RoomView, "name" | "zone" | "isDemonstration" | "size" | "rules" | "rounds">;

function listsOf(things: Things): Lists {
  return {
    models: [...things.models.values()].map(({ described, ...thing }) => ({ ...thing, ...described })),
    instruments: [...things.instruments.values()].map(({ id, number, isRetired, serial, owner, model, tag, sensors }) => ({
      ...{ id, number, isRetired, serial, owner, model, tag, sensors },
    })),
    sensors: [...things.sensors.values()].map(({ fitted, ...thing }) => ({ ...thing, ...fitted })),
    cylinders: [...things.cylinders.values()].map(({ registered, ...thing }) => ({ ...thing, ...registered })),
    lineParts: [...things.lineParts.values()].map(({ registered, ...thing }) => ({ ...thing, ...registered })),
    stations: [...things.stations.values()].map((station) => ({ ...station })),
    places: [...things.places.values()].map((place) => ({ ...place })),
    people: [...things.people.values()].map(({ id, number, isRetired, name, badge, duties }) => ({
      id,
      number,
      isRetired,
      name,
      badge,
      duties,
    })),
  };
}

function rulesOf(room: BookRoom, now: number): RoomView["rules"] {
  const inForce = room.rulesAt(now);
  if (inForce === null) return { number: null, inForce: null, waiting: [] };
  const { rules, change, waiting } = inForce;
  const begins = waiting?.begins ?? null;
  return {
    number: change,
    inForce: rules,
    waiting: waiting === null ? [] : [{ number: change, from: begins === null ? null : writtenInstant(begins) }],
  };
}

const roundsOf = (room: BookRoom): RoomView["rounds"] =>
  room.openRounds().flatMap(({ submission, number, read }) => {
    if (read.type !== "known" || read.kind !== "round-opened") return [];
    const { id, subjects, happened } = submission;
    return [{ submission: id, number, body: read.body, subjects, opened: happened.latest }];
  });
