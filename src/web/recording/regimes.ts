/** The regimes of the limits table, in the order in which they stand side by side. */
export const regimes = ["US-OSHA", "US-NIOSH", "GB-WEL", "EU-IOELV", "FR"] as const;

export const regimeWords: Readonly<Record<string, string>> = {
  "US-OSHA": "United States, OSHA permissible exposure limits",
  "US-NIOSH": "United States, NIOSH recommended exposure limits",
  "GB-WEL": "Great Britain, workplace exposure limits",
  "EU-IOELV": "European Union, indicative and binding limit values",
  FR: "France, limit values",
};
