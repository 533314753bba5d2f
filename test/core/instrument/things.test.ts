import { expect, test } from "vitest";
import { namedBy, namedLike } from "../../../src/core/instrument/things/scanned.ts";
import { thingsAt } from "../../../src/core/instrument/things/things.ts";
import type { Told } from "../../../src/core/instrument/things/told.ts";

const subjects = (roles: Readonly<Record<string, string>>) => Object.entries(roles).map(([role, id]) => ({ role, id }));

let number = 0;
/** One statement of a book, an instant after the one before unless said otherwise. */
function says(kind: Told["kind"], roles: Readonly<Record<string, string>>, body: unknown, more: object = {}): Told {
  number += 1;
  const happened = { earliest: number, latest: number };
  // The bodies are made up here in the form of their kind.
  return { number, submission: `s${number}`, kind, by: null, subjects: subjects(roles), happened, body, private: null, ...more } as Told;
}

const instrument = (id: string, serial: string) => says("instrument-registered", { instrument: id, model: "m" }, { serial, owner: "site" });
const sensor = (id: string, into: string) => says("sensor-fitted", { instrument: into, sensor: id }, { serial: null, channels: [] });

test("a tag is on one instrument at a time, as at the moment asked for", () => {
  const told = [
    instrument("a", "100"),
    instrument("b", "200"),
    says("tag-lent", { instrument: "a" }, { tag: "MB-01" }, { happened: { earliest: 50, latest: 50 } }),
    says("tag-lent", { instrument: "b" }, { tag: "MB-01" }, { happened: { earliest: 60, latest: 60 } }),
    says("tag-returned", { instrument: "b" }, { tag: "MB-01" }, { happened: { earliest: 70, latest: 70 } }),
  ];
  const tags = (at: number) => ["a", "b"].map((id) => thingsAt(told, at).instruments.get(id)?.tag);
  expect([tags(55), tags(65), tags(75)]).toEqual([
    ["MB-01", null],
    [null, "MB-01"],
    [null, null],
  ]);
  expect(namedBy(thingsAt(told, 65), " mb-01 ")).toEqual([{ sort: "instrument", id: "b", text: "MB-01" }]);
  expect(namedBy(thingsAt(told, 65), "MB-0")).toEqual([]);
  expect(namedLike(thingsAt(told, 65), "0", 2).map(({ text }) => text)).toEqual(["100", "MB-01"]);
});

test("a sensor sits in one body, also where it was fitted before anybody told of the body", () => {
  const early = says(
    "sensor-fitted",
    { instrument: "c", sensor: "s" },
    { serial: "X", channels: [] },
    { happened: { earliest: 1, latest: 1 } },
  );
  const told = [early, instrument("c", "300"), instrument("d", "400"), sensor("t", "c")];
  expect(thingsAt(told, Number.POSITIVE_INFINITY).instruments.get("c")?.sensors).toEqual(["s", "t"]);
  const moved = [...told, says("sensor-moved", { "instrument-before": "c", instrument: "d", sensor: "s" }, { reason: "x" })];
  const things = thingsAt(moved, Number.POSITIVE_INFINITY);
  expect([things.instruments.get("c")?.sensors, things.instruments.get("d")?.sensors, things.sensors.get("s")?.instrument]).toEqual([
    ["t"],
    ["s"],
    "d",
  ]);
  const removed = thingsAt(
    [...moved, says("sensor-removed", { instrument: "d", sensor: "s" }, { reason: "failed" })],
    Number.POSITIVE_INFINITY,
  );
  expect([removed.instruments.get("d")?.sensors, removed.sensors.get("s")?.instrument]).toEqual([[], null]);
});

test("told of twice a thing keeps its first number, its tag and its sensors", () => {
  const first = instrument("e", "500");
  const told = [first, says("tag-lent", { instrument: "e" }, { tag: "MB-05" }), sensor("u", "e"), instrument("e", "500-A")];
  expect(thingsAt(told, Number.POSITIVE_INFINITY).instruments.get("e")).toEqual({
    ...{ id: "e", number: first.number, isRetired: false, serial: "500-A", owner: "site", model: "m", tag: "MB-05", sensors: ["u"] },
  });
});

test("a regulator is on one cylinder; a retired thing stays in its list", () => {
  const cylinder = (id: string) => says("cylinder-registered", { cylinder: id }, { name: id, components: [] });
  const told = [
    cylinder("c1"),
    cylinder("c2"),
    says("cylinder-connected", { cylinder: "c1", regulator: "r" }, {}),
    says("cylinder-connected", { cylinder: "c2", regulator: "r" }, {}),
    says("thing-retired", { retired: "c1" }, { reason: "empty" }),
  ];
  const { cylinders } = thingsAt(told, Number.POSITIVE_INFINITY);
  expect([...cylinders.values()].map(({ id, regulator, isRetired }) => [id, regulator, isRetired])).toEqual([
    ["c1", null, true],
    ["c2", "r", false],
  ]);
});

test("the order in which statements came does not matter, only when they happened", () => {
  const told = [instrument("f", "600"), says("tag-lent", { instrument: "f" }, { tag: "MB-06" }), sensor("v", "f")];
  expect(thingsAt([...told].reverse(), Number.POSITIVE_INFINITY)).toEqual(thingsAt(told, Number.POSITIVE_INFINITY));
});
