/** What a panel says and where: names of limits beside it, words of stretches in it, and the rest in words under it. */
import { durationText, unitText } from "../../report/index.ts";
import type { Frame, PanelFrame, Plotting, Stretch } from "../desk/protocol.ts";
import type { Clock } from "../parts/clock.ts";
import { type Box, type IsFree, labelHeight, placeLabels, spread } from "./label-places.ts";
import type { LimitLine } from "./limit-lines.ts";
import { type PanelModel, yOf } from "./panel-model.ts";
import type { ShiftBound } from "./shift-bounds.ts";
import { skylineOf } from "./skyline.ts";
import { spanWords } from "./span-words.ts";
import { linesIn, textWidth } from "./text-width.ts";
import type { View } from "./view.ts";

/** Pixels that names take beside a panel; recording.css leaves as many free, and the leaders' before them. */
export const namesWidth = 158;
export const leaderWidth = 14;
const nameLine = 15;
const padding = 8;

/** From the pixels that a drawing was made in to those in which it is shown: paper is narrower, heights follow the findings. */
export interface Mapping {
  readonly scaleX: number;
  readonly shiftX: number;
  readonly scaleY: number;
  readonly shiftY: number;
}

export const mappingOf = (frame: Frame, panel: PanelFrame, model: Plotting, view: View, width: number): Mapping => {
  const span = view.to - view.from;
  const [foot, head] = [panel.height - panel.foot, panel.head];
  const [shownFoot, shownHead] = [yOf(panel.scale[0], model), yOf(panel.scale[1], model)];
  const scaleY = (shownHead - shownFoot) / (head - foot);
  return {
    scaleX: ((frame.to - frame.from) / span) * (width / frame.width),
    shiftX: ((frame.from - view.from) / span) * width,
    scaleY,
    shiftY: shownFoot - scaleY * foot,
  };
};

export interface Placed<Thing> {
  readonly thing: Thing;
  readonly box: Box;
}

/** What has its words in the panel. */
type Spoken = Stretch | ShiftBound;

export interface PanelLayout {
  readonly stretches: readonly (Placed<Spoken> & { readonly says: string })[];
  readonly worst: { readonly says: string; readonly box: Box } | null;
  /** Top of each name beside the panel; empty where there is no room beside it. */
  readonly names: readonly { readonly line: LimitLine; readonly top: number }[];
  /** Limits whose names stand under the panel. */
  readonly under: readonly LimitLine[];
  /** Sentences under the panel. */
  readonly words: readonly string[];
}

export interface Shown {
  readonly model: PanelModel;
  readonly frame: Frame | null;
  readonly view: View;
  readonly width: number;
  readonly clock: Clock;
  /** Stretches that another panel has said already: they are drawn here and not said again. */
  readonly said: readonly Stretch[];
  readonly bounds: readonly ShiftBound[];
  /** One panel names the bounds of shifts for all. */
  readonly namesBounds: boolean;
  /** Whether names stand beside the panel. */
  readonly roomy: boolean;
}

export const panelOf = ({ model, frame }: Pick<Shown, "model" | "frame">): PanelFrame | null =>
  frame?.panels.find((one) => one.channel === model.sketch.index) ?? null;

export const pixelsOf = (ms: number, { view, width }: Pick<Shown, "view" | "width">): number =>
  ((ms - view.from) / (view.to - view.from)) * width;

export const isVisible = (stretch: { readonly from: number; readonly to: number }, view: View): boolean =>
  stretch.to > view.from && stretch.from < view.to;

const lineClearance = 3;

/** Free of every series and of the limits' lines, by a hair more than their strokes. */
const freedomOf = (shown: Shown): IsFree => {
  const { model, frame, view, width } = shown;
  const panel = panelOf(shown);
  const lines = [...model.lines.map((line) => yOf(line.value, model)), model.height - model.foot];
  const offLines = ({ y, height }: Box): boolean => lines.every((line) => line < y - 1 || line > y + height + 1);
  if (panel === null || frame === null) return offLines;
  const { scaleX, shiftX, scaleY, shiftY } = mappingOf(frame, panel, model, view, width);
  return (box) => {
    if (!offLines(box)) return false;
    // Traced only once a label looks for its place: most panels have none, and the first drawing waits for nothing.
    const { left, top, foot } = skylineOf(panel, frame.width);
    const columnOf = (x: number): number => Math.floor((x - shiftX) / scaleX) - left;
    const last = Math.min(columnOf(box.x + box.width + lineClearance), top.length - 1);
    for (let column = Math.max(columnOf(box.x - lineClearance), 0); column <= last; column++) {
      const [high, low] = [(top[column] as number) * scaleY + shiftY, (foot[column] as number) * scaleY + shiftY]; // one a column
      if (high <= box.y + box.height + lineClearance && low >= box.y - lineClearance) return false;
    }
    return true;
  };
};

/** A clock that was set has two times for one place. */
const stretchWords = (stretch: Spoken, clock: Clock): string =>
  stretch.kind === "seam" ? `${stretch.says}: ${clock.time(stretch.to)}, then ${clock.time(stretch.from)}` : stretch.says;

const saysTheSame = (one: Stretch, other: Stretch): boolean => one.from === other.from && one.to === other.to && one.says === other.says;

/** What is said first where not all can be. */
const first: readonly Stretch["kind"][] = ["over range", "seam", "gap", "declared", "no upper bound"];

