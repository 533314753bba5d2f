/** Units inside labels, and words of labels that say what a column is. */
import type { Unit } from "../quantity/unit.ts";
import { isTimeUnit } from "./structure.ts";
import type { Vocabulary } from "./vocabulary.ts";

export interface LabelUnit {
  readonly unit: Unit | "ambiguous per cent" | null;
  /** What stands where a unit would, known or not. */
  readonly text: string;
}

/** The unit that a label carries: `CO (ppm)`, `CO [ppm]`, `CO_ppm`, `CO, ppm`, `CO ppm`. */
export function unitInLabel(label: string, vocabulary: Vocabulary): LabelUnit {
  const bracketed = [...label.matchAll(/[([{]\s*([^()[\]{}]+?)\s*[)\]}]/gu)].map((match) => match[1] as string); // the pattern has this group
  for (const text of bracketed) {
    const unit = vocabulary.unitFromText(text);
    if (unit !== null || isTimeUnit(text)) return { unit, text };
  }
  const bare = label.replaceAll(/[([{][^()[\]{}]*[)\]}]/gu, " ").trim();
  for (const separator of [/^.*?[_,;:/\s-]+(.+)$/su, /^.*[_,;:\s-]+(.+)$/su]) {
    const text = separator.exec(bare)?.[1]?.trim();
    if (text === undefined) continue;
    const unit = vocabulary.unitFromText(text);
    if (unit !== null || (isTimeUnit(text) && text.length > 1)) return { unit, text };
  }
  const whole = vocabulary.unitFromText(label);
  return { unit: whole, text: whole === null ? (bracketed.at(-1) ?? "") : label };
}

/** Columns that stand beside gas readings and are none (common practice). */
const BESIDE =
  /\b(?:batt(?:ery)?|temp(?:erature)?|humid(?:ity)?|rh|press(?:ure)?|baro|flow|volt(?:age)?|current|mains|serial|sn|index|idx|counter?|record|row|rec|no|nr|num(?:ber)?|id|test|lat(?:itude)?|lon(?:gitude)?|alt(?:itude)?|speed|signal|rssi|pump|wind|heading|zip|age|year)\b/i;
export const isBesideReadings = (label: string): boolean => BESIDE.test(label.replaceAll("_", " "));

/** Who wears an instrument, which one it is, or the number of either (common practice). */
const TRADE =
  /^(?:name|full name|badge|tag|asset|sn|s\/n)$|\b(?:worker|wearer|person(?:al|nel)?|employee|operator|staff|user|crew|instrument|device|detector|monitor|serial|badge|id|uid|guid|unit (?:id|no|nr|number|name)|equipment|träger|mitarbeiter|gerät|seriennummer|porteur|appareil)\b/iu;
export const isTradeLabel = (label: string): boolean => TRADE.test(label.replaceAll("_", " ").trim());

/** What people write beside a row, and numbers that measure or count something else: they name no run. */
const REMARK = /\b(?:remarks?|notes?|comments?|messages?|text|marker|warnings?|bemerkung(?:en)?|hinweis|remarque)\b/i;
const MEASURED =
  /[([{]|\b(?:batt(?:ery)?|temp(?:erature)?|humid(?:ity)?|rh|press(?:ure)?|baro|flow|volt(?:age)?|current|mains|index|idx|counter?|record|row|rec|no|nr|num(?:ber)?|lat(?:itude)?|lon(?:gitude)?|alt(?:itude)?|speed|signal|rssi|pump|wind|heading|age|year)\b/i;
export const mayNameRuns = (label: string, isNumber: boolean): boolean =>
  isTradeLabel(label) || !(isNumber ? MEASURED.test(label.replaceAll("_", " ")) || isOwnAverage(label) : REMARK.test(label));

/** The instrument's own averages: they are no readings. */
export const isOwnAverage = (label: string): boolean =>
  /\b(?:twa|stel|lt?el[- ]?8|8\s?-?h(?:r|our)?s?|15\s?-?min)\b/i.test(label.replaceAll("_", " "));

export const isStatusLabel = (label: string): boolean => /status|state|zustand|flag|valid|quality|alarm|fault|\bmode\b|event/i.test(label);

export const isTimeLabel = (label: string): boolean =>
  /^(?:t|time|zeit|date|datum|date.?time|time.?stamp|timestamp|uhrzeit|heure|hora|ora|tijd|elapsed|seconds?|unix|epoch|clock|logged|recorded)\b|time\b|elapsed|epoch|unix/i.test(
    label.replaceAll("_", " "),
  );

export const readingKindOfLabel = (label: string): "interval mean" | "interval peak" | null => {
  const plain = label.replaceAll("_", " ");
  if (/\b(?:avg|average|mean|mittel(?:wert)?|moyenne)\b/i.test(plain)) return "interval mean";
  return /\b(?:peak|max(?:imum)?|spitze)\b/i.test(plain) ? "interval peak" : null;
};
