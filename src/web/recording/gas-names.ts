import { gasWords } from "../../report/index.ts";

/** Formulas that the trade says and writes instead of the name; any other gas stands under its name. */
const formulas: Readonly<Record<string, string>> = {
  hydrogen_sulphide: "H2S",
  carbon_monoxide: "CO",
  oxygen: "O2",
  carbon_dioxide: "CO2",
  methane: "CH4",
  sulphur_dioxide: "SO2",
  nitrogen_dioxide: "NO2",
  nitric_oxide: "NO",
  ammonia: "NH3",
  chlorine: "Cl2",
  hydrogen: "H2",
  ozone: "O3",
  phosphine: "PH3",
  hydrogen_cyanide: "HCN",
  nitrous_oxide: "N2O",
};

export const shortGas = (gas: string | null): string | null => (gas === null ? null : (formulas[gas] ?? gasWords(gas)));
