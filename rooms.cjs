// The one table of rooms: what each may import, and which packages. Everything that speaks of walls reads it here:
// .dependency-cruiser.cjs holds it against the code, docs/architecture.md shows it (scripts/write-docs.ts), and
// scripts/tidy.ts demands that page and table are equal.
//
// Where this release differs from the full design: the rooms press, sensor, inquiry, ventilation, airtest and plan are
// not built yet; their rows come with them.

/**
 * Rooms from high to low. `mayImport` names rooms whose code may be run from here, through their index.ts where they
 * lie in core; `mayName` those of which only types may be named. A room may always import itself and `core`, the few
 * files that stand in src/core itself (result, outcome, finding).
 */
const rooms = [
  {
    name: "main",
    folder: "src/main",
    holds: "chooses files, clock and hash, and starts things",
    mayImport: [
      "server",
      "cli",
      "work",
      "report",
      "store",
      "time",
      "quantity",
      "gas",
      "table",
      "record",
      "recording",
      "instrument",
      "exposure",
      "statistics",
    ],
    packages: ["uuidv7"],
    node: true,
  },
  {
    name: "server",
    folder: "src/server",
    holds: "HTTP only",
    mayImport: ["work", "report", "quantity", "time"],
    mayName: ["store"],
    packages: ["fastify", "@fastify/compress", "@fastify/helmet", "@fastify/static", "close-with-grace"],
    node: true,
  },
  { name: "cli", folder: "src/cli", holds: "flags only", mayImport: ["work", "report", "quantity", "time"], packages: [], node: true },
  {
    name: "web",
    folder: "src/web",
    holds: "screens only; the core runs there in a worker",
    mayImport: [
      "work",
      "report",
      "store/device",
      "time",
      "quantity",
      "gas",
      "table",
      "record",
      "recording",
      "instrument",
      "exposure",
      "statistics",
    ],
    mayName: ["store", "server"],
    packages: ["react", "react-dom", "@tanstack/react-router", "uuidv7"],
    node: false,
  },
  {
    name: "work",
    folder: "src/work",
    holds: "one file for each thing a person does; fetches and hands over; runs unchanged in the browser",
    mayImport: ["report", "time", "quantity", "gas", "table", "record", "recording", "instrument", "exposure", "statistics"],
    mayName: ["store"],
    packages: [],
    node: false,
  },
  {
    name: "report",
    folder: "src/report",
    holds: "findings into words and digits; the only place that rounds",
    mayImport: ["time", "quantity", "gas", "table", "record", "recording", "instrument", "exposure", "statistics"],
    mayName: ["work", "store"],
    packages: [],
    node: false,
  },
  {
    name: "store",
    folder: "src/store",
    holds: "remembers: the ledger, files and the outbox of a device",
    mayImport: ["record", "recording", "quantity", "time"],
    packages: [],
    node: true,
  },
  {
    name: "store/device",
    folder: "src/store/device",
    holds: "the outbox of a device in a browser",
    mayImport: ["record", "quantity", "time"],
    mayName: ["store"],
    packages: ["idb"],
    node: false,
  },
  {
    name: "instrument",
    folder: "src/core/instrument",
    holds: "instruments and their proof: forms of entries, rules, standing",
    mayImport: ["quantity", "time", "gas", "recording", "table", "statistics", "record"],
    packages: [],
    node: false,
  },
  {
    name: "exposure",
    folder: "src/core/exposure",
    holds: "what somebody breathed, set against limits",
    mayImport: ["quantity", "time", "gas", "recording", "statistics"],
    packages: [],
    node: false,
  },
  {
    name: "record",
    folder: "src/core/record",
    holds: "the bytes of the book: canonical text, the tree over entries, proofs",
    mayImport: ["quantity", "time"],
    packages: [],
    node: false,
  },
  {
    name: "recording",
    folder: "src/core/recording",
    holds: "the channels of one instrument, and the signal with a lower and an upper edge",
    mayImport: ["quantity", "time", "gas", "table"],
    packages: [],
    node: false,
  },
  {
    name: "table",
    folder: "src/core/table",
    holds: "bytes to typed rows, with places, faults and questions",
    mayImport: ["quantity", "time"],
    packages: [],
    node: false,
  },
  {
    name: "gas",
    folder: "src/core/gas",
    holds: "substances, limits and flammability, with sources",
    mayImport: ["quantity"],
    packages: [],
    node: false,
  },
  {
    name: "statistics",
    folder: "src/core/statistics",
    holds: "distributions and summaries",
    mayImport: [],
    packages: [],
    node: false,
  },
  {
    name: "time",
    folder: "src/core/time",
    holds: "instants, zones, civil dates",
    mayImport: [],
    packages: ["temporal-polyfill"],
    node: false,
  },
  { name: "quantity", folder: "src/core/quantity", holds: "numbers with unit and kind", mayImport: [], packages: [], node: false },
];

