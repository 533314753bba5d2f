import type { READING } from "../recording/channel.ts";

/** The codes of `core/recording/channel`, which stands above this room; the type holds both equal. */
export const CODE: typeof READING = { valid: 0, overRange: 1, underRange: 2, none: 3, fault: 4, overRangeUnbounded: 5 };
