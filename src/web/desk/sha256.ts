/**
 * SHA-256 that runs along as a file is walked: the browser's own takes whole buffers only, and a file may be larger
 * than memory. FIPS 180-4, section 6.2 (from memory); checked against Node's crypto in the tests.
 */
const rounds = Int32Array.from({ length: 64 }, (_, at) => fraction(Math.cbrt(prime(at))));
const start = Int32Array.from({ length: 8 }, (_, at) => fraction(Math.sqrt(prime(at))));

/** The first 32 bits of the fractional part, which is what the standard takes its constants from. */
function fraction(root: number): number {
  return Math.floor((root - Math.floor(root)) * 2 ** 32) | 0;
}

function prime(index: number): number {
  let found = -1;
  for (let number = 2; ; number++) {
    if (isPrime(number)) found++;
    if (found === index) return number;
  }
}

function isPrime(number: number): boolean {
  for (let divisor = 2; divisor * divisor <= number; divisor++) if (number % divisor === 0) return false;
  return true;
}

export class RunningSha256 {
  readonly #state = Int32Array.from(start);
  readonly #words = new Int32Array(64);
  readonly #block = new Uint8Array(64);
  #filled = 0;
  #bytes = 0;

  add(bytes: Uint8Array): void {
    this.#bytes += bytes.length;
    let at = 0;
    if (this.#filled > 0) {
      at = Math.min(64 - this.#filled, bytes.length);
      this.#block.set(bytes.subarray(0, at), this.#filled);
      this.#filled += at;
      if (this.#filled < 64) return;
      this.#compress(this.#block, 0);
      this.#filled = 0;
    }
    for (; at + 64 <= bytes.length; at += 64) this.#compress(bytes, at);
    this.#block.set(bytes.subarray(at));
    this.#filled = bytes.length - at;
  }

  hex(): string {
    const bits = BigInt(this.#bytes) * 8n;
    const pad = new Uint8Array((this.#filled < 56 ? 64 : 128) - this.#filled);
    pad[0] = 0x80;
    new DataView(pad.buffer).setBigUint64(pad.length - 8, bits);
    this.add(pad);
    return [...this.#state].map((word) => (word >>> 0).toString(16).padStart(8, "0")).join("");
  }

  #compress(bytes: Uint8Array, from: number): void {
    const words = this.#words;
    for (let i = 0; i < 16; i++) {
      const at = from + i * 4;
      // Four bytes of a block that is there.
      words[i] =
        ((bytes[at] as number) << 24) | ((bytes[at + 1] as number) << 16) | ((bytes[at + 2] as number) << 8) | (bytes[at + 3] as number);
    }
    for (let i = 16; i < 64; i++) {
      const a = words[i - 15] as number; // 16 words stand before
      const b = words[i - 2] as number; // as above
      const s0 = ((a >>> 7) | (a << 25)) ^ ((a >>> 18) | (a << 14)) ^ (a >>> 3);
      const s1 = ((b >>> 17) | (b << 15)) ^ ((b >>> 19) | (b << 13)) ^ (b >>> 10);
      words[i] = ((words[i - 16] as number) + s0 + (words[i - 7] as number) + s1) | 0;
    }
    this.#mix(words);
  }

  #mix(words: Int32Array): void {
    const state = this.#state;
    // Eight words of state, always there. Spelled out: an array a round costs four times the whole.
    let a = state[0] as number;
    let b = state[1] as number;
    let c = state[2] as number;
    let d = state[3] as number;
    let e = state[4] as number;
    let f = state[5] as number;
    let g = state[6] as number;
    let h = state[7] as number;
    for (let i = 0; i < 64; i++) {
      const s1 = ((e >>> 6) | (e << 26)) ^ ((e >>> 11) | (e << 21)) ^ ((e >>> 25) | (e << 7));
      const t1 = (h + s1 + ((e & f) ^ (~e & g)) + (rounds[i] as number) + (words[i] as number)) | 0;
      const s0 = ((a >>> 2) | (a << 30)) ^ ((a >>> 13) | (a << 19)) ^ ((a >>> 22) | (a << 10));
      const t2 = (s0 + ((a & b) ^ (a & c) ^ (b & c))) | 0;
      h = g;
      g = f;
      f = e;
      e = (d + t1) | 0;
      d = c;
      c = b;
      b = a;
      a = (t1 + t2) | 0;
    }
    state[0] = ((state[0] as number) + a) | 0;
    state[1] = ((state[1] as number) + b) | 0;
    state[2] = ((state[2] as number) + c) | 0;
    state[3] = ((state[3] as number) + d) | 0;
    state[4] = ((state[4] as number) + e) | 0;
    state[5] = ((state[5] as number) + f) | 0;
    state[6] = ((state[6] as number) + g) | 0;
    state[7] = ((state[7] as number) + h) | 0;
  }
}
