import type { LimitEntry } from "../limit-entry.ts";

/** Concentrations that NIOSH calls immediately dangerous to life or health, from the Pocket Guide. Every reading at or above one is an event. */
export const IMMEDIATELY_DANGEROUS: readonly LimitEntry[] = [
  {
    gas: "carbon_monoxide", asPublished: "1200 ppm", sources: ["NPG:0105"], mark: "read",
    limits: [
      { kind: "immediately-dangerous", published: [1200, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "hydrogen_sulphide", asPublished: "100 ppm", sources: ["NPG:0337"], mark: "read",
    limits: [
      { kind: "immediately-dangerous", published: [100, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "sulphur_dioxide", asPublished: "100 ppm", sources: ["NPG:0575"], mark: "read",
    limits: [
      { kind: "immediately-dangerous", published: [100, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "nitric_oxide", asPublished: "100 ppm", sources: ["NPG:0448"], mark: "read",
    limits: [
      { kind: "immediately-dangerous", published: [100, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "nitrogen_dioxide", asPublished: "20 ppm", sources: ["NPG:0454"], mark: "read",
    limits: [
      { kind: "immediately-dangerous", published: [20, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "ammonia", asPublished: "300 ppm", sources: ["NPG:0028"], mark: "read",
    limits: [
      { kind: "immediately-dangerous", published: [300, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "chlorine", asPublished: "10 ppm", sources: ["NPG:0115"], mark: "read",
    limits: [
      { kind: "immediately-dangerous", published: [10, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "chlorine_dioxide", asPublished: "5 ppm", sources: ["NPG:0116"], mark: "read",
    limits: [
      { kind: "immediately-dangerous", published: [5, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "hydrogen_cyanide", asPublished: "50 ppm", sources: ["NPG:0333"], mark: "read",
    limits: [
      { kind: "immediately-dangerous", published: [50, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "hydrogen_chloride", asPublished: "50 ppm", sources: ["NPG:0332"], mark: "read",
    limits: [
      { kind: "immediately-dangerous", published: [50, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "hydrogen_fluoride", asPublished: "30 ppm", sources: ["NPG:0334"], mark: "read",
    limits: [
      { kind: "immediately-dangerous", published: [30, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "phosphine", asPublished: "50 ppm", sources: ["NPG:0505"], mark: "read",
    limits: [
      { kind: "immediately-dangerous", published: [50, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "arsine", asPublished: "Ca [3 ppm]", sources: ["NPG:0040"], mark: "read",
    carcinogen: true,
    limits: [
      { kind: "immediately-dangerous", published: [3, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "silane", asPublished: "N.D.", sources: ["NPG:0556"], mark: "read",
    limits: [],
  },
  {
    gas: "ozone", asPublished: "5 ppm", sources: ["NPG:0476"], mark: "read",
    limits: [
      { kind: "immediately-dangerous", published: [5, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "phosgene", asPublished: "2 ppm", sources: ["NPG:0504"], mark: "read",
    limits: [
      { kind: "immediately-dangerous", published: [2, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "carbon_dioxide", asPublished: "40,000 ppm", sources: ["NPG:0103"], mark: "read",
    limits: [
      { kind: "immediately-dangerous", published: [40000, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "ethylene_oxide", asPublished: "Ca [800 ppm]", sources: ["NPG:0275"], mark: "read",
    carcinogen: true,
    limits: [
      { kind: "immediately-dangerous", published: [800, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "methyl_mercaptan", asPublished: "150 ppm", sources: ["NPG:0425"], mark: "read",
    limits: [
      { kind: "immediately-dangerous", published: [150, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "carbon_disulphide", asPublished: "500 ppm", sources: ["NPG:0104"], mark: "read",
    limits: [
      { kind: "immediately-dangerous", published: [500, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "carbonyl_sulphide", asPublished: "no entry", sources: ["NPG"], mark: "read",
    limits: [],
  },
  {
    gas: "formaldehyde", asPublished: "Ca [20 ppm]", sources: ["NPG:0293"], mark: "read",
    carcinogen: true,
    limits: [
      { kind: "immediately-dangerous", published: [20, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "benzene", asPublished: "Ca [500 ppm]", sources: ["NPG:0049"], mark: "read",
    carcinogen: true,
    limits: [
      { kind: "immediately-dangerous", published: [500, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "toluene", asPublished: "500 ppm", sources: ["NPG:0619"], mark: "read",
    limits: [
      { kind: "immediately-dangerous", published: [500, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "xylenes", asPublished: "900 ppm", sources: ["NPG:0669"], mark: "read",
    limits: [
      { kind: "immediately-dangerous", published: [900, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "ethylbenzene", asPublished: "800 ppm [10%LEL]", sources: ["NPG:0264"], mark: "read",
    notes: ["Set at 10 % of the lower explosive limit: it rests on explosion, not on toxicity."],
    limits: [
      { kind: "immediately-dangerous", published: [800, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "styrene", asPublished: "700 ppm", sources: ["NPG:0571"], mark: "read",
    limits: [
      { kind: "immediately-dangerous", published: [700, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "n_hexane", asPublished: "1100 ppm [10%LEL]", sources: ["NPG:0322"], mark: "read",
    notes: ["Set at 10 % of the lower explosive limit: it rests on explosion, not on toxicity."],
    limits: [
      { kind: "immediately-dangerous", published: [1100, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "n_heptane", asPublished: "750 ppm", sources: ["NPG:0312"], mark: "read",
    limits: [
      { kind: "immediately-dangerous", published: [750, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "octane", asPublished: "1000 ppm [10%LEL]", sources: ["NPG:0470"], mark: "read",
    notes: ["Set at 10 % of the lower explosive limit: it rests on explosion, not on toxicity."],
    limits: [
      { kind: "immediately-dangerous", published: [1000, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "cyclohexane", asPublished: "1300 ppm [10%LEL]", sources: ["NPG:0163"], mark: "read",
    notes: ["Set at 10 % of the lower explosive limit: it rests on explosion, not on toxicity."],
    limits: [
      { kind: "immediately-dangerous", published: [1300, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "acetone", asPublished: "2500 ppm [10%LEL]", sources: ["NPG:0004"], mark: "read",
    notes: ["Set at 10 % of the lower explosive limit: it rests on explosion, not on toxicity."],
    limits: [
      { kind: "immediately-dangerous", published: [2500, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "mek", asPublished: "3000 ppm", sources: ["NPG:0069"], mark: "read",
    limits: [
      { kind: "immediately-dangerous", published: [3000, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "methanol", asPublished: "6000 ppm", sources: ["NPG:0397"], mark: "read",
    limits: [
      { kind: "immediately-dangerous", published: [6000, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "ethanol", asPublished: "3300 ppm [10%LEL]", sources: ["NPG:0262"], mark: "read",
    notes: ["Set at 10 % of the lower explosive limit: it rests on explosion, not on toxicity."],
    limits: [
      { kind: "immediately-dangerous", published: [3300, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "isopropanol", asPublished: "2000 ppm [10%LEL]", sources: ["NPG:0359"], mark: "read",
    notes: ["Set at 10 % of the lower explosive limit: it rests on explosion, not on toxicity."],
    limits: [
      { kind: "immediately-dangerous", published: [2000, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "ethyl_acetate", asPublished: "2000 ppm [10%LEL]", sources: ["NPG:0260"], mark: "read",
    notes: ["Set at 10 % of the lower explosive limit: it rests on explosion, not on toxicity."],
    limits: [
      { kind: "immediately-dangerous", published: [2000, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "vinyl_chloride", asPublished: "Ca [N.D.]", sources: ["NPG:0658"], mark: "read",
    carcinogen: true,
    limits: [],
  },
  {
    gas: "butadiene", asPublished: "Ca [2000 ppm] [10%LEL]", sources: ["NPG:0067"], mark: "read",
    carcinogen: true,
    notes: ["Set at 10 % of the lower explosive limit: it rests on explosion, not on toxicity."],
    limits: [
      { kind: "immediately-dangerous", published: [2000, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "trichloroethylene", asPublished: "Ca [1000 ppm]", sources: ["NPG:0629"], mark: "read",
    carcinogen: true,
    limits: [
      { kind: "immediately-dangerous", published: [1000, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "isobutylene", asPublished: "no entry", sources: ["NPG"], mark: "read",
    limits: [],
  },
  {
    gas: "propane", asPublished: "2100 ppm [10%LEL]", sources: ["NPG:0524"], mark: "read",
    notes: ["Set at 10 % of the lower explosive limit: it rests on explosion, not on toxicity."],
    limits: [
      { kind: "immediately-dangerous", published: [2100, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "n_butane", asPublished: "N.D.", sources: ["NPG:0068"], mark: "read",
    limits: [],
  },
  {
    gas: "isobutane", asPublished: "N.D.", sources: ["NPG:0350"], mark: "read",
    limits: [],
  },
  {
    gas: "n_pentane", asPublished: "1500 ppm [10%LEL]", sources: ["NPG:0486"], mark: "read",
    notes: ["Set at 10 % of the lower explosive limit: it rests on explosion, not on toxicity."],
    limits: [
      { kind: "immediately-dangerous", published: [1500, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "lpg", asPublished: "2000 ppm [10% LEL]", sources: ["NPG:0679"], mark: "read",
    notes: ["Set at 10 % of the lower explosive limit: it rests on explosion, not on toxicity."],
    limits: [
      { kind: "immediately-dangerous", published: [2000, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "gasoline", asPublished: "Ca [N.D.]", sources: ["NPG:0299"], mark: "read",
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
    gas: "diborane", asPublished: "15 ppm", sources: ["NPG:0183"], mark: "read",
    limits: [
      { kind: "immediately-dangerous", published: [15, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "hydrogen_bromide", asPublished: "30 ppm", sources: ["NPG:0331"], mark: "read",
    limits: [
      { kind: "immediately-dangerous", published: [30, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "hydrogen_selenide", asPublished: "1 ppm", sources: ["NPG:0336"], mark: "read",
    limits: [
      { kind: "immediately-dangerous", published: [1, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "germane", asPublished: "N.D.", sources: ["NPG:0300"], mark: "read",
    limits: [],
  },
  {
    gas: "hydrogen_peroxide", asPublished: "75 ppm", sources: ["NPG:0335"], mark: "read",
    limits: [
      { kind: "immediately-dangerous", published: [75, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "hydrazine", asPublished: "Ca [50 ppm]", sources: ["NPG:0329"], mark: "read",
    carcinogen: true,
    limits: [
      { kind: "immediately-dangerous", published: [50, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "acrolein", asPublished: "2 ppm", sources: ["NPG:0011"], mark: "read",
    limits: [
      { kind: "immediately-dangerous", published: [2, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "ethyl_mercaptan", asPublished: "500 ppm", sources: ["NPG:0280"], mark: "read",
    limits: [
      { kind: "immediately-dangerous", published: [500, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "nitrous_oxide", asPublished: "N.D.", sources: ["NPG:0465"], mark: "read",
    limits: [],
  },
  {
    gas: "propylene_oxide", asPublished: "Ca [400 ppm]", sources: ["NPG:0538"], mark: "read",
    carcinogen: true,
    limits: [
      { kind: "immediately-dangerous", published: [400, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "methylene_chloride", asPublished: "Ca [2300 ppm]", sources: ["NPG:0414"], mark: "read",
    carcinogen: true,
    limits: [
      { kind: "immediately-dangerous", published: [2300, "ppm"], minutes: null, operator: ">=" },
    ],
  },
  {
    gas: "acetylene", asPublished: "N.D.", sources: ["NPG:0008"], mark: "read",
    limits: [],
  },
];
