/** Refusals that a form says too, beside the field they are about: apart, so that a page needs no more of the catalogue. */
import { type CatalogueEntry, shortened } from "./catalogue.ts";
import { NARROW_SPACE } from "./digits.ts";
import type { DoorRefusal } from "./door-refusal.ts";
import { durationText, unitText } from "./figure.ts";

type ShiftTooLong = Extract<DoorRefusal, { readonly type: "shift-longer-than-a-day" }>;

export const SHIFT_FLAG = "The flag is --shift FROM/TO, once for each.";

export const SHIFT_LONGER_THAN_A_DAY: CatalogueEntry<ShiftTooLong> = {
  exit: 1,
  status: 422,
  says: ({ hours }) => `The shift is ${durationText(hours * 3600)} long, and one shift is 24${NARROW_SPACE}h at most.`,
  mend: () => "Name each shift by its own beginning and end.",
  flag: () => SHIFT_FLAG,
  example: { type: "shift-longer-than-a-day", hours: 48 },
};

type OneLevel = Extract<DoorRefusal, { readonly type: "one-level-for-several-units" }>;

/** Only a file shows that the flag cannot be meant so: it stands among the refusals of files, and is a wrong call. */
export const ONE_LEVEL_FOR_SEVERAL_UNITS: CatalogueEntry<OneLevel> = {
  exit: 2,
  status: 422,
  says: ({ text, channels }) =>
    `The level ${shortened(text)} for time without readings would be taken in the unit of each channel alike: ${channels.map(({ name, unit }) => `${shortened(name)} in ${unitText(unit)}`).join(", ")}.`,
  mend: () => "State it for each channel by itself, in the unit of that channel.",
  flag: () => "The flag is --declare FILE, one statement for each channel.",
  example: {
    type: "one-level-for-several-units",
    text: "120",
    channels: [
      { name: "CO", unit: "ppm" },
      { name: "CO2", unit: "vol%" },
    ],
  },
};

/** The two sentences of an entry, as a form says them. */
export const sentencesOf = <Shape>({ says, mend }: CatalogueEntry<Shape>, refusal: Shape): string => `${says(refusal)} ${mend(refusal)}`;
