import type { LimitEntry } from "../limit-entry.ts";

/** Binding national values of France, Code du travail art. R4412-149. */
export const FR_LIMITS: readonly LimitEntry[] = [
  {
    gas: "hydrogen_sulphide", asPublished: null, sources: ["FR"], mark: "read",
    limits: [
      { kind: "twa", published: [5, "ppm"], also: [7, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [10, "ppm"], also: [14, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "ammonia", asPublished: null, sources: ["FR"], mark: "read",
    limits: [
      { kind: "twa", published: [10, "ppm"], also: [7, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [20, "ppm"], also: [14, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "chlorine", asPublished: null, sources: ["FR"], mark: "read",
    limits: [
      { kind: "stel", published: [0.5, "ppm"], also: [1.5, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "hydrogen_cyanide", asPublished: null, sources: ["FR"], mark: "read",
    limits: [
      { kind: "twa", published: [2, "ppm"], also: [2, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [10, "ppm"], also: [10, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "hydrogen_chloride", asPublished: null, sources: ["FR"], mark: "read",
    limits: [
      { kind: "stel", published: [5, "ppm"], also: [7.6, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "hydrogen_fluoride", asPublished: null, sources: ["FR"], mark: "read",
    limits: [
      { kind: "twa", published: [1.8, "ppm"], also: [1.5, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [3, "ppm"], also: [2.5, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "phosphine", asPublished: null, sources: ["FR"], mark: "read",
    limits: [
      { kind: "twa", published: [0.1, "ppm"], also: [0.14, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "phosgene", asPublished: null, sources: ["FR"], mark: "read",
    limits: [
      { kind: "twa", published: [0.02, "ppm"], also: [0.08, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [0.1, "ppm"], also: [0.4, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "carbon_disulphide", asPublished: null, sources: ["FR"], mark: "read",
    skin: true,
    limits: [
      { kind: "twa", published: [5, "ppm"], also: [15, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "benzene", asPublished: null, sources: ["FR"], mark: "read",
    skin: true,
    limits: [
      { kind: "twa", published: [1, "ppm"], also: [3.25, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "toluene", asPublished: null, sources: ["FR"], mark: "read",
    skin: true,
    limits: [
      { kind: "twa", published: [20, "ppm"], also: [76.8, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [100, "ppm"], also: [384, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "xylenes", asPublished: null, sources: ["FR"], mark: "read",
    skin: true,
    limits: [
      { kind: "twa", published: [50, "ppm"], also: [221, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [100, "ppm"], also: [442, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "ethylbenzene", asPublished: null, sources: ["FR"], mark: "read",
    skin: true,
    limits: [
      { kind: "twa", published: [20, "ppm"], also: [88.4, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [100, "ppm"], also: [442, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "n_hexane", asPublished: null, sources: ["FR"], mark: "read",
    limits: [
      { kind: "twa", published: [20, "ppm"], also: [72, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "n_heptane", asPublished: null, sources: ["FR"], mark: "read",
    limits: [
      { kind: "twa", published: [400, "ppm"], also: [1668, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [500, "ppm"], also: [2085, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "cyclohexane", asPublished: null, sources: ["FR"], mark: "read",
    limits: [
      { kind: "twa", published: [200, "ppm"], also: [700, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "acetone", asPublished: null, sources: ["FR"], mark: "read",
    limits: [
      { kind: "twa", published: [500, "ppm"], also: [1210, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [1000, "ppm"], also: [2420, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "mek", asPublished: null, sources: ["FR"], mark: "read",
    skin: true,
    limits: [
      { kind: "twa", published: [200, "ppm"], also: [600, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [300, "ppm"], also: [900, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "methanol", asPublished: null, sources: ["FR"], mark: "read",
    skin: true,
    limits: [
      { kind: "twa", published: [200, "ppm"], also: [260, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "vinyl_chloride", asPublished: null, sources: ["FR"], mark: "read",
    limits: [
      { kind: "twa", published: [1, "ppm"], also: [2.59, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "n_pentane", asPublished: null, sources: ["FR"], mark: "read",
    limits: [
      { kind: "twa", published: [1000, "ppm"], also: [3000, "mg/m3"], minutes: 480 },
    ],
  },
];
