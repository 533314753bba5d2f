/** Words of headings. Common practice. All as `plainName` leaves them. */

/** Flammable gas without saying which. */
export const FLAMMABLE_WORDS: ReadonlySet<string> = new Set([
  "lel", "lfl", "ueg", "lie", "lii", "ex", "flammable", "flammables", "flammable gas", "flam", "combustible", "combustibles", "combustible gas", "comb", "explosive", "explosive gas", "explosible",
  "brennbar", "brennbare", "brennbare gase", "brennbares gas", "inflammable", "inflammables", "gaz inflammable", "gaz combustible", "explosimetre", "explosivite", "inflamable", "inflamables",
  "combustibili", "infiammabile", "infiammabili", "brandbaar", "brandbare gassen",
]);

/** Too short or too common to be certain without a unit beside them. */
export const DOUBTFUL_FLAMMABLE_WORDS: ReadonlySet<string> = new Set(["ex", "lie", "comb", "flam", "explosive", "lii"]);

/** Several substances in one figure: no limit of any one of them applies. */
export const SUM_WORDS: ReadonlySet<string> = new Set(["voc", "vocs", "tvoc", "cov", "covt", "pid", "nox", "sox", "hc", "cxhy", "thc", "btex", "tph", "total hydrocarbons", "hydrocarbons", "organic vapours", "organic vapors"]);

/** Everyday words that NIOSH lists as synonyms and that mean something else as often. */
export const EVERYDAY_WORDS: ReadonlySet<string> = new Set([
  "monoxide", "peroxide", "alcohol", "flue gas", "sewer gas", "dry ice", "motor fuel", "bottled gas", "ether", "essence", "vc", "carbinol", "diethyl", "divinyl", "diamine", "natural gasoline",
]);

/** A gas named beside one of these may be an average, an alarm or a state that the instrument computed, not a reading. */
export const COMPUTED_WORDS: ReadonlySet<string> = new Set([
  "twa", "stel", "sta", "alarm", "alarms", "alert", "status", "state", "fault", "flag", "limit", "threshold", "setpoint", "cal", "calibration", "bump", "span", "zero", "serial", "count", "dose", "type",
  "alarme", "etat", "zustand", "grenzwert", "agw", "mak", "kzw", "vle", "vme", "vla", "temp", "temperature", "range",
]);

/** Words that add nothing to a gas. */
export const PLAIN_WORDS: ReadonlySet<string> = new Set([
  "sensor", "channel", "ch", "kanal", "canal", "gas", "gaz", "reading", "readings", "value", "wert", "messwert", "valeur", "valor", "conc", "concentration", "konzentration", "level", "measured", "in", "content", "gehalt",
]);
