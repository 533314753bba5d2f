/** Cells of a row into typed readings: digits, words, bounds, units beside the digits; wide and long. */
import type { Unit } from "../quantity/unit.ts";
import type { Batch } from "./batch.ts";
import { numberForm, plainDigits, readNumber } from "./number-text.ts";
import type { Plan } from "./plan.ts";
import type { FaultType, TableRefusal } from "./question.ts";
import { CODE } from "./reading-code.ts";
import type { RecordPlace, WalkTools } from "./walk-tools.ts";
import { isNotANumberText } from "./words.ts";

const MOST_UNITS = 64;

export interface CellFault {
  readonly type: FaultType;
  /** Column of the cell. */
  readonly index: number;
}

export class ReadingCells {
  /** A sensor that the mapping does not know. */
  refusal: TableRefusal | null = null;
  /** True where rows could not all be handed over under this plan. */
  isSpoilt = false;
  /** Cells of the row just read that say nothing while other channels of it do: those channels keep their readings. */
  badCells: readonly CellFault[] = [];
  /** By channel: whether a number was read, and the first that was none under these marks. */
  private readonly readable: boolean[] = [];
  private readonly misread: { readonly line: number; readonly text: string }[] = [];
  private readonly units = new Map<string, Unit | "ambiguous per cent" | null>();
  private readonly tools: WalkTools;
  private readonly plan: Plan;
  private readonly batch: Batch;
  private readonly at: RecordPlace;

  constructor(tools: WalkTools, batch: Batch, at: RecordPlace) {
    this.tools = tools;
    this.plan = tools.plan;
    this.batch = batch;
    this.at = at;
  }

  /**
   * Writes the readings of a row into the batch. A bad cell is a fault of its own channel at that time: what the others
   * of the row measured stays. Where no other channel holds a reading the answer is the first bad cell, and the row goes.
   */
  read(cells: readonly string[], row: number): CellFault | null {
    const { plan } = this;
    this.badCells = [];
    const isBad = plan.statuses.length > 0 && plan.statuses.some((index) => plan.badStatus.has(cells[index] ?? ""));
    if (plan.isLong) return this.longReading(cells, row, isBad);
    const bad: CellFault[] = [];
    for (let index = 0; index < plan.width; index++) {
      const channel = plan.channelOf[index] as number; // index is below the width
      if (channel < 0) continue;
      const fault = this.reading(cells[index] ?? "", channel, row, isBad);
      if (fault !== null) bad.push({ type: fault, index });
    }
    const [first] = bad;
    if (first === undefined) return null;
    if (!this.othersHoldReadings(bad, row)) return first;
    for (const { index } of bad) this.putFault(plan.channelOf[index] as number, row); // a column of a channel
    this.badCells = bad;
    return null;
  }

  /** A channel of which no cell is a number: its mapping was made for numbers of another kind. */
  misreads(hasPlain: (channel: number) => boolean): TableRefusal | null {
    for (const [channel, { column }] of this.plan.channels.entries()) {
      const first = this.misread[channel];
      if (first === undefined || this.readable[channel] === true || hasPlain(channel)) continue;
      const { label, decimalMark } = column;
      return { type: "mapping-misreads-numbers", column: label, ...first, decimalMark };
    }
    return null;
  }

  private othersHoldReadings(bad: readonly CellFault[], row: number): boolean {
    const { plan, batch } = this;
    const faulty = new Set(bad.map(({ index }) => plan.channelOf[index]));
    return batch.now.codes.some((codes, channel) => !faulty.has(channel) && codes[row] !== CODE.none && codes[row] !== CODE.fault);
  }

  private putFault(channel: number, row: number): void {
    this.put(channel, row, 0, 0, CODE.fault);
  }

