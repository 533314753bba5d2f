/**
 * What the page and the worker say to each other. The recording itself never crosses: the worker keeps it and hands
 * out what a picture of so many pixels can show, drawn already, so that the page only puts it up.
 */
import type { ShiftSpan } from "../../core/exposure/assessment.ts";
import type { Limit } from "../../core/gas/limit.ts";
import type { ReadingKind } from "../../core/quantity/reading-kind.ts";
import type { Unit } from "../../core/quantity/unit.ts";
import type { ClockBasis } from "../../core/recording/channel.ts";
import type { Declaration } from "../../core/recording/declaration.ts";
import type { TableMapping } from "../../core/table/mapping.ts";
import type { Answers, LineFault, Question } from "../../core/table/question.ts";
import type { Preview, Proposal, TableSummary } from "../../core/table/reading.ts";
import type { Refusal } from "../../report/index.ts";
import type { FileAnswer } from "../../work/answer.ts";
import type { ExposureOptions } from "../../work/exposure-options.ts";
import type { CalculatorDescription, SlateAnswer, SlateObject } from "../../work/slate/description.ts";

export interface OpenAsk {
  readonly type: "open";
  readonly id: string;
  readonly file: File;
  readonly given: Answers;
  readonly mapping: TableMapping | null;
  /** As typed or as the answer writes them, FROM/TO; only a file kept in part needs them to be read. */
  readonly shifts: readonly string[];
  /** Those of the page, so that what is drawn first is ready when the file is. */
  readonly settings: Settings;
}

export interface ChannelSketch {
  readonly index: number;
  readonly name: string;
  readonly series: { readonly label: string; readonly value: string } | null;
  readonly gas: string | null;
  readonly unit: Unit | null;
  readonly kind: ReadingKind;
  readonly decimals: number;
  readonly rows: number;
  readonly from: number;
  readonly to: number;
  /** In the unit of the channel; they set the axis and are no answer. */
  readonly least: number;
  readonly greatest: number;
}

export interface Told {
  readonly type: string;
  readonly message: string;
  readonly mend: string;
}

export interface Opened {
  readonly sha256: string | null;
  /** Null where the file is no table (SenML), or was refused before one was seen. */
  readonly proposal: Proposal | null;
  readonly mapping: TableMapping | null;
  readonly summary: TableSummary | null;
  readonly clock: ClockBasis | null;
  /** Empty until every question that the readings need is answered. */
  readonly channels: readonly ChannelSketch[];
  readonly faults: readonly LineFault[];
  /** Questions of the second walk too. */
  readonly questions: readonly Question[];
  /** The file is longer than what is kept without shifts: naming shifts reads it again. */
  readonly keptInPart: boolean;
  readonly refusal: Told | null;
}

/** What a person chose about one recording; everything on its page follows from it. */
export interface Settings extends Omit<ExposureOptions, "limits" | "regimes"> {
  /** Empty = all of the tables. */
  readonly regimes: readonly string[];
  readonly shifts: readonly ShiftSpan[];
}

/** Time that readings do not settle: a statement of a person may. */
export interface Unsettled {
  readonly kind: "unsampled" | "over range";
  readonly from: number;
  readonly to: number;
}

export interface UnsettledAsk {
  readonly type: "unsettled";
  readonly id: string;
  /** Name of a channel, or `*`. */
  readonly channel: string;
  /** Null = the file is one shift. */
  readonly shift: ShiftSpan | null;
  readonly settings: Settings;
}

/** What a statement meets in the recording. */
export interface Met {
  readonly unsampledMs: number;
  readonly overRangeMs: number;
  /** Readings that stand in its time, and how many of them are above nought. */
  readonly readings: number;
  readonly aboveNought: number;
  /** Greatest of them, in the unit of the channel. */
  readonly greatest: number | null;
}

export interface MetAsk {
  readonly type: "met";
  readonly id: string;
  readonly declarations: readonly Declaration[];
  readonly settings: Settings;
}

export interface PreviewAsk {
  readonly type: "preview";
  readonly id: string;
  readonly answers: Answers;
}

/** How the rows shown would read under answers that are chosen and not yet sent; null where they refuse it or the bytes have to be read again. */
export type PreviewReply = { readonly preview: Preview; readonly mapping: TableMapping } | null;

