import type { LimitEntry } from "../limit-entry.ts";

/** Recommended exposure limits of NIOSH, from the Pocket Guide. */
export const US_NIOSH_LIMITS: readonly LimitEntry[] = [
  {
    gas: "carbon_monoxide", asPublished: "TWA 35 ppm (40 mg/m3) C 200 ppm (229 mg/m3)", sources: ["NPG:0105"], mark: "read",
    limits: [
      { kind: "twa", published: [35, "ppm"], also: [40, "mg/m3"], minutes: 600 },
      { kind: "ceiling", published: [200, "ppm"], also: [229, "mg/m3"], minutes: null },
    ],
  },
  {
    gas: "hydrogen_sulphide", asPublished: "C 10 ppm (15 mg/m3) [10-minute]", sources: ["NPG:0337"], mark: "read",
    limits: [
      { kind: "ceiling", published: [10, "ppm"], also: [15, "mg/m3"], minutes: 10 },
    ],
  },
  {
    gas: "sulphur_dioxide", asPublished: "TWA 2 ppm (5 mg/m3) ST 5 ppm (13 mg/m3)", sources: ["NPG:0575"], mark: "read",
    limits: [
      { kind: "twa", published: [2, "ppm"], also: [5, "mg/m3"], minutes: 600 },
      { kind: "stel", published: [5, "ppm"], also: [13, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "nitric_oxide", asPublished: "TWA 25 ppm (30 mg/m3)", sources: ["NPG:0448"], mark: "read",
    limits: [
      { kind: "twa", published: [25, "ppm"], also: [30, "mg/m3"], minutes: 600 },
    ],
  },
  {
    gas: "nitrogen_dioxide", asPublished: "ST 1 ppm (1.8 mg/m3)", sources: ["NPG:0454"], mark: "read",
    limits: [
      { kind: "stel", published: [1, "ppm"], also: [1.8, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "ammonia", asPublished: "TWA 25 ppm (18 mg/m3) ST 35 ppm (27 mg/m3)", sources: ["NPG:0028"], mark: "read",
    limits: [
      { kind: "twa", published: [25, "ppm"], also: [18, "mg/m3"], minutes: 600 },
      { kind: "stel", published: [35, "ppm"], also: [27, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "chlorine", asPublished: "C 0.5 ppm (1.45 mg/m3) [15-minute]", sources: ["NPG:0115"], mark: "read",
    limits: [
      { kind: "ceiling", published: [0.5, "ppm"], also: [1.45, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "chlorine_dioxide", asPublished: "TWA 0.1 ppm (0.3 mg/m3) ST 0.3 ppm (0.9 mg/m3)", sources: ["NPG:0116"], mark: "read",
    limits: [
      { kind: "twa", published: [0.1, "ppm"], also: [0.3, "mg/m3"], minutes: 600 },
      { kind: "stel", published: [0.3, "ppm"], also: [0.9, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "hydrogen_cyanide", asPublished: "ST 4.7 ppm (5 mg/m3) [skin]", sources: ["NPG:0333"], mark: "read",
    skin: true,
    limits: [
      { kind: "stel", published: [4.7, "ppm"], also: [5, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "hydrogen_chloride", asPublished: "C 5 ppm (7 mg/m3)", sources: ["NPG:0332"], mark: "read",
    limits: [
      { kind: "ceiling", published: [5, "ppm"], also: [7, "mg/m3"], minutes: null },
    ],
  },
  {
    gas: "hydrogen_fluoride", asPublished: "TWA 3 ppm (2.5 mg/m3) C 6 ppm (5 mg/m3) [15-minute]", sources: ["NPG:0334"], mark: "read",
    limits: [
      { kind: "twa", published: [3, "ppm"], also: [2.5, "mg/m3"], minutes: 600 },
      { kind: "ceiling", published: [6, "ppm"], also: [5, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "phosphine", asPublished: "TWA 0.3 ppm (0.4 mg/m3) ST 1 ppm (1 mg/m3)", sources: ["NPG:0505"], mark: "read",
    limits: [
      { kind: "twa", published: [0.3, "ppm"], also: [0.4, "mg/m3"], minutes: 600 },
      { kind: "stel", published: [1, "ppm"], also: [1, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "arsine", asPublished: "Ca C 0.002 mg/m3 [15-minute] See Appendix A", sources: ["NPG:0040"], mark: "read",
    carcinogen: true,
    limits: [
      { kind: "ceiling", published: [0.002, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "silane", asPublished: "TWA 5 ppm (7 mg/m3)", sources: ["NPG:0556"], mark: "read",
    limits: [
      { kind: "twa", published: [5, "ppm"], also: [7, "mg/m3"], minutes: 600 },
    ],
  },
  {
    gas: "ozone", asPublished: "C 0.1 ppm (0.2 mg/m3)", sources: ["NPG:0476"], mark: "read",
    limits: [
      { kind: "ceiling", published: [0.1, "ppm"], also: [0.2, "mg/m3"], minutes: null },
    ],
  },
  {
    gas: "phosgene", asPublished: "TWA 0.1 ppm (0.4 mg/m3) C 0.2 ppm (0.8 mg/m3) [15-minute]", sources: ["NPG:0504"], mark: "read",
    limits: [
      { kind: "twa", published: [0.1, "ppm"], also: [0.4, "mg/m3"], minutes: 600 },
      { kind: "ceiling", published: [0.2, "ppm"], also: [0.8, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "carbon_dioxide", asPublished: "TWA 5000 ppm (9000 mg/m3) ST 30,000 ppm (54,000 mg/m3)", sources: ["NPG:0103"], mark: "read",
    limits: [
      { kind: "twa", published: [5000, "ppm"], also: [9000, "mg/m3"], minutes: 600 },
      { kind: "stel", published: [30000, "ppm"], also: [54000, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "ethylene_oxide", asPublished: "Ca TWA <0.1 ppm (0.18 mg/m3) C 5 ppm (9 mg/m3) [10-min/day] See Appendix A", sources: ["NPG:0275"], mark: "read",
    carcinogen: true,
    notes: ["Printed as \"<0.1 ppm\": a mean of exactly 0.1 does not meet it."],
    limits: [
      { kind: "twa", published: [0.1, "ppm"], also: [0.18, "mg/m3"], minutes: 600, operator: ">=" },
      { kind: "ceiling", published: [5, "ppm"], also: [9, "mg/m3"], minutes: 10, textNeedsPerson: "The text is \"C 5 ppm [10-min/day]\": it limits the minutes a day as well as the level. The 10-minute mean is computed; a person decides where it and the minutes differ." },
    ],
  },
  {
    gas: "methyl_mercaptan", asPublished: "C 0.5 ppm (1 mg/m3) [15-minute]", sources: ["NPG:0425"], mark: "read",
    limits: [
      { kind: "ceiling", published: [0.5, "ppm"], also: [1, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "carbon_disulphide", asPublished: "TWA 1 ppm (3 mg/m3) ST 10 ppm (30 mg/m3) [skin]", sources: ["NPG:0104"], mark: "read",
    skin: true,
    limits: [
      { kind: "twa", published: [1, "ppm"], also: [3, "mg/m3"], minutes: 600 },
      { kind: "stel", published: [10, "ppm"], also: [30, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "carbonyl_sulphide", asPublished: "no entry", sources: ["NPG"], mark: "read",
    limits: [],
  },
  {
    gas: "formaldehyde", asPublished: "Ca TWA 0.016 ppm C 0.1 ppm [15-minute] See Appendix A", sources: ["NPG:0293"], mark: "read",
    carcinogen: true,
    limits: [
      { kind: "twa", published: [0.016, "ppm"], minutes: 600 },
      { kind: "ceiling", published: [0.1, "ppm"], minutes: 15 },
    ],
  },
  {
    gas: "benzene", asPublished: "Ca TWA 0.1 ppm ST 1 ppm See Appendix A", sources: ["NPG:0049"], mark: "read",
    carcinogen: true,
    limits: [
      { kind: "twa", published: [0.1, "ppm"], minutes: 600 },
      { kind: "stel", published: [1, "ppm"], minutes: 15 },
    ],
  },
  {
    gas: "toluene", asPublished: "TWA 100 ppm (375 mg/m3) ST 150 ppm (560 mg/m3)", sources: ["NPG:0619"], mark: "read",
    limits: [
      { kind: "twa", published: [100, "ppm"], also: [375, "mg/m3"], minutes: 600 },
      { kind: "stel", published: [150, "ppm"], also: [560, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "xylenes", asPublished: "TWA 100 ppm (435 mg/m3) ST 150 ppm (655 mg/m3)", sources: ["NPG:0669"], mark: "read",
    limits: [
      { kind: "twa", published: [100, "ppm"], also: [435, "mg/m3"], minutes: 600 },
      { kind: "stel", published: [150, "ppm"], also: [655, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "ethylbenzene", asPublished: "TWA 100 ppm (435 mg/m3) ST 125 ppm (545 mg/m3)", sources: ["NPG:0264"], mark: "read",
    limits: [
      { kind: "twa", published: [100, "ppm"], also: [435, "mg/m3"], minutes: 600 },
      { kind: "stel", published: [125, "ppm"], also: [545, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "styrene", asPublished: "TWA 50 ppm (215 mg/m3) ST 100 ppm (425 mg/m3)", sources: ["NPG:0571"], mark: "read",
    limits: [
      { kind: "twa", published: [50, "ppm"], also: [215, "mg/m3"], minutes: 600 },
      { kind: "stel", published: [100, "ppm"], also: [425, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "n_hexane", asPublished: "TWA 50 ppm (180 mg/m3)", sources: ["NPG:0322"], mark: "read",
    limits: [
      { kind: "twa", published: [50, "ppm"], also: [180, "mg/m3"], minutes: 600 },
    ],
  },
  {
    gas: "n_heptane", asPublished: "TWA 85 ppm (350 mg/m3) C 440 ppm (1800 mg/m3) [15-minute]", sources: ["NPG:0312"], mark: "read",
    limits: [
      { kind: "twa", published: [85, "ppm"], also: [350, "mg/m3"], minutes: 600 },
      { kind: "ceiling", published: [440, "ppm"], also: [1800, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "octane", asPublished: "TWA 75 ppm (350 mg/m3) C 385 ppm (1800 mg/m3) [15-minute]", sources: ["NPG:0470"], mark: "read",
    limits: [
      { kind: "twa", published: [75, "ppm"], also: [350, "mg/m3"], minutes: 600 },
      { kind: "ceiling", published: [385, "ppm"], also: [1800, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "cyclohexane", asPublished: "TWA 300 ppm (1050 mg/m3)", sources: ["NPG:0163"], mark: "read",
    limits: [
      { kind: "twa", published: [300, "ppm"], also: [1050, "mg/m3"], minutes: 600 },
    ],
  },
  {
    gas: "acetone", asPublished: "TWA 250 ppm (590 mg/m3)", sources: ["NPG:0004"], mark: "read",
    limits: [
      { kind: "twa", published: [250, "ppm"], also: [590, "mg/m3"], minutes: 600 },
    ],
  },
  {
    gas: "mek", asPublished: "TWA 200 ppm (590 mg/m3) ST 300 ppm (885 mg/m3)", sources: ["NPG:0069"], mark: "read",
    limits: [
      { kind: "twa", published: [200, "ppm"], also: [590, "mg/m3"], minutes: 600 },
      { kind: "stel", published: [300, "ppm"], also: [885, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "methanol", asPublished: "TWA 200 ppm (260 mg/m3) ST 250 ppm (325 mg/m3) [skin]", sources: ["NPG:0397"], mark: "read",
    skin: true,
    limits: [
      { kind: "twa", published: [200, "ppm"], also: [260, "mg/m3"], minutes: 600 },
      { kind: "stel", published: [250, "ppm"], also: [325, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "ethanol", asPublished: "TWA 1000 ppm (1900 mg/m3)", sources: ["NPG:0262"], mark: "read",
    limits: [
      { kind: "twa", published: [1000, "ppm"], also: [1900, "mg/m3"], minutes: 600 },
    ],
  },
  {
    gas: "isopropanol", asPublished: "TWA 400 ppm (980 mg/m3) ST 500 ppm (1225 mg/m3)", sources: ["NPG:0359"], mark: "read",
    limits: [
      { kind: "twa", published: [400, "ppm"], also: [980, "mg/m3"], minutes: 600 },
      { kind: "stel", published: [500, "ppm"], also: [1225, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "ethyl_acetate", asPublished: "TWA 400 ppm (1400 mg/m3)", sources: ["NPG:0260"], mark: "read",
    limits: [
      { kind: "twa", published: [400, "ppm"], also: [1400, "mg/m3"], minutes: 600 },
    ],
  },
  {
    gas: "vinyl_chloride", asPublished: "Ca See Appendix A", sources: ["NPG:0658"], mark: "read",
    carcinogen: true,
    limits: [],
  },
  {
    gas: "butadiene", asPublished: "Ca See Appendix A", sources: ["NPG:0067"], mark: "read",
    carcinogen: true,
    limits: [],
  },
  {
    gas: "trichloroethylene", asPublished: "Ca See Appendix A See Appendix C", sources: ["NPG:0629"], mark: "read",
    carcinogen: true,
    limits: [],
  },
  {
    gas: "isobutylene", asPublished: "no entry", sources: ["NPG"], mark: "read",
    limits: [],
  },
  {
    gas: "propane", asPublished: "TWA 1000 ppm (1800 mg/m3)", sources: ["NPG:0524"], mark: "read",
    limits: [
      { kind: "twa", published: [1000, "ppm"], also: [1800, "mg/m3"], minutes: 600 },
    ],
  },
  {
    gas: "n_butane", asPublished: "TWA 800 ppm (1900 mg/m3)", sources: ["NPG:0068"], mark: "read",
    limits: [
      { kind: "twa", published: [800, "ppm"], also: [1900, "mg/m3"], minutes: 600 },
    ],
  },
  {
    gas: "isobutane", asPublished: "TWA 800 ppm (1900 mg/m3)", sources: ["NPG:0350"], mark: "read",
    limits: [
      { kind: "twa", published: [800, "ppm"], also: [1900, "mg/m3"], minutes: 600 },
    ],
  },
  {
    gas: "n_pentane", asPublished: "TWA 120 ppm (350 mg/m3) C 610 ppm (1800 mg/m3) [15-minute]", sources: ["NPG:0486"], mark: "read",
    limits: [
      { kind: "twa", published: [120, "ppm"], also: [350, "mg/m3"], minutes: 600 },
      { kind: "ceiling", published: [610, "ppm"], also: [1800, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "lpg", asPublished: "TWA 1000 ppm (1800 mg/m3)", sources: ["NPG:0679"], mark: "read",
    limits: [
      { kind: "twa", published: [1000, "ppm"], also: [1800, "mg/m3"], minutes: 600 },
    ],
  },
  {
    gas: "gasoline", asPublished: "Ca See Appendix A", sources: ["NPG:0299"], mark: "read",
    carcinogen: true,
    limits: [],
  },
  {
    gas: "hydrogen", asPublished: "no entry", sources: ["NPG"], mark: "read",
    limits: [],
  },
  {
    gas: "methane", asPublished: "no entry", sources: ["NPG"], mark: "read",
    limits: [],
  },
  {
    gas: "oxygen", asPublished: "no entry", sources: ["NPG"], mark: "read",
    limits: [],
  },
  {
    gas: "diborane", asPublished: "TWA 0.1 ppm (0.1 mg/m3)", sources: ["NPG:0183"], mark: "read",
    limits: [
      { kind: "twa", published: [0.1, "ppm"], also: [0.1, "mg/m3"], minutes: 600 },
    ],
  },
  {
    gas: "hydrogen_bromide", asPublished: "C 3 ppm (10 mg/m3)", sources: ["NPG:0331"], mark: "read",
    limits: [
      { kind: "ceiling", published: [3, "ppm"], also: [10, "mg/m3"], minutes: null },
    ],
  },
  {
    gas: "hydrogen_selenide", asPublished: "TWA 0.05 ppm (0.2 mg/m3)", sources: ["NPG:0336"], mark: "read",
    limits: [
      { kind: "twa", published: [0.05, "ppm"], also: [0.2, "mg/m3"], minutes: 600 },
    ],
  },
  {
    gas: "germane", asPublished: "TWA 0.2 ppm (0.6 mg/m3)", sources: ["NPG:0300"], mark: "read",
    limits: [
      { kind: "twa", published: [0.2, "ppm"], also: [0.6, "mg/m3"], minutes: 600 },
    ],
  },
  {
    gas: "hydrogen_peroxide", asPublished: "TWA 1 ppm (1.4 mg/m3)", sources: ["NPG:0335"], mark: "read",
    limits: [
      { kind: "twa", published: [1, "ppm"], also: [1.4, "mg/m3"], minutes: 600 },
    ],
  },
  {
    gas: "hydrazine", asPublished: "Ca C 0.03 ppm (0.04 mg/m3) [2-hour] See Appendix A", sources: ["NPG:0329"], mark: "read",
    carcinogen: true,
    limits: [
      { kind: "ceiling", published: [0.03, "ppm"], also: [0.04, "mg/m3"], minutes: 120 },
    ],
  },
  {
    gas: "acrolein", asPublished: "TWA 0.1 ppm (0.25 mg/m3) ST 0.3 ppm (0.8 mg/m3) See Appendix C (Aldehydes)", sources: ["NPG:0011"], mark: "read",
    limits: [
      { kind: "twa", published: [0.1, "ppm"], also: [0.25, "mg/m3"], minutes: 600 },
      { kind: "stel", published: [0.3, "ppm"], also: [0.8, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "ethyl_mercaptan", asPublished: "C 0.5 ppm (1.3 mg/m3) [15-minute]", sources: ["NPG:0280"], mark: "read",
    limits: [
      { kind: "ceiling", published: [0.5, "ppm"], also: [1.3, "mg/m3"], minutes: 15 },
    ],
  },
  {
    gas: "nitrous_oxide", asPublished: "TWA 25 ppm (46 mg/m3) (TWA over the time exposed) [*Note: REL for exposure to waste anesthetic gas.]", sources: ["NPG:0465"], mark: "read",
    limits: [
      { kind: "twa", published: [25, "ppm"], also: [46, "mg/m3"], minutes: 600, textNeedsPerson: "The text averages over the time exposed to waste anaesthetic gas, not over the shift: a person decides which time that is." },
    ],
  },
  {
    gas: "propylene_oxide", asPublished: "Ca See Appendix A", sources: ["NPG:0538"], mark: "read",
    carcinogen: true,
    limits: [],
  },
  {
    gas: "methylene_chloride", asPublished: "Ca See Appendix A", sources: ["NPG:0414"], mark: "read",
    carcinogen: true,
    limits: [],
  },
  {
    gas: "acetylene", asPublished: "C 2500 ppm (2662 mg/m3)", sources: ["NPG:0008"], mark: "read",
    limits: [
      { kind: "ceiling", published: [2500, "ppm"], also: [2662, "mg/m3"], minutes: null },
    ],
  },
];
