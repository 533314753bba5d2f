/** The head of a file is kept back until it is known what it is; then the walk begins with it. */
import { assert, given, type Result, refused } from "../result.ts";
import {
  countHighBytes,
  type EncodingSeen,
  encodingOf,
  type HighBytes,
  isOtherEncoding,
  looksWestern,
  noHighBytes,
  type Transcoder,
  transcoderFor,
} from "./encoding.ts";
import type { Encoding } from "./mapping.ts";
import { notATable } from "./not-a-table.ts";
import type { TableRefusal } from "./question.ts";
import type { TableEnvironment } from "./reading.ts";
import { textFromUtf8 } from "./utf8.ts";
import type { Walk } from "./walk.ts";

/** So much of the file is looked at before the first row is taken. */
const HEAD = 1 << 16;
/** Keeps the head back, then starts a walk on it. */
export abstract class HeadFirst {
  protected readonly environment: TableEnvironment;
  protected walk: Walk | null = null;
  protected transcoder: Transcoder | null = null;
  protected bytes = 0;
  private head = new Uint8Array(0);
  private refusal: TableRefusal | null = null;

  constructor(environment: TableEnvironment) {
    this.environment = environment;
  }

  push(bytes: Uint8Array): Result<true, TableRefusal> {
    if (this.refusal !== null) return refused(this.refusal);
    this.bytes += bytes.length;
    if (this.walk !== null) return this.pass(bytes);
    const wanted = Math.min(bytes.length, HEAD - this.head.length);
    const head = new Uint8Array(this.head.length + wanted);
    head.set(this.head);
    head.set(bytes.subarray(0, wanted), this.head.length);
    this.head = head;
    if (head.length < HEAD) return given(true);
    const begun = this.beginWith(false);
    return begun.ok && wanted < bytes.length ? this.pass(bytes.subarray(wanted)) : begun;
  }

  protected end(): Result<Walk, TableRefusal> {
    if (this.refusal === null && this.walk === null) this.beginWith(true);
    if (this.refusal !== null) return refused(this.refusal);
    assert(this.walk !== null && this.transcoder !== null, "a head that is not refused starts a walk");
    const rest = this.transcoder.finish();
    if (rest === null) return this.refuse({ type: "encoding-not-readable", encoding: this.encodingName });
    this.walk.push(rest);
    return given(this.walk);
  }

  protected encodingName = "utf-8";

  protected refuse(refusal: TableRefusal): { readonly ok: false; readonly refusal: TableRefusal } {
    this.refusal = refusal;
    return refused(refusal);
  }

  /** Makes the walk from the head; what is wrong with the head otherwise. */
  protected abstract start(head: Uint8Array, isWhole: boolean): TableRefusal | null;

  private beginWith(isWhole: boolean): Result<true, TableRefusal> {
    const { head } = this;
    this.head = new Uint8Array(0);
    if (isWhole && isBlank(head)) return this.refuse({ type: "empty-file" });
    const refusal = this.start(head, isWhole);
    if (refusal !== null) return this.refuse(refusal);
    return given(true);
  }

  protected pass(bytes: Uint8Array): Result<true, TableRefusal> {
    assert(this.walk !== null && this.transcoder !== null, "bytes are passed on after the head");
    const utf8 = this.transcoder.push(bytes);
    if (utf8 === null) return this.refuse({ type: "encoding-not-readable", encoding: this.encodingName });
    this.walk.push(utf8);
    return this.walk.refusal === null ? given(true) : this.refuse(this.walk.refusal);
  }
}

/** A mark of the encoding, spaces and line ends are nothing to read. */
function isBlank(head: Uint8Array): boolean {
  return head.subarray(encodingOf(head).markLength).every((byte) => byte === 32 || (byte >= 9 && byte <= 13));
}

export interface Opened {
  readonly encoding: EncodingSeen;
  readonly highBytes: HighBytes;
  readonly transcoder: Transcoder;
  /** The head as UTF-8, for a look; the walk gets the bytes again through a transcoder of its own. */
  readonly utf8: Uint8Array;
}

/** Encoding of a head, as told or as seen. */
export function openHead(head: Uint8Array, told: string | null, environment: TableEnvironment): Result<Opened, TableRefusal> {
  const seen = encodingOf(head);
  const highBytes = noHighBytes();
  let encoding: EncodingSeen = seen;
  if (told !== null) {
    const named = told.toLowerCase() as Encoding; // a name is all that an encoding is
    encoding = { encoding: named, markLength: named === seen.encoding ? seen.markLength : 0, sureness: seen.sureness, reason: "answered" };
  } else if (seen.encoding === "utf-8") {
    const looked = noHighBytes();
    countHighBytes(looked, head, seen.markLength, endOfWholeLetters(head), 1);
    if (isOtherEncoding(looked))
      encoding = {
        encoding: "windows-1252" as Encoding,
        markLength: 0,
        sureness: looksWestern(looked) ? "strong" : "weak",
        reason: "bytes that are not UTF-8",
      };
  }
  const isWide = encoding.encoding.startsWith("utf-16");
  const bare = isWide ? null : notATable(head);
  if (bare !== null) return refused(bare);
  const utf8 = transcoderFor(encoding.encoding, environment.decodeText).push(head.subarray(encoding.markLength));
  if (utf8 === null) return refused({ type: "encoding-not-readable", encoding: encoding.encoding });
  const foreign = isWide ? notATable(utf8) : null;
  if (foreign !== null) return refused(foreign);
  if (encoding.sureness !== "certain") Object.assign(highBytes, firstSample(utf8));
  return given({ encoding, highBytes, transcoder: transcoderFor(encoding.encoding, environment.decodeText), utf8 });
}

/** The first line with a letter outside ASCII, by which a person can tell whether the encoding is right; else the first line. */
function firstSample(utf8: Uint8Array): Pick<HighBytes, "firstLine" | "firstText"> {
  const high = Math.max(
    0,
    utf8.findIndex((byte) => byte >= 0x80),
  );
  const from = utf8.subarray(0, high).lastIndexOf(10) + 1;
  const next = utf8.indexOf(10, high);
  const to = Math.min(next < 0 ? utf8.length : next, from + 1000);
  let firstLine = 1;
  for (let at = utf8.indexOf(10); at >= 0 && at < from; at = utf8.indexOf(10, at + 1)) firstLine++;
  return { firstLine, firstText: textFromUtf8(utf8, from, to).trimEnd() };
}

/** A letter that the end of the head cuts through is no fault of the file. */
function endOfWholeLetters(head: Uint8Array): number {
  let end = head.length;
  for (let back = 1; back <= 3 && back <= head.length; back++) {
    const byte = head[head.length - back] as number; // back is within the length
    if (byte >= 0xc0) {
      end = head.length - back;
      break;
    }
    if (byte < 0x80) break;
  }
  return head.length < HEAD ? head.length : end;
}