const literally = (text) => text.replace(/[.*+?^${}()|[\]\\/]/g, "\\$&");
const folderOf = (name) => rooms.find((room) => room.name === name).folder;
const anyOf = (paths) => `^(${paths.join("|")})`;
const isCore = (room) => room.folder.startsWith("src/core/");

/** Files of a room without those of rooms that lie inside its folder. */
function filesOf(room) {
  const inside = rooms
    .filter(({ folder }) => folder.startsWith(`${room.folder}/`))
    .map(({ folder }) => folder.slice(room.folder.length + 1));
  return `${room.folder}/${inside.map((folder) => `(?!${folder}/)`).join("")}`;
}

const roomOf = (name) => rooms.find((room) => room.name === name);

/** What may be run: the room itself, files of src/core itself, a core room by its door, any other room whole. */
function openTo(room) {
  const doors = room.mayImport.map((name) => {
    const folder = folderOf(name);
    return folder.startsWith("src/core/") ? `${folder}/index\\.ts$` : filesOf(roomOf(name));
  });
  return anyOf([filesOf(room), "src/core/[^/]+\\.ts$", ...doors]);
}

/** Of core every room's contract may be named as a type by any room: types are gone before the code runs. */
function nameableFrom(room) {
  return anyOf([...[room.name, ...room.mayImport, ...(room.mayName ?? [])].map((name) => filesOf(roomOf(name))), "src/core/"]);
}

function rulesOf(room) {
  const from = { path: `^${filesOf(room)}` };
  return [
    {
      name: `${room.name}-imports-only-its-arrows`,
      comment: `${room.folder} may run code of ${room.mayImport.join(", ") || "no other room"}, a core room only through its index.ts. Move the line into the lower of the two rooms, hand the thing in as an argument, or import by the door.`,
      severity: "error",
      from,
      to: { path: "^src/", pathNot: openTo(room), dependencyTypesNot: ["type-only"] },
    },
    {
      name: `${room.name}-names-only-known-types`,
      comment: `${room.folder} may name types of core and of the rooms on its arrows. Move the type down, beside what it describes.`,
      severity: "error",
      from,
      to: { path: "^src/", pathNot: nameableFrom(room), dependencyTypes: ["type-only"] },
    },
    {
      name: `${room.name}-uses-only-its-packages`,
      comment: `${room.folder} may use ${room.packages.join(", ") || "no package"}. Hand in what the package gives, or add it to rooms.cjs with a decision record.`,
      severity: "error",
      from,
      to: {
        dependencyTypes: ["npm", "npm-dev", "npm-optional", "npm-peer", "npm-bundled", "npm-no-pkg", "npm-unknown"],
        pathNot: anyOf(["a^", ...room.packages.map((name) => `node_modules/(@types/)?${literally(name)}/`)]),
      },
    },
    ...(room.node
      ? []
      : [
          {
            name: `${room.name}-runs-without-node`,
            comment: `${room.folder} also runs in a browser: no module of Node. Take what is needed from the machine through src/work/ports.ts.`,
            severity: "error",
            from,
            to: { dependencyTypes: ["core"] },
          },
        ]),
  ];
}

const forbidden = [
  ...rooms.flatMap(rulesOf),
  {
    name: "core-itself-imports-types-only",
    comment: "Files that stand in src/core itself are under every room: what they take from a room may only be a type.",
    severity: "error",
    from: { path: "^src/core/[^/]+\\.ts$" },
    to: { path: "^src/", pathNot: "^src/core/[^/]+\\.ts$", dependencyTypesNot: ["type-only"] },
  },
  {
    name: "no-circle",
    comment: "Two files that need each other to run are one file, or a third lies under both. Types may point both ways.",
    severity: "error",
    from: { path: "^src/" },
    to: { circular: true, viaOnly: { dependencyTypesNot: ["type-only"] } },
  },
  {
    name: "no-missing-file",
    comment: "What is imported must be there. Mend the path, or add the package to package.json.",
    severity: "error",
    from: {},
    to: { couldNotResolve: true },
  },
  {
    name: "product-does-not-need-tests",
    comment: "src stands alone: nothing of test, bench or scripts may be imported from it. Move what is shared down into src.",
    severity: "error",
    from: { path: "^src/" },
    to: { path: "^(test|bench|scripts)/" },
  },
];

module.exports = { rooms, forbidden, isCore };