export interface AssessAsk {
  readonly type: "assess";
  readonly id: string;
  readonly settings: Settings;
}

/** How values lie in a plot, in pixels: readings between a band at its head and one at its foot. */
export interface Plotting {
  readonly height: number;
  readonly head: number;
  readonly foot: number;
  /** Values at the lower and at the upper end of the room for readings. */
  readonly scale: readonly [number, number];
}

export interface PanelAsk extends Plotting {
  readonly channel: number;
  /** Null = no rolling mean is drawn. */
  readonly windowMs: number | null;
  /** Above it the mean is drawn as exceeding; in the unit of the channel. */
  readonly limit: number | null;
}

export interface FrameAsk {
  readonly type: "frame";
  readonly id: string;
  readonly from: number;
  readonly to: number;
  /** Pixels of the view; the frame holds as much again on either side, so that panning shows readings at once. */
  readonly width: number;
  readonly panels: readonly PanelAsk[];
  readonly settings: Settings;
}

/** A stretch that is drawn as itself, not as a line, with what is said beside it. */
export interface Stretch {
  /** "no upper bound" is only named: its shape is the path `unbounded`. */
  readonly kind: "gap" | "over range" | "declared" | "seam" | "no upper bound";
  readonly from: number;
  readonly to: number;
  readonly says: string;
}

/** Paths in pixels of the view and the plot they were asked for; they reach a whole view to either side. */
export interface PanelFrame extends Plotting {
  readonly channel: number;
  readonly raw: string;
  readonly mean: string;
  /** The mean where less of its window was measured than the coverage setting. */
  readonly thin: string;
  readonly hot: string;
  readonly wash: string;
  readonly ribbon: string;
  readonly unbounded: string;
  readonly stretches: readonly Stretch[];
}

export interface Frame {
  readonly from: number;
  readonly to: number;
  readonly width: number;
  readonly panels: readonly PanelFrame[];
  /** True while long recordings still lack their rolling mean: ask again. */
  readonly partial: boolean;
}

export interface ValuesAsk {
  readonly type: "values";
  readonly id: string;
  readonly channel: number;
  readonly from: number;
  readonly to: number;
  readonly most: number;
  readonly settings: Settings;
}

export interface ValueRow {
  readonly line: number | null;
  readonly at: string;
  readonly value: string;
  readonly status: string;
}

export interface ValuesPage {
  readonly rows: readonly ValueRow[];
  readonly of: number;
}

export interface LimitsFound {
  readonly gas: string;
  readonly name: string;
  readonly limits: readonly Limit[];
}

export type SlateReply =
  | { readonly ok: true; readonly answer: SlateAnswer }
  /** `path` names the input that does not fit, where it is one; the page says which field that is. */
  | { readonly ok: false; readonly told: Told; readonly path: string | null; readonly refusal: Refusal };

/** Each ask and what comes back. */
export interface Replies {
  readonly open: Opened;
  readonly assess: FileAnswer;
  readonly frame: Frame;
  readonly values: ValuesPage;
  readonly unsettled: readonly Unsettled[];
  readonly met: readonly Met[];
  readonly preview: PreviewReply;
  readonly close: null;
  readonly limits: readonly LimitsFound[];
  readonly calculators: readonly CalculatorDescription[];
  readonly slate: SlateReply;
}

export type Ask =
  | OpenAsk
  | AssessAsk
  | FrameAsk
  | ValuesAsk
  | UnsettledAsk
  | MetAsk
  | PreviewAsk
  | { readonly type: "close"; readonly id: string }
  /** Gases whose name, id or formula holds the text; all for an empty one. */
  | { readonly type: "limits"; readonly text: string }
  | { readonly type: "calculators" }
  | { readonly type: "slate"; readonly name: string; readonly input: SlateObject };

export type Stage = "reading" | "understanding" | "computing";

export type ToWorker =
  | { readonly number: number; readonly ask: Ask }
  | { readonly number: number; readonly cancel: true }
  /** Answered at once by a worker that is alive and not in the middle of something. */
  | { readonly ping: true };

export type FromWorker =
  | { readonly pong: true }
  | { readonly number: number; readonly reply: unknown }
  | { readonly number: number; readonly cancelled: true }
  | { readonly number: number; readonly fault: string }
  | { readonly number: number; readonly at: { readonly stage: Stage; readonly done: number; readonly of: number | null } };
