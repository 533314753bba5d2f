/** Memory that two threads share for SHA-256: a ring of slots, and how many were laid into it and hashed out of it. */

/** Places of the control words. A file of 2^30 slots would be a million gigabytes, so the top bit of the count is free. */
export const PLACES = { laid: 0, hashed: 1, lengths: 2, ended: 1 << 30 } as const;

export interface Ring {
  readonly slots: SharedArrayBuffer;
  readonly control: SharedArrayBuffer;
  readonly slotBytes: number;
  readonly places: typeof PLACES;
}

export const SLOT_BYTES = 1 << 20;
export const SLOTS = 16;

export const newRing = (): Ring => ({
  slots: new SharedArrayBuffer(SLOTS * SLOT_BYTES),
  control: new SharedArrayBuffer((PLACES.lengths + SLOTS) * Int32Array.BYTES_PER_ELEMENT),
  slotBytes: SLOT_BYTES,
  places: PLACES,
});