/** The longest stretches of each kind; the table of values has them all. */
const spoken = ({ said, view, width }: Shown, stretches: readonly Stretch[]): readonly Stretch[] => {
  const most = width > 420 ? 4 : 2;
  return stretches
    .filter((stretch) => isVisible(stretch, view) && stretch.says !== "")
    .filter((stretch) => !said.some((other) => other !== stretch && saysTheSame(other, stretch)))
    .sort((a, b) => first.indexOf(a.kind) - first.indexOf(b.kind) || b.to - b.from - (a.to - a.from))
    .filter((stretch, place, all) => all.slice(0, place).filter((other) => other.kind === stretch.kind).length < (most > 2 ? 2 : 1))
    .slice(0, most);
};

/** Of many shifts each line would want a name: then one sentence names them. */
const boundsSpoken = (shown: Shown): readonly ShiftBound[] => {
  const visible = visibleBounds(shown);
  return visible.length > (shown.width > 420 ? 4 : 2) ? [] : visible;
};

const boundsSentence = (shown: Shown): readonly string[] =>
  visibleBounds(shown).length > 0 && boundsSpoken(shown).length === 0 ? ["Thin upright lines stand where shifts begin and end."] : [];

const visibleBounds = ({ bounds, namesBounds, view }: Shown): readonly ShiftBound[] =>
  namesBounds ? bounds.filter(({ from }) => from >= view.from && from <= view.to) : [];

/** A moment is given a width, so that a label beside it, in the stretch that it ends, is its own. */
const placeOf = (one: Spoken, shown: Shown): { readonly from: number; readonly to: number } => {
  const from = pixelsOf(one.from, shown);
  if (one.kind === "shift") return { from: Math.max(from - 1, 0), to: Math.min(from + 1, shown.width) };
  return { from, to: one.kind === "seam" ? from : pixelsOf(one.to, shown) };
};

const nameBox = (model: PanelModel, gas: string): Box => {
  const unit = model.answer.unit === null ? "" : unitText(model.answer.unit);
  const named = model.named && model.answer.name !== gas ? model.answer.name : "";
  return { x: 0, y: 0, width: textWidth(gas) * 1.3 + textWidth(` ${unit} ${named}`) + padding, height: 24 };
};

/** Beside its bracket in the band under the readings; where neither side has room, in words under the panel. */
const worstOf = (shown: Shown): { readonly says: string; readonly box: Box | null } | null => {
  const { model, view, width, clock } = shown;
  if (model.worst === null || model.windowMs === null) return null;
  const [from, to] = [clock.ms(model.worst.from), clock.ms(model.worst.to)];
  if (!isVisible({ from, to }, view)) return null;
  const says = `greatest ${durationText(model.windowMs / 1000)} mean: ${spanWords(clock, from, to)}`;
  const needed = textWidth(says) + padding;
  const [left, right] = [pixelsOf(from, shown) - 5 - needed, Math.max(pixelsOf(to, shown), 0) + 5];
  const x = right + needed <= width ? right : left >= 0 ? left : null;
  return { says, box: x === null ? null : { x, y: model.height - labelHeight - 1, width: needed, height: labelHeight } };
};

export type Names = Pick<PanelLayout, "names" | "under">;

/** Beside the panel, each as near to its line as the others let it; under it where there is no room for all. The view has no say in it. */
export const namesOf = ({ model, roomy }: Pick<Shown, "model" | "roomy">): Names => {
  const lines = [...model.lines].reverse();
  if (!roomy) return { names: [], under: lines };
  const wanted = lines.map((line) => ({
    y: yOf(line.value, model) - nameLine / 2,
    height: linesIn(`${line.figure} ${line.names}`, namesWidth) * nameLine + 2,
  }));
  const tops = spread(wanted, 0, model.height);
  if (tops === null) return { names: [], under: lines };
  return { names: lines.map((line, at) => ({ line, top: tops[at] ?? 0 })), under: [] };
};

const unsaidWords = (one: Spoken, says: string, clock: Clock): string =>
  sentence(one.kind === "shift" ? says : `${spanWords(clock, one.from, one.to)} ${says}`);

const sentence = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;

export const layoutOf = (shown: Shown, gas: string, names: Names = namesOf(shown)): PanelLayout => {
  const { model, clock, width } = shown;
  const beyond = model.beyond;
  if (width < 1) return { stretches: [], worst: null, ...names, words: beyond };
  const worst = worstOf(shown);
  const wanted = [...spoken(shown, panelOf(shown)?.stretches ?? []), ...boundsSpoken(shown)].map((stretch) => ({
    stretch,
    says: stretchWords(stretch, clock),
  }));
  const boxes = placeLabels(
    wanted.map(({ stretch, says }) => ({ ...placeOf(stretch, shown), width: textWidth(says) + padding })),
    {
      width,
      band: model.head,
      last: model.height - model.foot - labelHeight,
      isFree: freedomOf(shown),
      taken: [nameBox(model, gas)],
    },
  );
  const stretches = wanted.flatMap(({ stretch, says }, at) => {
    const box = boxes[at] ?? null;
    return box === null ? [] : [{ thing: stretch, says, box }];
  });
  const unsaid = wanted.filter((_, at) => boxes[at] === null && wanted[at]?.stretch.kind !== "no upper bound");
  return {
    stretches,
    worst: worst === null || worst.box === null ? null : { says: worst.says, box: worst.box },
    ...names,
    words: [
      ...unsaid.map(({ stretch, says }) => unsaidWords(stretch, says, clock)),
      ...boundsSentence(shown),
      ...(worst !== null && worst.box === null ? [sentence(worst.says)] : []),
      ...beyond,
    ],
  };
};
