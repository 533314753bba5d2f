/** Memory that two threads share for SHA-256: a ring of slots, and how many were laid into it and hashed out of it. */

export interface Ring {
  readonly slots: SharedArrayBuffer;
  readonly control: SharedArrayBuffer;
}

export const SLOT_BYTES = 1 << 20;
export const SLOTS = 16;

/** Places of the control words. A file of 2^30 slots would be a million gigabytes, so the top bit of the count is free. */
export const LAID = 0;
export const HASHED = 1;
export const LENGTHS = 2;
export const ENDED = 1 << 30;

export const newRing = (): Ring => ({
  slots: new SharedArrayBuffer(SLOTS * SLOT_BYTES),
  control: new SharedArrayBuffer((LENGTHS + SLOTS) * Int32Array.BYTES_PER_ELEMENT),
});
