/** Exposure: from a recording to averages, short-term means, ceilings and outcomes that claim no more than was measured. */
export { assessRecording } from "./assess-recording.ts";
export type {
  AssessmentRefusal,
  AssessmentSettings,
  AssessRecording,
  ChannelAssessment,
  Episode,
  NotCompared,
  ShiftAssessment,
  ShiftSpan,
  ShortTerm,
  Unsampled,
} from "./assessment.ts";
export { type AverageBounds, averageBounds, eightHourAverage, type ShiftRule } from "./average.ts";
export { breakEvenLevel, decidingLevel } from "./break-even.ts";
export * from "./detection-limit.ts";
export { type EdgeSums, edgeAt, edgeSums, integralBetween, type SignalSums, segmentAt, signalSums } from "./edge-sums.ts";
export { type EpisodeRule, type ReadingEpisode, readingEpisodes, type WindowEpisode, windowEpisodes } from "./episodes.ts";
export {
  compareMeanWithLimit,
  type ExactMean,
  type LimitDigits,
  levelSum,
  limitDigits,
  meanValue,
  stepsAtLeast,
  stepsAtMost,
} from "./exact-limit.ts";
export { alternateEntryLevel, type CountedExposures, countedExposures, shortPeakGuideline } from "./exposure-count.ts";
export * from "./extended-shift.ts";
export { type GreatestValue, greatestValue, type ReadingExtremes, readingExtremes } from "./extremes.ts";
export { type GreatestWindow, greatestWindow } from "./greatest-window.ts";
export * from "./group.ts";
export { boundedWindowMean, pulsePeakShare } from "./hidden-within.ts";
export { type LimitTerms, limitTerms, type MolarTerms } from "./limit-terms.ts";
export * from "./mixture.ts";
export { type MixtureShare, mixtureSignal } from "./mixture-signal.ts";
export { hasNoDose } from "./no-dose.ts";
export { type OnceOnlyAnswer, type OnceOnlyRule, onceOnly } from "./once-only.ts";
export { type Period, periodOf, type UnsampledSteps } from "./period.ts";
export * from "./retention.ts";
export { type RollingMean, rollingMean } from "./rolling-mean.ts";
export {
  type ConsecutiveFinding,
  type ConsecutiveRefusal,
  type ConsecutiveSample,
  consecutiveSamples,
  type DoubtCause,
  type ErrorFinding,
  type ErrorTerms,
  oneSample,
  type SamplingErrorRefusal,
  samplingErrorFromVariation,
} from "./sampling-error.ts";
export { type LognormalSummary, lognormalSummary, type ShiftResultsRefusal } from "./shift-results.ts";
export { type ExactBounds, outcomeOfBounds, rangeOf } from "./shown-range.ts";
export { type StretchSums, stretchSums } from "./stretch-sums.ts";
export { greatestTimeWithin, type Run, runsAbove, timeAbove, timesAbove } from "./time-above.ts";
export { type WindowBounds, windowBounds } from "./window-bounds.ts";
