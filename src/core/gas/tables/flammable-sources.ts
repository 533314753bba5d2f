import type { FlammableSource } from "../flammable.ts";

/** Where the figures of flammables.ts come from, and how far each may be trusted. */
export const FLAMMABLE_SOURCES: readonly FlammableSource[] = [
  { id: "IEC", mark: "read", title: "IEC 60079-20-1:2010, table of characteristic values, through its Indian adoption IS/IEC 60079-20-1 (annex letter not checked)", reprint: "github.com/CalebBell/chemicals @82faef9, chemicals/Safety/IS IEC 60079-20-1 2010.tsv" },
  { id: "NFPA", mark: "read", title: "NFPA 497 (2008), table of material properties", reprint: "github.com/CalebBell/chemicals @82faef9, chemicals/Safety/NFPA 497 2008.tsv" },
  { id: "NPG", mark: "read", title: "NIOSH Pocket Guide to Chemical Hazards, DHHS (NIOSH) 2005-149, online pages as of 2016-2018; `record` is the page number; flash points converted from whole degrees Fahrenheit", reprint: "github.com/njbotkin/respirators-101 @d610e8b, chemical-data/chemicals.json", live: "https://www.cdc.gov/niosh/npg/npgd{record}.html" },
  { id: "BM627", mark: "read", title: "US Bureau of Mines Bulletin 627 (Zabetakis 1965); value as quoted in a public university course repository, the bulletin itself not read" },
  { id: "BM627m", mark: "memory", title: "US Bureau of Mines Bulletin 627 (Zabetakis 1965), appendix A summary table, recalled; do not show as if read" },
  { id: "IE", mark: "memory", title: "NIST Chemistry WebBook, evaluated ionisation energies, recalled" },
  { id: "HC", mark: "computed", title: "net (lower) heat of combustion at 298.15 K from the gas-phase heat of formation Hf; products CO2, H2O gas, SO2, N2, HCl" },
  { id: "HCG", mark: "computed", title: "gross heat of combustion at 298.15 K; as HC with liquid water" },
  { id: "HF-ATCT", mark: "read", title: "Active Thermochemical Tables, gas heat of formation", reprint: "chemicals library 1.5.2, github.com/CalebBell/chemicals @82faef9" },
  { id: "HF-CRC", mark: "read", title: "CRC Handbook of Chemistry and Physics, gas heat of formation", reprint: "chemicals library 1.5.2, github.com/CalebBell/chemicals @82faef9" },
  { id: "HF-NIST", mark: "read", title: "NIST Chemistry WebBook, gas heat of formation", reprint: "chemicals library 1.5.2, github.com/CalebBell/chemicals @82faef9" },
  { id: "HF-API", mark: "read", title: "API Technical Data Book, gas heat of formation", reprint: "chemicals library 1.5.2, github.com/CalebBell/chemicals @82faef9" },
  { id: "MW", mark: "computed", title: "molar mass from the formula (chemicals library 1.5.2 atomic weights)" },
  { id: "RVD", mark: "computed", title: "molar mass / 28.96" },
  { id: "ST", mark: "computed", title: "stoichiometry of complete burning" },
  { id: "FSG", mark: "computed", title: "Fuller-Schettler-Giddings diffusion in air at 298.15 K and 101325 Pa (Ind. Eng. Chem. 58(5), 1966, 18-27; volumes as in Poling, Prausnitz and O'Connell, 5th ed., table 11-1)" },
  { id: "CASm", mark: "memory", title: "CAS number recalled" },
];

/** Cautions that come with the figures. */
export const FLAMMABLE_NOTES: readonly string[] = [
  "Limits that differ by more than a quarter between IEC, NFPA and NPG (vol%): n-Butane 1.4-1.9; Isobutane 1.3-1.8; n-Pentane 1.1-1.5; Cyclohexane 1.0-1.3; 1,3-Butadiene 1.4-2.0; n-Butyl acetate 1.2-1.7; Dimethyl ether 2.7-3.4; Tetrahydrofuran 1.5-2.0; 1,4-Dioxane 1.4-2.0; Carbon disulfide 0.6-1.3.",
  "Ionisation energies that differ by 0.1 eV or more between the two figures: Propane 10.94-11.07; n-Butane 10.53-10.63; n-Nonane 9.71-10.21; Methylcyclohexane 9.64-9.85; Propylene oxide 9.81-10.22; Ammonia 10.07-10.18. n-butane lies on both sides of 10.6 eV, n-nonane and propylene oxide on both sides of 10.2 eV (1-propanol too, by a smaller gap).",
  "Some limits were measured hot: methyl ethyl ketone and methyl isobutyl ketone at 93 C, cyclohexanone at 100 C (NPG); the NFPA lower limits for methyl ethyl ketone and cyclohexanone are the same figures. Lower limits fall as temperature rises, so the room-temperature limit is higher.",
  "IEC carbon monoxide is for air saturated with water at 18 C (section 5.2.3); IEC methane refers to section 5.2.4.",
  "Some IEC upper limits are for raised temperature (footnotes of the standard; memory); the data file does not carry the footnotes.",
  "Left out as wrong in the data files: IEC sec-amyl acetate lower limit 11 % (above its upper limit; 1.1 % in NFPA); IEC 1-octanol lower limit -0.9 %; NFPA valeraldehyde flash point 280 C; NFPA hydrazine autoignition 23 C; NFPA rows for mesityl oxide and methyl isobutyl ketone whose CAS numbers are shifted, so methyl isobutyl ketone carries no NFPA value.",
  "n-nonane upper limit: 2.9 % (NFPA, NPG) against 5.6 % (IEC), both as tabulated.",
  "Methyl tert-butyl ether flash point: -27 C (IEC) against -80 C (NFPA), as tabulated.",
  "Kerosene is a class of liquids: flash point 38 C (IEC), 72 C (NFPA), 38 to 72 C (NPG).",
  "NPG gives n-butane a lower limit of 1.6 % on its own page and 1.9 % on the liquefied petroleum gas page.",
  "Liquefied petroleum gas carries only an autoignition temperature in NFPA 497.",
];
