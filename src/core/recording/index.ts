/** Recordings: channels of readings, and what they allow the air to have been. */
export { BLOCK_ROWS, type BlockSummaries, blockSummaries, SEEN } from "./block-summary.ts";
export { type Channel, type ClockBasis, READING, type ReadingCode, type Recording } from "./channel.ts";
export { type ClockJump, clockJumps } from "./clock-jump.ts";
export {
  COLLECT_DEFAULTS,
  type Collected,
  type CollectSettings,
  collectRows,
  INSTANTS,
  type RecordingFacts,
  type RowCollector,
  type RowMark,
  type RowTally,
} from "./collect-rows.ts";
export type { Declaration } from "./declaration.ts";
export { defaultLargestGap, GAP_FACTOR, type LargestGap, regularStep, stepRange } from "./largest-gap.ts";
export { type RecordedSpan, recordedSpans, type StretchRun, stretchRuns } from "./marked-span.ts";
export { nextCode, nextLevel } from "./next-equal.ts";
export type { LentMemory } from "./pieces.ts";
export { keptRows, m4Columns, type PixelColumns, type SignalColumns, signalColumns } from "./pixel-columns.ts";
export type { ShownSpan } from "./row-bounds.ts";
export type { Period } from "./row-layout.ts";
export { coverage, type SampledMean, sampledMean } from "./sampled-mean.ts";
export {
  isSenmlName,
  isVersionKnown,
  resolveSenml,
  resolveSenmlText,
  SENML_READING,
  type SenmlFault,
  type SenmlPack,
  type SenmlReading,
  type SenmlRecord,
  type SenmlRefusal,
  type SenmlValue,
} from "./senml/senml-pack.ts";
export { recordingFromSenml, type SenmlMark, type SenmlRecording, type SenmlSource } from "./senml/senml-recording.ts";
export { inPrimaryUnit, type SenmlUnit, senmlUnit } from "./senml/senml-unit.ts";
export {
  type SenmlFields,
  type SenmlProjection,
  type SenmlWriteRefusal,
  type SenmlWriting,
  senmlFromRecording,
  versionFor,
} from "./senml/senml-write.ts";
export { OPEN, STRETCH, type StretchCode, type Timing, type TwoEdgedSignal } from "./signal.ts";
export type { SignalNote } from "./signal-note.ts";
export {
  type ChannelSignal,
  type Cut,
  type FailedCheck,
  type LooseReading,
  PLAIN_SETTINGS,
  type SignalRefusal,
  type SignalSettings,
  type SignalTally,
  signalOf,
} from "./signal-of.ts";
export { pastZeros } from "./zero-bytes.ts";
