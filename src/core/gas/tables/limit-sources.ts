import type { LimitSource } from "../limit-entry.ts";

/**
 * Where the limits come from. An id with a colon in an entry (`NPG:0105`, `Z2:Z37.2-1966`, `CFR:1910.1028`) names a
 * record, a row's own standard or a section of the source before the colon.
 */
export const LIMIT_SOURCES: readonly LimitSource[] = [
  { id: "NPG", title: "NIOSH Pocket Guide to Chemical Hazards, DHHS (NIOSH) 2005-149", part: "record {part}", edition: "DHHS (NIOSH) 2005-149, pages of 2016-2018", reprint: "github.com/njbotkin/respirators-101 @d610e8b, chemical-data/chemicals.json", live: "https://www.cdc.gov/niosh/npg/npgd{record}.html" },
  { id: "Z1", title: "29 CFR 1910.1000 Table Z-1, as in OSHA's Annotated PELs page of April 2018", edition: "annotated table of April 2018", reprint: "github.com/njbotkin/respirators-101 @d610e8b, chemical-data/z1.html", live: "https://www.osha.gov/annotated-pels/table-z-1" },
  { id: "Z2", title: "29 CFR 1910.1000 Table Z-2, as in OSHA's Annotated PELs page of April 2018", part: "{part}", edition: "annotated table of April 2018", reprint: "github.com/njbotkin/respirators-101 @d610e8b, chemical-data/z2.html", live: "https://www.osha.gov/annotated-pels/table-z-2" },
  { id: "CFR", title: "29 CFR substance standard, limit as quoted in the NIOSH Pocket Guide", part: "29 CFR {part}", edition: "as quoted in the NIOSH Pocket Guide pages of 2016-2018" },
  { id: "CFR-146", title: "29 CFR 1910.146(b), definition of hazardous atmosphere", edition: "as reprinted", reprint: "paint-inspector.com" },
  { id: "PRE-146", title: "OSHA question-and-answer on 1910.146(c)(5), citing the preamble, 58 FR 4488 (1993)", edition: "58 FR 4488 (1993)", reprint: "experts123.com" },
  { id: "CFR-1915", title: "29 CFR 1915 Subpart B Appendix A (guidance)", edition: "as reprinted", reprint: "copy of the CFR text" },
  { id: "MSHA", title: "30 CFR 75.321(a)", edition: "as reprinted", reprint: "github.com/AlextheYounga/ecfr, section-75.321.md" },
  { id: "1910.1028", title: "29 CFR 1910.1028 (benzene), action level", edition: "as reprinted", reprint: "chempedia.info" },
  { id: "EH40", title: "HSE EH40/2005 Workplace exposure limits, 4th edition 2020, Table 1 (as of 2020)", edition: "4th edition 2020", live: "https://www.hse.gov.uk/pubns/books/eh40.htm" },
  { id: "EU-1", title: "Commission Directive 2000/39/EC (1st list)", edition: "2000/39/EC" },
  { id: "EU-2", title: "Commission Directive 2006/15/EC (2nd list)", edition: "2006/15/EC" },
  { id: "EU-3", title: "Commission Directive 2009/161/EU (3rd list)", edition: "2009/161/EU" },
  { id: "EU-4", title: "Commission Directive (EU) 2017/164 (4th list)", edition: "(EU) 2017/164" },
  { id: "EU-ALL", title: "EU lists 91/322/EEC, 2000/39/EC, 2006/15/EC, 2009/161/EU, 2017/164/EU and 2019/1831", edition: "lists up to (EU) 2019/1831" },
  { id: "CMRD", title: "Directive 2004/37/EC Annex III, binding limit values", part: "as amended by (EU) {part}", edition: "Annex III, consolidated", reprint: "reachlex.eu (consolidated text)" },
  { id: "FR", title: "France, Code du travail art. R4412-149, text of 1 Sept 2020 (binding national values)", edition: "text of 1 September 2020", reprint: "github.com/etalab/codes-juridiques-francais @2afcea3" },
  { id: "IEC", title: "IS/IEC 60079-20-1:2010", edition: "2010", reprint: "github.com/CalebBell/chemicals, chemicals/Safety" },
  { id: "NFPA497", title: "NFPA 497, 2008", edition: "2008", reprint: "github.com/CalebBell/chemicals, chemicals/Safety" },
  { id: "NIST", title: "NIST Chemistry WebBook", edition: "recalled" },
  { id: "CFR-recalled", title: "Code of Federal Regulations, title 29, from memory", part: "29 CFR {part}", edition: "from memory" },
];
