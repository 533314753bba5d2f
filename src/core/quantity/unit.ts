/**
 * The units that portable gas detectors log. A unit string alone never chooses a conversion, a limit or an
 * alarm: kind, gas and unit are three things (10 %LEL is not 10 vol %).
 */
export type Unit = "ppm" | "ppb" | "vol%" | "mol/mol" | "%LEL" | "mg/m3" | "ug/m3";

export type QuantityKind = "volume fraction" | "fraction of LEL" | "mass concentration";
