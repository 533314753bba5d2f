/** The words for units and gases that files are read with: those of the unit table and of the gas table. */
import { gasInLabel } from "../core/gas/index.ts";
import { unitFromText } from "../core/quantity/index.ts";
import type { Vocabulary } from "../core/table/vocabulary.ts";

export const vocabulary: Vocabulary = { unitFromText, gasInLabel };
