import type { LimitEntry } from "../limit-entry.ts";

/** Indicative limit values of the European lists and binding ones of Directive 2004/37/EC Annex III. Most from memory. */
export const EU_IOELV_LIMITS: readonly LimitEntry[] = [
  {
    gas: "carbon_monoxide", asPublished: null, sources: ["EU-4"], mark: "memory",
    notes: ["Indicative limit value."],
    limits: [
      { kind: "twa", published: [20, "ppm"], also: [23, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [100, "ppm"], also: [117, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "hydrogen_sulphide", asPublished: null, sources: ["EU-3"], mark: "memory",
    notes: ["Indicative limit value.", "Agrees with the French value of art. R4412-149, which was read."],
    limits: [
      { kind: "twa", published: [5, "ppm"], also: [7, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [10, "ppm"], also: [14, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "sulphur_dioxide", asPublished: null, sources: ["EU-4"], mark: "memory",
    notes: ["Indicative limit value."],
    limits: [
      { kind: "twa", published: [0.5, "ppm"], also: [1.3, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [1, "ppm"], also: [2.7, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "nitric_oxide", asPublished: null, sources: ["EU-4"], mark: "memory",
    notes: ["Indicative limit value."],
    limits: [
      { kind: "twa", published: [2, "ppm"], also: [2.5, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "nitrogen_dioxide", asPublished: null, sources: ["EU-4"], mark: "memory",
    notes: ["Indicative limit value."],
    limits: [
      { kind: "twa", published: [0.5, "ppm"], also: [0.96, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [1, "ppm"], also: [1.91, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "ammonia", asPublished: null, sources: ["EU-1"], mark: "memory",
    notes: ["Indicative limit value."],
    limits: [
      { kind: "twa", published: [20, "ppm"], also: [14, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [50, "ppm"], also: [36, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "chlorine", asPublished: null, sources: ["EU-2"], mark: "memory",
    notes: ["Indicative limit value.", "Agrees with the French value of art. R4412-149, which was read."],
    limits: [
      { kind: "stel", published: [0.5, "ppm"], also: [1.5, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "chlorine_dioxide", asPublished: "none set", sources: ["EU-ALL"], mark: "memory",
    limits: [],
  },
  {
    gas: "hydrogen_cyanide", asPublished: null, sources: ["EU-4"], mark: "memory",
    skin: true,
    notes: ["Listed as hydrogen cyanide (as cyanide).", "Indicative limit value."],
    limits: [
      { kind: "twa", published: [0.9, "ppm"], also: [1, "mg/m3"], minutes: 480, statedAs: "CN" },
      { kind: "stel", published: [4.5, "ppm"], also: [5, "mg/m3"], minutes: 15, statedAs: "CN" },
    ],
  },
  {
    gas: "hydrogen_chloride", asPublished: null, sources: ["EU-1"], mark: "memory",
    notes: ["Indicative limit value."],
    limits: [
      { kind: "twa", published: [5, "ppm"], also: [8, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [10, "ppm"], also: [15, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "hydrogen_fluoride", asPublished: null, sources: ["EU-1"], mark: "memory",
    notes: ["Indicative limit value.", "Agrees with the French value of art. R4412-149, which was read."],
    limits: [
      { kind: "twa", published: [1.8, "ppm"], also: [1.5, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [3, "ppm"], also: [2.5, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "phosphine", asPublished: null, sources: ["EU-2"], mark: "memory",
    notes: ["Indicative limit value.", "Agrees with the French value of art. R4412-149 (8-hour figure), which was read."],
    limits: [
      { kind: "twa", published: [0.1, "ppm"], also: [0.14, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [0.2, "ppm"], also: [0.28, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "arsine", asPublished: "none set", sources: ["EU-ALL"], mark: "memory",
    limits: [],
  },
  {
    gas: "silane", asPublished: "none set", sources: ["EU-ALL"], mark: "memory",
    limits: [],
  },
  {
    gas: "ozone", asPublished: "none set", sources: ["EU-ALL"], mark: "memory",
    limits: [],
  },
  {
    gas: "phosgene", asPublished: null, sources: ["EU-1"], mark: "memory",
    notes: ["Indicative limit value.", "Agrees with the French value of art. R4412-149, which was read."],
    limits: [
      { kind: "twa", published: [0.02, "ppm"], also: [0.08, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [0.1, "ppm"], also: [0.4, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "carbon_dioxide", asPublished: null, sources: ["EU-2"], mark: "memory",
    notes: ["Indicative limit value."],
    limits: [
      { kind: "twa", published: [5000, "ppm"], also: [9000, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "ethylene_oxide", asPublished: null, sources: ["CMRD"], mark: "read",
    skin: true,
    notes: ["Binding limit value."],
    limits: [
      { kind: "twa", published: [1, "ppm"], also: [1.8, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "methyl_mercaptan", asPublished: "none set", sources: ["EU-ALL"], mark: "memory",
    limits: [],
  },
  {
    gas: "carbon_disulphide", asPublished: null, sources: ["EU-3"], mark: "memory",
    skin: true,
    notes: ["Indicative limit value.", "Agrees with the French value of art. R4412-149, which was read."],
    limits: [
      { kind: "twa", published: [5, "ppm"], also: [15, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "carbonyl_sulphide", asPublished: "none set", sources: ["EU-ALL"], mark: "memory",
    limits: [],
  },
  {
    gas: "formaldehyde", asPublished: null, sources: ["CMRD:2019/983"], mark: "memory",
    notes: ["Dermal sensitisation; 0.5 ppm transitional for health-care, funeral and embalming until 11 July 2024.", "Binding limit value."],
    limits: [
      { kind: "twa", published: [0.3, "ppm"], also: [0.37, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [0.6, "ppm"], also: [0.74, "mg/m3"], minutes: 15 },
    ],
    alternates: [
      { id: "health-care-funeral-and-embalming", for: "health care, funeral and embalming sectors until 11 July 2024", limits: [{ kind: "twa", published: [0.5, "ppm"], minutes: 480, validUntil: "2024-07-11" }], sources: ["CMRD:2019/983"], mark: "memory" },
    ],
  },
  {
    gas: "benzene", asPublished: null, sources: ["CMRD:2022/431"], mark: "read",
    skin: true,
    notes: ["Binding limit value."],
    limits: [
      { kind: "twa", published: [1, "ppm"], also: [3.25, "mg/m3"], minutes: 480, validUntil: "2024-04-05" },
      { kind: "twa", published: [0.5, "ppm"], also: [1.65, "mg/m3"], minutes: 480, validFrom: "2024-04-05", validUntil: "2026-04-05" },
      { kind: "twa", published: [0.2, "ppm"], also: [0.66, "mg/m3"], minutes: 480, validFrom: "2026-04-05" },
    ],
  },
  {
    gas: "toluene", asPublished: null, sources: ["EU-2"], mark: "memory",
    skin: true,
    notes: ["Indicative limit value."],
    limits: [
      { kind: "twa", published: [50, "ppm"], also: [192, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [100, "ppm"], also: [384, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "xylenes", asPublished: null, sources: ["EU-1"], mark: "memory",
    skin: true,
    notes: ["Indicative limit value.", "Agrees with the French value of art. R4412-149, which was read."],
    limits: [
      { kind: "twa", published: [50, "ppm"], also: [221, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [100, "ppm"], also: [442, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "ethylbenzene", asPublished: null, sources: ["EU-1"], mark: "memory",
    skin: true,
    notes: ["Indicative limit value."],
    limits: [
      { kind: "twa", published: [100, "ppm"], also: [442, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [200, "ppm"], also: [884, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "styrene", asPublished: "none set", sources: ["EU-ALL"], mark: "memory",
    limits: [],
  },
  {
    gas: "n_hexane", asPublished: null, sources: ["EU-2"], mark: "memory",
    notes: ["Indicative limit value.", "Agrees with the French value of art. R4412-149, which was read."],
    limits: [
      { kind: "twa", published: [20, "ppm"], also: [72, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "n_heptane", asPublished: null, sources: ["EU-1"], mark: "memory",
    notes: ["Indicative limit value."],
    limits: [
      { kind: "twa", published: [500, "ppm"], also: [2085, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "octane", asPublished: "none set", sources: ["EU-ALL"], mark: "memory",
    limits: [],
  },
  {
    gas: "cyclohexane", asPublished: null, sources: ["EU-2"], mark: "memory",
    notes: ["Indicative limit value.", "Agrees with the French value of art. R4412-149, which was read."],
    limits: [
      { kind: "twa", published: [200, "ppm"], also: [700, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "acetone", asPublished: null, sources: ["EU-1"], mark: "memory",
    notes: ["Indicative limit value.", "Agrees with the French value of art. R4412-149 (8-hour figure), which was read."],
    limits: [
      { kind: "twa", published: [500, "ppm"], also: [1210, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "mek", asPublished: null, sources: ["EU-1"], mark: "memory",
    notes: ["Indicative limit value.", "Agrees with the French value of art. R4412-149, which was read."],
    limits: [
      { kind: "twa", published: [200, "ppm"], also: [600, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [300, "ppm"], also: [900, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "methanol", asPublished: null, sources: ["EU-2"], mark: "memory",
    skin: true,
    notes: ["Indicative limit value.", "Agrees with the French value of art. R4412-149, which was read."],
    limits: [
      { kind: "twa", published: [200, "ppm"], also: [260, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "ethanol", asPublished: "none set", sources: ["EU-ALL"], mark: "memory",
    limits: [],
  },
  {
    gas: "isopropanol", asPublished: "none set", sources: ["EU-ALL"], mark: "memory",
    limits: [],
  },
  {
    gas: "ethyl_acetate", asPublished: null, sources: ["EU-4"], mark: "memory",
    notes: ["Indicative limit value."],
    limits: [
      { kind: "twa", published: [200, "ppm"], also: [734, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [400, "ppm"], also: [1468, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "vinyl_chloride", asPublished: null, sources: ["CMRD"], mark: "read",
    notes: ["Binding limit value."],
    limits: [
      { kind: "twa", published: [1, "ppm"], also: [2.6, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "butadiene", asPublished: null, sources: ["CMRD"], mark: "memory",
    notes: ["Binding limit value."],
    limits: [
      { kind: "twa", published: [1, "ppm"], also: [2.2, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "trichloroethylene", asPublished: null, sources: ["CMRD"], mark: "read",
    skin: true,
    notes: ["Binding limit value."],
    limits: [
      { kind: "twa", published: [10, "ppm"], also: [54.7, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [30, "ppm"], also: [164.1, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "isobutylene", asPublished: "none set", sources: ["EU-ALL"], mark: "memory",
    limits: [],
  },
  {
    gas: "propane", asPublished: "none set", sources: ["EU-ALL"], mark: "memory",
    limits: [],
  },
  {
    gas: "n_butane", asPublished: "none set", sources: ["EU-ALL"], mark: "memory",
    limits: [],
  },
  {
    gas: "isobutane", asPublished: "none set", sources: ["EU-ALL"], mark: "memory",
    limits: [],
  },
  {
    gas: "n_pentane", asPublished: null, sources: ["EU-2"], mark: "memory",
    notes: ["Indicative limit value.", "Agrees with the French value of art. R4412-149, which was read."],
    limits: [
      { kind: "twa", published: [1000, "ppm"], also: [3000, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "lpg", asPublished: "none set", sources: ["EU-ALL"], mark: "memory",
    limits: [],
  },
  {
    gas: "gasoline", asPublished: "none set", sources: ["EU-ALL"], mark: "memory",
    limits: [],
  },
  {
    gas: "hydrogen", asPublished: "none set", sources: ["EU-ALL"], mark: "memory",
    limits: [],
  },
  {
    gas: "methane", asPublished: "none set", sources: ["EU-ALL"], mark: "memory",
    limits: [],
  },
  {
    gas: "oxygen", asPublished: "none set", sources: ["EU-ALL"], mark: "memory",
    limits: [],
  },
];
