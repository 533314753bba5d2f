/** Where a text stops being JSON. Engines word and count this each in their own way, or say nothing of the place. */

export interface TextPlace {
  /** Both counted from 1; characters are UTF-16 units of the line. */
  readonly line: number;
  readonly character: number;
}

/**
 * The place of the first character that JSON does not allow; the end of the text where it breaks off; null where the
 * text is JSON.
 *
 * @param text any text.
 * @example
 * ```ts
 * import { jsonFault } from "./json-fault.ts";
 * jsonFault('[{"n":"co",\n "v": 1.}]'); // => { line: 2, character: 9 }
 * jsonFault('[{"n":"co"'); // => { line: 1, character: 11 }
 * jsonFault("[1, 2]"); // => null
 * ```
 * Source: RFC 8259 sections 2 to 7.
 */
export function jsonFault(text: string): TextPlace | null {
  const scan = new JsonScan(text);
  return scan.isWhole() ? null : placeOf(text, scan.at);
}

function placeOf(text: string, at: number): TextPlace {
  const before = text.slice(0, at);
  const lineStart = before.lastIndexOf("\n") + 1;
  return { line: before.split("\n").length, character: at - lineStart + 1 };
}

const NUMBER_PARTS = [/-?(?:0|[1-9]\d*)/y, /(?:\.\d+)?/y, /(?:[eE][+-]?\d+)?/y] as const;
const WORDS = ["true", "false", "null"];

/** Goes through the text once, without a call for each level of nesting: a deep text must not overflow the stack. */
class JsonScan {
  at = 0;
  private readonly text: string;
  /** What is open: the bracket that will close it. */
  private readonly open: string[] = [];

  constructor(text: string) {
    this.text = text;
  }

  /** False: `at` is the place of the fault. */
  isWhole(): boolean {
    do if (!this.value() || !this.afterValue()) return false;
    while (this.open.length > 0);
    this.space();
    return this.at === this.text.length;
  }

  /** A scalar, or the beginning of an array or object up to its first value. An empty one is a value. */
  private value(): boolean {
    for (;;) {
      this.space();
      const letter = this.text[this.at];
      if (letter !== "[" && letter !== "{") return letter === '"' ? this.string() : this.word() || this.number();
      this.at++;
      this.space();
      const close = letter === "[" ? "]" : "}";
      if (this.take(close)) return true;
      this.open.push(close);
      if (close === "}" && !this.name()) return false;
    }
  }

  /** Closes what ends here, and goes on to the next value where a comma says so. */
  private afterValue(): boolean {
    for (let close = this.open.at(-1); close !== undefined; close = this.open.at(-1)) {
      this.space();
      if (this.take(",")) return close === "]" || this.name();
      if (!this.take(close)) return false;
      this.open.pop();
    }
    return true;
  }

  private name(): boolean {
    this.space();
    if (!this.string()) return false;
    this.space();
    return this.take(":");
  }

  private string(): boolean {
    if (!this.take('"')) return false;
    for (; this.at < this.text.length; this.at++) {
      const letter = this.text[this.at] as string; // at is below the length
      if (letter === '"') return this.take('"');
      if (letter < " ") return false;
      if (letter === "\\" && !this.escape()) return false;
    }
    return false;
  }

  /** Stops on the last character of the escape. */
  private escape(): boolean {
    this.at++;
    const letter = this.text[this.at] ?? "";
    if (letter !== "u") return letter !== "" && '"\\/bfnrt'.includes(letter);
    for (let digit = 0; digit < 4; digit++) {
      this.at++;
      if (!/[0-9a-fA-F]/.test(this.text[this.at] ?? "")) return false;
    }
    return true;
  }

  private word(): boolean {
    const word = WORDS.find((one) => this.text.startsWith(one, this.at));
    this.at += word?.length ?? 0;
    return word !== undefined;
  }

  /** A point or an exponent without digits is the fault, not the number before it. */
  private number(): boolean {
    const start = this.at;
    for (const part of NUMBER_PARTS) {
      part.lastIndex = this.at;
      this.at += part.exec(this.text)?.[0].length ?? 0;
      if (this.at === start) return false;
    }
    if (!/[.eE]/.test(this.text[this.at] ?? "")) return true;
    this.at++;
    return false;
  }

  private take(letter: string): boolean {
    if (this.text[this.at] !== letter) return false;
    this.at++;
    return true;
  }

  private space(): void {
    while (/[ \t\n\r]/.test(this.text[this.at] ?? "")) this.at++;
  }
}
