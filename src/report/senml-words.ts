/** What a SenML pack was found to be, one sentence a mark. */
import type { SenmlMark } from "../core/recording/index.ts";

export function markSentence(mark: SenmlMark): string {
  switch (mark.type) {
    case "unit not registered":
      return `${mark.name}: the readings are in "${mark.unit}", which is not a unit of SenML; it was read as people write it.`;
    case "unit needs version 26":
      return `${mark.name}: the readings are in "${mark.unit}", which a pack may use only if it names version 26 of SenML. This one does not; they were read in that unit all the same.`;
    case "ratio above one":
      return `${mark.name}: a ratio above 1 under "${mark.unit}". If per cent was meant, the pack is wrong.`;
    case "left out":
      return `${mark.name}: left out, because ${mark.unit === null ? "it has no unit" : `"${mark.unit}" is the unit of no gas reading`}.`;
    case "flag not known":
      return `${mark.name}: the flag "${mark.text}" is not known; its reading is taken as a fault.`;
    case "times count from the first record":
      return "The times are relative: they count from the first record.";
  }
}