  private longReading(cells: readonly string[], row: number, isBad: boolean): CellFault | null {
    const { plan, batch } = this;
    const sensor = cells[plan.sensor] ?? "";
    const unitText = plan.unit < 0 ? "" : (cells[plan.unit] ?? "");
    this.seeSensor(sensor, unitText);
    const channel = plan.sensors.get(sensor);
    const { present } = batch.now;
    for (let index = 0; index < present.length; index++) (present[index] as Uint8Array)[row] = index === channel ? 1 : 0; // below the length
    if (channel === undefined) {
      // The survey goes on and learns the sensor; a reading under a mapping without it would leave its rows out.
      this.isSpoilt = true;
      if (!this.tools.gathers)
        this.refusal = { type: "mapping-does-not-fit", fingerprint: sensor, expected: [...plan.sensors.keys()].join(", ") };
      return null;
    }
    const unit = unitText === "" ? null : this.unitOf(unitText);
    const planned = plan.channels[channel]?.column.unit ?? null;
    if (unit !== null && unit !== "ambiguous per cent" && planned !== null && unit !== planned)
      return { type: "unit changed", index: plan.unit };
    const fault = this.reading(cells[plan.value] ?? "", channel, row, isBad);
    return fault === null ? null : { type: fault, index: plan.value };
  }

  /** Units come again row by row: each text is looked up once. */
  private unitOf(text: string): Unit | "ambiguous per cent" | null {
    const known = this.units.get(text);
    if (known !== undefined) return known;
    const unit = this.tools.environment.vocabulary.unitFromText(text);
    if (this.units.size < MOST_UNITS) this.units.set(text, unit);
    return unit;
  }

  /** A text of the sensor column, with the gas and unit that it names. */
  seeSensor(sensor: string, unitText: string): void {
    if (!this.tools.gathers) return;
    const { sensors } = this.tools.evidence;
    const known = sensors.get(sensor);
    const { vocabulary } = this.tools.environment;
    if (known === undefined) {
      if (sensors.size < 256)
        sensors.set(sensor, {
          gas: vocabulary.gasInLabel(sensor),
          unit: unitText === "" ? null : vocabulary.unitFromText(unitText),
          unitText,
          line: this.at.line,
        });
    } else if (known.unitText === "" && unitText !== "")
      sensors.set(sensor, { ...known, unit: vocabulary.unitFromText(unitText), unitText });
  }

  /** Writes one reading; what is wrong with it, or null. */
  private reading(cell: string, channel: number, row: number, isBad: boolean): FaultType | null {
    const { plan } = this;
    const planned = plan.channels[channel] as Plan["channels"][number]; // a channel of the plan
    if (cell === "") return this.put(channel, row, 0, 0, isBad ? CODE.fault : CODE.none);
    const code = plan.words.size === 0 ? undefined : (plan.words.get(cell) ?? plan.words.get(plainDigits(cell)));
    if (code !== undefined) return this.word(code, planned, channel, row, isBad);
    if (isNotANumberText(cell)) return this.put(channel, row, 0, 0, isBad ? CODE.fault : CODE.none);
    const read = readNumber(cell, planned.column.decimalMark, planned.column.groupMark);
    if (typeof read === "string") {
      if (numberForm(cell) !== null) this.misread[channel] ??= { line: this.at.line, text: cell };
      return read;
    }
    this.readable[channel] = true;
    if (read.unitText !== "") {
      const unit = this.unitOf(read.unitText);
      if (unit !== planned.column.unit && !(unit === "ambiguous per cent" && planned.column.unit !== null))
        return unit === null ? "not a number" : "unit changed";
    }
    if (read.mantissa > planned.possible * 10 ** read.decimals) return "impossible value";
    const bound = read.bound === null ? CODE.valid : read.bound === ">" ? CODE.overRange : CODE.underRange;
    return this.put(channel, row, read.mantissa, read.decimals, isBad ? CODE.fault : bound);
  }

  /** Writes what a word stands for. */
  private word(code: number, { rangeTop }: Plan["channels"][number], channel: number, row: number, isBad: boolean): null {
    if (code === CODE.overRange && rangeTop !== null)
      return this.put(channel, row, rangeTop.mantissa, rangeTop.decimals, isBad ? CODE.fault : code);
    // Under range without a bound says nothing of how high it was.
    const alone = code === CODE.overRange ? CODE.overRangeUnbounded : code === CODE.underRange ? CODE.none : code;
    return this.put(channel, row, 0, 0, isBad ? CODE.fault : alone);
  }

  private put(channel: number, row: number, mantissa: number, decimals: number, code: number): null {
    const { now } = this.batch;
    (now.mantissas[channel] as Float64Array)[row] = mantissa; // one array a channel
    (now.decimals[channel] as Uint8Array)[row] = decimals;
    (now.codes[channel] as Uint8Array)[row] = code;
    return null;
  }
}
