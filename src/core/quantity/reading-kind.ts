/**
 * What one logged number stands for. A spot reading holds until the next one, never past the largest gap; a mean
 * or a peak stands for the interval that it closes.
 */
export type ReadingKind = "spot" | "interval mean" | "interval peak";

/** Who said which kind it is: nobody (then it is taken as spot), the heading of the file, or a person. */
export type KindChooser = "default" | "file" | "person";
