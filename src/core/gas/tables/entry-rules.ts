import type { Mark } from "../limit.ts";

/** What a text says about air before and during entry. Readings are compared as they stand, never averaged. */
export interface EntryRule {
  readonly rule: string;
  readonly gas: string;
  readonly low: { readonly volumePercent: number; readonly breach: "<" } | null;
  readonly high: { readonly volumePercent: number; readonly breach: ">" } | null;
  readonly percentOfLel: { readonly percent: number; readonly breach: ">" } | null;
  readonly asPublished: string;
  readonly source: string;
  readonly mark: Mark;
}

export const ENTRY_RULES: readonly EntryRule[] = [
  {
    rule: "OSHA 29 CFR 1910.146(b), hazardous atmosphere", gas: "oxygen",
    low: { volumePercent: 19.5, breach: "<" }, high: { volumePercent: 23.5, breach: ">" }, percentOfLel: null,
    asPublished: "hazardous when below 19.5 or above 23.5", source: "29 CFR 1910.146(b), reprint: paint-inspector.com", mark: "read",
  },
  {
    rule: "MSHA 30 CFR 75.321(a)", gas: "oxygen", low: { volumePercent: 19.5, breach: "<" }, high: null, percentOfLel: null,
    asPublished: "at least 19.5 percent", source: "30 CFR 75.321(a), reprint: github.com/AlextheYounga/ecfr", mark: "read",
  },
  {
    rule: "OSHA 29 CFR 1915 Subpart B Appendix A (guidance)", gas: "oxygen",
    low: { volumePercent: 19.5, breach: "<" }, high: { volumePercent: 22, breach: ">" }, percentOfLel: null,
    asPublished: "normal 20.8; hot work not above 22", source: "29 CFR 1915 Subpart B Appendix A", mark: "read",
  },
  {
    rule: "MSHA 30 CFR 75.321(a)", gas: "carbon_dioxide", low: null, high: { volumePercent: 0.5, breach: ">" }, percentOfLel: null,
    asPublished: "not more than 0.5 percent CO2 where persons work; bleeder entries 0.5 percent TWA and 3.0 percent STEL",
    source: "30 CFR 75.321(a), reprint: github.com/AlextheYounga/ecfr", mark: "read",
  },
  {
    rule: "OSHA 29 CFR 1910.146(b), hazardous atmosphere", gas: "flammable, gas not said", low: null, high: null, percentOfLel: { percent: 10, breach: ">" },
    asPublished: "flammable gas hazardous above 10 % of its lower flammable limit", source: "29 CFR 1910.146(b), reprint: paint-inspector.com", mark: "read",
  },
];
