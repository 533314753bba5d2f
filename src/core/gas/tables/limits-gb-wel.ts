import type { LimitEntry } from "../limit-entry.ts";

/** Workplace exposure limits of Great Britain, EH40/2005. All from memory: check against the text in force. */
export const GB_WEL_LIMITS: readonly LimitEntry[] = [
  {
    gas: "carbon_monoxide", asPublished: null, sources: ["EH40"], mark: "memory",
    limits: [
      { kind: "twa", published: [20, "ppm"], also: [23, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [100, "ppm"], also: [117, "mg/m3"], minutes: 15 },
    ],
    alternates: [
      { id: "underground-mining-and-tunnelling", for: "underground mining and tunnelling until 21 August 2023", limits: [{ kind: "twa", published: [30, "ppm"], also: [35, "mg/m3"], minutes: 480, validUntil: "2023-08-21" }, { kind: "stel", published: [200, "ppm"], also: [232, "mg/m3"], minutes: 15, validUntil: "2023-08-21" }], sources: ["EH40"], mark: "memory" },
    ],
  },
  {
    gas: "hydrogen_sulphide", asPublished: null, sources: ["EH40"], mark: "memory",
    limits: [
      { kind: "twa", published: [5, "ppm"], also: [7, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [10, "ppm"], also: [14, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "sulphur_dioxide", asPublished: null, sources: ["EH40"], mark: "memory",
    limits: [
      { kind: "twa", published: [0.5, "ppm"], also: [1.3, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [1, "ppm"], also: [2.7, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "nitric_oxide", asPublished: null, sources: ["EH40"], mark: "memory",
    limits: [
      { kind: "twa", published: [2, "ppm"], also: [2.5, "mg/m3"], minutes: 480 },
    ],
    alternates: [
      { id: "underground-mining-and-tunnelling", for: "underground mining and tunnelling until 21 August 2023", limits: [{ kind: "twa", published: [25, "ppm"], also: [30, "mg/m3"], minutes: 480, validUntil: "2023-08-21" }], sources: ["EH40"], mark: "memory" },
    ],
  },
  {
    gas: "nitrogen_dioxide", asPublished: null, sources: ["EH40"], mark: "memory",
    limits: [
      { kind: "twa", published: [0.5, "ppm"], also: [0.96, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [1, "ppm"], also: [1.91, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "ammonia", asPublished: null, sources: ["EH40"], mark: "memory",
    limits: [
      { kind: "twa", published: [25, "ppm"], also: [18, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [35, "ppm"], also: [25, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "chlorine", asPublished: null, sources: ["EH40"], mark: "memory",
    limits: [
      { kind: "stel", published: [0.5, "ppm"], also: [1.5, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "chlorine_dioxide", asPublished: null, sources: ["EH40"], mark: "memory",
    limits: [
      { kind: "twa", published: [0.1, "ppm"], also: [0.28, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [0.3, "ppm"], also: [0.84, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "hydrogen_cyanide", asPublished: null, sources: ["EH40"], mark: "memory",
    skin: true,
    limits: [
      { kind: "twa", published: [0.9, "ppm"], also: [1, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [4.5, "ppm"], also: [5, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "hydrogen_chloride", asPublished: null, sources: ["EH40"], mark: "memory",
    notes: ["Gas and aerosol mists."],
    limits: [
      { kind: "twa", published: [1, "ppm"], also: [2, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [5, "ppm"], also: [8, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "hydrogen_fluoride", asPublished: null, sources: ["EH40"], mark: "memory",
    notes: ["As F."],
    limits: [
      { kind: "twa", published: [1.8, "ppm"], also: [1.5, "mg/m3"], minutes: 480, statedAs: "F" },
      { kind: "stel", published: [3, "ppm"], also: [2.5, "mg/m3"], minutes: 15, statedAs: "F" },
    ],
  },
  {
    gas: "phosphine", asPublished: null, sources: ["EH40"], mark: "memory",
    limits: [
      { kind: "twa", published: [0.1, "ppm"], also: [0.14, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [0.2, "ppm"], also: [0.28, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "arsine", asPublished: null, sources: ["EH40"], mark: "memory",
    limits: [
      { kind: "twa", published: [0.05, "ppm"], also: [0.16, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "silane", asPublished: null, sources: ["EH40"], mark: "memory",
    limits: [
      { kind: "twa", published: [0.5, "ppm"], also: [0.67, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [1, "ppm"], also: [1.3, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "ozone", asPublished: null, sources: ["EH40"], mark: "memory",
    limits: [
      { kind: "stel", published: [0.2, "ppm"], also: [0.4, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "phosgene", asPublished: null, sources: ["EH40"], mark: "memory",
    limits: [
      { kind: "twa", published: [0.02, "ppm"], also: [0.08, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [0.06, "ppm"], also: [0.25, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "carbon_dioxide", asPublished: null, sources: ["EH40"], mark: "memory",
    limits: [
      { kind: "twa", published: [5000, "ppm"], also: [9150, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [15000, "ppm"], also: [27400, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "ethylene_oxide", asPublished: null, sources: ["EH40"], mark: "memory",
    skin: true,
    carcinogen: true,
    limits: [
      { kind: "twa", published: [1, "ppm"], also: [1.8, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "methyl_mercaptan", asPublished: null, sources: ["EH40"], mark: "memory",
    limits: [
      { kind: "twa", published: [0.5, "ppm"], also: [1, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "carbon_disulphide", asPublished: null, sources: ["EH40"], mark: "memory",
    skin: true,
    limits: [
      { kind: "twa", published: [5, "ppm"], also: [15, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "carbonyl_sulphide", asPublished: "no WEL listed", sources: ["EH40"], mark: "memory",
    limits: [],
  },
  {
    gas: "formaldehyde", asPublished: null, sources: ["EH40"], mark: "memory",
    carcinogen: true,
    limits: [
      { kind: "twa", published: [2, "ppm"], also: [2.5, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [2, "ppm"], also: [2.5, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "benzene", asPublished: null, sources: ["EH40"], mark: "memory",
    skin: true,
    carcinogen: true,
    limits: [
      { kind: "twa", published: [1, "ppm"], also: [3.25, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "toluene", asPublished: null, sources: ["EH40"], mark: "memory",
    skin: true,
    limits: [
      { kind: "twa", published: [50, "ppm"], also: [191, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [100, "ppm"], also: [384, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "xylenes", asPublished: null, sources: ["EH40"], mark: "memory",
    skin: true,
    limits: [
      { kind: "twa", published: [50, "ppm"], also: [220, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [100, "ppm"], also: [441, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "ethylbenzene", asPublished: null, sources: ["EH40"], mark: "memory",
    skin: true,
    limits: [
      { kind: "twa", published: [100, "ppm"], also: [441, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [125, "ppm"], also: [552, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "styrene", asPublished: null, sources: ["EH40"], mark: "memory",
    limits: [
      { kind: "twa", published: [100, "ppm"], also: [430, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [250, "ppm"], also: [1080, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "n_hexane", asPublished: null, sources: ["EH40"], mark: "memory",
    limits: [
      { kind: "twa", published: [20, "ppm"], also: [72, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "n_heptane", asPublished: null, sources: ["EH40"], mark: "memory",
    limits: [
      { kind: "twa", published: [500, "ppm"], also: [2085, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "octane", asPublished: "no WEL listed", sources: ["EH40"], mark: "memory",
    limits: [],
  },
  {
    gas: "cyclohexane", asPublished: null, sources: ["EH40"], mark: "memory",
    limits: [
      { kind: "twa", published: [100, "ppm"], also: [350, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [300, "ppm"], also: [1050, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "acetone", asPublished: null, sources: ["EH40"], mark: "memory",
    limits: [
      { kind: "twa", published: [500, "ppm"], also: [1210, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [1500, "ppm"], also: [3620, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "mek", asPublished: null, sources: ["EH40"], mark: "memory",
    skin: true,
    limits: [
      { kind: "twa", published: [200, "ppm"], also: [600, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [300, "ppm"], also: [899, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "methanol", asPublished: null, sources: ["EH40"], mark: "memory",
    skin: true,
    limits: [
      { kind: "twa", published: [200, "ppm"], also: [266, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [250, "ppm"], also: [333, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "ethanol", asPublished: null, sources: ["EH40"], mark: "memory",
    limits: [
      { kind: "twa", published: [1000, "ppm"], also: [1920, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "isopropanol", asPublished: null, sources: ["EH40"], mark: "memory",
    limits: [
      { kind: "twa", published: [400, "ppm"], also: [999, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [500, "ppm"], also: [1250, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "ethyl_acetate", asPublished: null, sources: ["EH40"], mark: "memory",
    limits: [
      { kind: "twa", published: [200, "ppm"], also: [734, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [400, "ppm"], also: [1468, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "vinyl_chloride", asPublished: null, sources: ["EH40"], mark: "memory",
    carcinogen: true,
    limits: [
      { kind: "twa", published: [1, "ppm"], also: [2.6, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "butadiene", asPublished: null, sources: ["EH40"], mark: "memory",
    carcinogen: true,
    limits: [
      { kind: "twa", published: [1, "ppm"], also: [2.2, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "trichloroethylene", asPublished: null, sources: ["EH40"], mark: "memory",
    skin: true,
    carcinogen: true,
    limits: [
      { kind: "twa", published: [100, "ppm"], also: [550, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [150, "ppm"], also: [820, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "isobutylene", asPublished: "no WEL listed", sources: ["EH40"], mark: "memory",
    limits: [],
  },
  {
    gas: "propane", asPublished: "no WEL listed", sources: ["EH40"], mark: "memory",
    limits: [],
  },
  {
    gas: "n_butane", asPublished: null, sources: ["EH40"], mark: "memory",
    notes: ["Carcinogen note only if more than 0.1 % buta-1,3-diene."],
    limits: [
      { kind: "twa", published: [600, "ppm"], also: [1450, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [750, "ppm"], also: [1810, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "isobutane", asPublished: "no WEL listed", sources: ["EH40"], mark: "memory",
    limits: [],
  },
  {
    gas: "n_pentane", asPublished: null, sources: ["EH40"], mark: "memory",
    limits: [
      { kind: "twa", published: [600, "ppm"], also: [1800, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "lpg", asPublished: null, sources: ["EH40"], mark: "memory",
    limits: [
      { kind: "twa", published: [1000, "ppm"], also: [1750, "mg/m3"], minutes: 480 },
      { kind: "stel", published: [1250, "ppm"], also: [2180, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "gasoline", asPublished: "no WEL listed", sources: ["EH40"], mark: "memory",
    limits: [],
  },
  {
    gas: "hydrogen", asPublished: "no WEL listed", sources: ["EH40"], mark: "memory",
    limits: [],
  },
  {
    gas: "methane", asPublished: "no WEL listed", sources: ["EH40"], mark: "memory",
    limits: [],
  },
  {
    gas: "oxygen", asPublished: "no WEL listed", sources: ["EH40"], mark: "memory",
    limits: [],
  },
];
