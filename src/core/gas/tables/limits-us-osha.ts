import type { LimitEntry } from "../limit-entry.ts";

/** Permissible exposure limits of OSHA, general industry: 29 CFR 1910.1000 Tables Z-1 and Z-2 and the substance standards. */
export const US_OSHA_LIMITS: readonly LimitEntry[] = [
  {
    gas: "carbon_monoxide", asPublished: "TWA 50 ppm (55 mg/m3) See Appendix G", sources: ["Z1", "NPG:0105"], mark: "read",
    tableRow: "Carbon monoxide | 50 | 55",
    limits: [
      { kind: "twa", published: [50, "ppm"], also: [55, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "hydrogen_sulphide", asPublished: "C 20 ppm 50 ppm [10-minute maximum peak] See Appendix G", sources: ["Z2:Z37.2-1966"], mark: "read",
    tableRow: "Hydrogen sulfide | See Annotated Z-2 | See Annotated Z-2",
    notes: ["Table Z-2 prints: \"once only if no other measurable exposure occurs\"."],
    limits: [
      { kind: "three-level", published: null, minutes: 480, threeLevel: { ceiling: 20, peak: 50, unit: "ppm", longestMinutes: 10, withinMinutes: null, onceOnly: true } },
    ],
    alternates: [
      { id: "construction-and-shipyards", for: "construction (29 CFR 1926.55) and shipyards (29 CFR 1915.1000)", limits: [{ kind: "twa", published: [10, "ppm"], minutes: 480 }], sources: ["CFR-recalled:1926.55", "CFR-recalled:1915.1000"], mark: "memory" },
    ],
  },
  {
    gas: "sulphur_dioxide", asPublished: "TWA 5 ppm (13 mg/m3) See Appendix G", sources: ["Z1", "NPG:0575"], mark: "read",
    tableRow: "Sulfur dioxide | 5 | 13",
    limits: [
      { kind: "twa", published: [5, "ppm"], also: [13, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "nitric_oxide", asPublished: "TWA 25 ppm (30 mg/m3)", sources: ["Z1", "NPG:0448"], mark: "read",
    tableRow: "Nitric oxide | 25 | 30",
    limits: [
      { kind: "twa", published: [25, "ppm"], also: [30, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "nitrogen_dioxide", asPublished: "C 5 ppm (9 mg/m3) See Appendix G", sources: ["Z1", "NPG:0454"], mark: "read",
    tableRow: "Nitrogen dioxide | (C) 5 | (C) 9",
    limits: [
      { kind: "ceiling", published: [5, "ppm"], also: [9, "mg/m3"], minutes: null },
    ],
  },
  {
    gas: "ammonia", asPublished: "TWA 50 ppm (35 mg/m3) See Appendix G", sources: ["Z1", "NPG:0028"], mark: "read",
    tableRow: "Ammonia | 50 | 35",
    limits: [
      { kind: "twa", published: [50, "ppm"], also: [35, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "chlorine", asPublished: "C 1 ppm (3 mg/m3) See Appendix G", sources: ["Z1", "NPG:0115"], mark: "read",
    tableRow: "Chlorine | (C) 1 | (C) 3",
    limits: [
      { kind: "ceiling", published: [1, "ppm"], also: [3, "mg/m3"], minutes: null },
    ],
  },
  {
    gas: "chlorine_dioxide", asPublished: "TWA 0.1 ppm (0.3 mg/m3) See Appendix G", sources: ["Z1", "NPG:0116"], mark: "read",
    tableRow: "Chlorine dioxide | 0.1 | 0.3",
    limits: [
      { kind: "twa", published: [0.1, "ppm"], also: [0.3, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "hydrogen_cyanide", asPublished: "TWA 10 ppm (11 mg/m3) [skin] See Appendix G", sources: ["Z1", "NPG:0333"], mark: "read",
    tableRow: "Hydrogen cyanide | 10 | 11",
    skin: true,
    limits: [
      { kind: "twa", published: [10, "ppm"], also: [11, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "hydrogen_chloride", asPublished: "C 5 ppm (7 mg/m3)", sources: ["Z1", "NPG:0332"], mark: "read",
    tableRow: "Hydrogen chloride | (C) 5 | (C) 7",
    limits: [
      { kind: "ceiling", published: [5, "ppm"], also: [7, "mg/m3"], minutes: null },
    ],
  },
  {
    gas: "hydrogen_fluoride", asPublished: "TWA 3 ppm See Appendix G", sources: ["Z2:Z37.28-1969"], mark: "read",
    tableRow: "Hydrogen fluoride (as F) | See Annotated Z-2 | See Annotated Z-2",
    limits: [
      { kind: "twa", published: [3, "ppm"], minutes: 480, statedAs: "F" },
    ],
  },
  {
    gas: "phosphine", asPublished: "TWA 0.3 ppm (0.4 mg/m3) See Appendix G", sources: ["Z1", "NPG:0505"], mark: "read",
    tableRow: "Phosphine | 0.3 | 0.4",
    limits: [
      { kind: "twa", published: [0.3, "ppm"], also: [0.4, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "arsine", asPublished: "TWA 0.05 ppm (0.2 mg/m3)", sources: ["Z1", "NPG:0040"], mark: "read",
    tableRow: "Arsine | 0.05 | 0.2",
    limits: [
      { kind: "twa", published: [0.05, "ppm"], also: [0.2, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "silane", asPublished: "none See Appendix G", sources: ["Z1", "NPG:0556"], mark: "read",
    limits: [],
  },
  {
    gas: "ozone", asPublished: "TWA 0.1 ppm (0.2 mg/m3) See Appendix G", sources: ["Z1", "NPG:0476"], mark: "read",
    tableRow: "Ozone | 0.1 | 0.2",
    limits: [
      { kind: "twa", published: [0.1, "ppm"], also: [0.2, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "phosgene", asPublished: "TWA 0.1 ppm (0.4 mg/m3)", sources: ["Z1", "NPG:0504"], mark: "read",
    tableRow: "Phosgene (Carbonyl chloride) | 0.1 | 0.4",
    limits: [
      { kind: "twa", published: [0.1, "ppm"], also: [0.4, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "carbon_dioxide", asPublished: "TWA 5000 ppm (9000 mg/m3) See Appendix G", sources: ["Z1", "NPG:0103"], mark: "read",
    tableRow: "Carbon dioxide | 5000 | 9000",
    limits: [
      { kind: "twa", published: [5000, "ppm"], also: [9000, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "ethylene_oxide", asPublished: "[1910.1047] TWA 1 ppm 5 ppm [15-minute Excursion]", sources: ["CFR:1910.1047", "Z1", "NPG:0275"], mark: "read",
    tableRow: "Ethylene oxide; see 1910.1047 | - | -",
    notes: ["Action level 0.5 ppm (memory)."],
    limits: [
      { kind: "twa", published: [1, "ppm"], minutes: 480 },
      { kind: "excursion", published: [5, "ppm"], minutes: 15 },
    ],
  },
  {
    gas: "methyl_mercaptan", asPublished: "C 10 ppm (20 mg/m3) See Appendix G", sources: ["Z1", "NPG:0425"], mark: "read",
    tableRow: "Methyl mercaptan | (C) 10 | (C) 20",
    limits: [
      { kind: "ceiling", published: [10, "ppm"], also: [20, "mg/m3"], minutes: null },
    ],
  },
  {
    gas: "carbon_disulphide", asPublished: "TWA 20 ppm C 30 ppm 100 ppm (30-minute maximum peak) See Appendix G", sources: ["Z2:Z37.3-1968"], mark: "read",
    tableRow: "Carbon disulfide | See Annotated Z-2 | See Annotated Z-2",
    limits: [
      { kind: "three-level", published: [20, "ppm"], minutes: 480, threeLevel: { ceiling: 30, peak: 100, unit: "ppm", longestMinutes: 30, withinMinutes: null, onceOnly: false } },
    ],
  },
  {
    gas: "carbonyl_sulphide", asPublished: "no PEL", sources: ["Z1", "Z2"], mark: "read",
    limits: [],
  },
  {
    gas: "formaldehyde", asPublished: "[1910.1048] TWA 0.75 ppm ST 2 ppm", sources: ["CFR:1910.1048", "Z1", "NPG:0293"], mark: "read",
    tableRow: "Formaldehyde; see 1910.1048 | - | -",
    notes: ["Action level 0.5 ppm (memory)."],
    limits: [
      { kind: "twa", published: [0.75, "ppm"], minutes: 480 },
      { kind: "stel", published: [2, "ppm"], minutes: 15 },
    ],
  },
  {
    gas: "benzene", asPublished: "[1910.1028] TWA 1 ppm ST 5 ppm See Appendix F", sources: ["CFR:1910.1028", "Z1", "NPG:0049"], mark: "read",
    tableRow: "Benzene; See 1910.1028; See Table Z-2 for the limits applicable in the operations or sectors excluded in 1910.1028 (j) | - | -",
    notes: ["Action level 0.5 ppm (read)."],
    limits: [
      { kind: "twa", published: [1, "ppm"], minutes: 480 },
      { kind: "stel", published: [5, "ppm"], minutes: 15 },
    ],
    alternates: [
      { id: "exempt-from-1910.1028", for: "segments exempt from 29 CFR 1910.1028", limits: [{ kind: "three-level", published: [10, "ppm"], minutes: 480, threeLevel: { ceiling: 25, peak: 50, unit: "ppm", longestMinutes: 10, withinMinutes: null, onceOnly: false } }], sources: ["Z2:Z37.40-1969"], mark: "read" },
    ],
  },
  {
    gas: "toluene", asPublished: "TWA 200 ppm C 300 ppm 500 ppm (10-minute maximum peak) See Appendix G", sources: ["Z2:Z37.12-1967"], mark: "read",
    tableRow: "Toluene | See Annotated Z-2 | See Annotated Z-2",
    limits: [
      { kind: "three-level", published: [200, "ppm"], minutes: 480, threeLevel: { ceiling: 300, peak: 500, unit: "ppm", longestMinutes: 10, withinMinutes: null, onceOnly: false } },
    ],
  },
  {
    gas: "xylenes", asPublished: "TWA 100 ppm (435 mg/m3) See Appendix G", sources: ["Z1", "NPG:0669"], mark: "read",
    tableRow: "Xylenes (o-, m-, p-isomers) | 100 | 435",
    limits: [
      { kind: "twa", published: [100, "ppm"], also: [435, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "ethylbenzene", asPublished: "TWA 100 ppm (435 mg/m3) See Appendix G", sources: ["Z1", "NPG:0264"], mark: "read",
    tableRow: "Ethyl benzene | 100 | 435",
    limits: [
      { kind: "twa", published: [100, "ppm"], also: [435, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "styrene", asPublished: "TWA 100 ppm C 200 ppm 600 ppm (5-minute maximum peak in any 3 hours) See Appendix G", sources: ["Z2:Z37.15-1969"], mark: "read",
    tableRow: "Styrene | See Annotated Z-2 | See Annotated Z-2",
    limits: [
      { kind: "three-level", published: [100, "ppm"], minutes: 480, threeLevel: { ceiling: 200, peak: 600, unit: "ppm", longestMinutes: 5, withinMinutes: 180, onceOnly: false } },
    ],
  },
  {
    gas: "n_hexane", asPublished: "TWA 500 ppm (1800 mg/m3) See Appendix G", sources: ["Z1", "NPG:0322"], mark: "read",
    tableRow: "n-Hexane | 500 | 1800",
    limits: [
      { kind: "twa", published: [500, "ppm"], also: [1800, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "n_heptane", asPublished: "TWA 500 ppm (2000 mg/m3) See Appendix G", sources: ["Z1", "NPG:0312"], mark: "read",
    tableRow: "Heptane (n-Heptane) | 500 | 2000",
    limits: [
      { kind: "twa", published: [500, "ppm"], also: [2000, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "octane", asPublished: "TWA 500 ppm (2350 mg/m3) See Appendix G", sources: ["Z1", "NPG:0470"], mark: "read",
    tableRow: "Octane | 500 | 2350",
    limits: [
      { kind: "twa", published: [500, "ppm"], also: [2350, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "cyclohexane", asPublished: "TWA 300 ppm (1050 mg/m3)", sources: ["Z1", "NPG:0163"], mark: "read",
    tableRow: "Cyclohexane | 300 | 1050",
    limits: [
      { kind: "twa", published: [300, "ppm"], also: [1050, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "acetone", asPublished: "TWA 1000 ppm (2400 mg/m3) See Appendix G", sources: ["Z1", "NPG:0004"], mark: "read",
    tableRow: "Acetone | 1000 | 2400",
    limits: [
      { kind: "twa", published: [1000, "ppm"], also: [2400, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "mek", asPublished: "TWA 200 ppm (590 mg/m3) See Appendix G", sources: ["Z1", "NPG:0069"], mark: "read",
    tableRow: "2-Butanone (Methyl ethyl ketone) | 200 | 590",
    limits: [
      { kind: "twa", published: [200, "ppm"], also: [590, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "methanol", asPublished: "TWA 200 ppm (260 mg/m3) See Appendix G", sources: ["Z1", "NPG:0397"], mark: "read",
    tableRow: "Methyl alcohol | 200 | 260",
    limits: [
      { kind: "twa", published: [200, "ppm"], also: [260, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "ethanol", asPublished: "TWA 1000 ppm (1900 mg/m3)", sources: ["Z1", "NPG:0262"], mark: "read",
    tableRow: "Ethyl alcohol (Ethanol) | 1000 | 1900",
    limits: [
      { kind: "twa", published: [1000, "ppm"], also: [1900, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "isopropanol", asPublished: "TWA 400 ppm (980 mg/m3) See Appendix G", sources: ["Z1", "NPG:0359"], mark: "read",
    tableRow: "Isopropyl alcohol | 400 | 980",
    limits: [
      { kind: "twa", published: [400, "ppm"], also: [980, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "ethyl_acetate", asPublished: "TWA 400 ppm (1400 mg/m3)", sources: ["Z1", "NPG:0260"], mark: "read",
    tableRow: "Ethyl acetate | 400 | 1400",
    limits: [
      { kind: "twa", published: [400, "ppm"], also: [1400, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "vinyl_chloride", asPublished: "[1910.1017] TWA 1 ppm C 5 ppm [15-minute]", sources: ["CFR:1910.1017", "Z1", "NPG:0658"], mark: "read",
    tableRow: "Vinyl chloride; see 1910.1017 | - | -",
    notes: ["The rule text is 5 ppm averaged over any period not exceeding 15 minutes, so shorter windows count too (memory).", "Action level 0.5 ppm (memory)."],
    limits: [
      { kind: "twa", published: [1, "ppm"], minutes: 480 },
      { kind: "any-shorter-period", published: [5, "ppm"], minutes: 15 },
    ],
  },
  {
    gas: "butadiene", asPublished: "[1910.1051] TWA 1 ppm ST 5 ppm", sources: ["CFR:1910.1051", "Z1", "NPG:0067"], mark: "read",
    tableRow: "Butadiene (1,3-Butadiene); See 29 CFR 1910.1051; 29 CFR 1910.19(l) | 1 ppm / 5 ppm STEL | -",
    notes: ["Action level 0.5 ppm (memory)."],
    limits: [
      { kind: "twa", published: [1, "ppm"], minutes: 480 },
      { kind: "stel", published: [5, "ppm"], minutes: 15 },
    ],
  },
  {
    gas: "trichloroethylene", asPublished: "TWA 100 ppm C 200 ppm 300 ppm (5-minute maximum peak in any 2 hours) See Appendix G", sources: ["Z2:Z37.19-1967"], mark: "read",
    tableRow: "Trichloroethylene | See Annotated Z-2 | See Annotated Z-2",
    limits: [
      { kind: "three-level", published: [100, "ppm"], minutes: 480, threeLevel: { ceiling: 200, peak: 300, unit: "ppm", longestMinutes: 5, withinMinutes: 120, onceOnly: false } },
    ],
  },
  {
    gas: "isobutylene", asPublished: "no PEL", sources: ["Z1", "Z2"], mark: "read",
    limits: [],
  },
  {
    gas: "propane", asPublished: "TWA 1000 ppm (1800 mg/m3)", sources: ["Z1", "NPG:0524"], mark: "read",
    tableRow: "Propane | 1000 | 1800",
    limits: [
      { kind: "twa", published: [1000, "ppm"], also: [1800, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "n_butane", asPublished: "none See Appendix G", sources: ["Z1", "NPG:0068"], mark: "read",
    limits: [],
  },
  {
    gas: "isobutane", asPublished: "none See Appendix G", sources: ["Z1", "NPG:0350"], mark: "read",
    limits: [],
  },
  {
    gas: "n_pentane", asPublished: "TWA 1000 ppm (2950 mg/m3) See Appendix G", sources: ["Z1", "NPG:0486"], mark: "read",
    tableRow: "Pentane | 1000 | 2950",
    limits: [
      { kind: "twa", published: [1000, "ppm"], also: [2950, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "lpg", asPublished: "TWA 1000 ppm (1800 mg/m3)", sources: ["Z1", "NPG:0679"], mark: "read",
    tableRow: "L.P.G. (Liquified petroleum gas) | 1000 | 1800",
    limits: [
      { kind: "twa", published: [1000, "ppm"], also: [1800, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "gasoline", asPublished: "none See Appendix G", sources: ["Z1", "NPG:0299"], mark: "read",
    limits: [],
  },
  {
    gas: "hydrogen", asPublished: "no PEL", sources: ["Z1", "Z2"], mark: "read",
    limits: [],
  },
  {
    gas: "methane", asPublished: "no PEL", sources: ["Z1", "Z2"], mark: "read",
    limits: [],
  },
  {
    gas: "oxygen", asPublished: "no PEL", sources: ["Z1", "Z2"], mark: "read",
    limits: [],
  },
  {
    gas: "diborane", asPublished: "TWA 0.1 ppm (0.1 mg/m3)", sources: ["Z1", "NPG:0183"], mark: "read",
    tableRow: "Diborane | 0.1 | 0.1",
    limits: [
      { kind: "twa", published: [0.1, "ppm"], also: [0.1, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "hydrogen_bromide", asPublished: "TWA 3 ppm (10 mg/m3) See Appendix G", sources: ["Z1", "NPG:0331"], mark: "read",
    tableRow: "Hydrogen bromide | 3 | 10",
    limits: [
      { kind: "twa", published: [3, "ppm"], also: [10, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "hydrogen_selenide", asPublished: "TWA 0.05 ppm (0.2 mg/m3)", sources: ["Z1", "NPG:0336"], mark: "read",
    tableRow: "Hydrogen selenide (as Se) | 0.05 | 0.2",
    limits: [
      { kind: "twa", published: [0.05, "ppm"], also: [0.2, "mg/m3"], minutes: 480, statedAs: "Se" },
    ],
  },
  {
    gas: "germane", asPublished: "none See Appendix G", sources: ["Z1", "NPG:0300"], mark: "read",
    limits: [],
  },
  {
    gas: "hydrogen_peroxide", asPublished: "TWA 1 ppm (1.4 mg/m3)", sources: ["Z1", "NPG:0335"], mark: "read",
    tableRow: "Hydrogen peroxide | 1 | 1.4",
    limits: [
      { kind: "twa", published: [1, "ppm"], also: [1.4, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "hydrazine", asPublished: "TWA 1 ppm (1.3 mg/m3) [skin] See Appendix G", sources: ["Z1", "NPG:0329"], mark: "read",
    tableRow: "Hydrazine | 1 | 1.3",
    skin: true,
    limits: [
      { kind: "twa", published: [1, "ppm"], also: [1.3, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "acrolein", asPublished: "TWA 0.1 ppm (0.25 mg/m3) See Appendix G", sources: ["Z1", "NPG:0011"], mark: "read",
    tableRow: "Acrolein | 0.1 | 0.25",
    limits: [
      { kind: "twa", published: [0.1, "ppm"], also: [0.25, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "ethyl_mercaptan", asPublished: "C 10 ppm (25 mg/m3) See Appendix G", sources: ["Z1", "NPG:0280"], mark: "read",
    tableRow: "Ethyl mercaptan | (C) 10 | (C) 25",
    limits: [
      { kind: "ceiling", published: [10, "ppm"], also: [25, "mg/m3"], minutes: null },
    ],
  },
  {
    gas: "nitrous_oxide", asPublished: "none", sources: ["Z1", "NPG:0465"], mark: "read",
    limits: [],
  },
  {
    gas: "propylene_oxide", asPublished: "TWA 100 ppm (240 mg/m3) See Appendix G", sources: ["Z1", "NPG:0538"], mark: "read",
    tableRow: "Propylene oxide | 100 | 240",
    limits: [
      { kind: "twa", published: [100, "ppm"], also: [240, "mg/m3"], minutes: 480 },
    ],
  },
  {
    gas: "methylene_chloride", asPublished: "[1910.1052] TWA 25 ppm ST 125 ppm", sources: ["CFR:1910.1052", "Z1", "NPG:0414"], mark: "read",
    tableRow: "Methylene chloride | See Annotated Z-2 | See Annotated Z-2",
    limits: [
      { kind: "twa", published: [25, "ppm"], minutes: 480 },
      { kind: "stel", published: [125, "ppm"], minutes: 15 },
    ],
  },
  {
    gas: "acetylene", asPublished: "none", sources: ["Z1", "NPG:0008"], mark: "read",
    limits: [],
  },
];
