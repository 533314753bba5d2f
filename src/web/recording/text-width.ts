/** How wide words are in the face of the labels, for laying them out before they stand anywhere. */
import { useSyncExternalStore } from "react";

const fontOf = (): string => `600 13px ${getComputedStyle(document.documentElement).getPropertyValue("--face")}`;

const widths = new Map<string, number>();
let pen: CanvasRenderingContext2D | null = null;
/** How often the house's face, in one of its weights, has come so far. */
let facesCome = 0;

const hearFaces = (tell: () => void): (() => void) => {
  document.fonts.addEventListener("loadingdone", tell);
  return () => document.fonts.removeEventListener("loadingdone", tell);
};

/** Until the house's face has come another one stands in for it, and what was measured with that one is measured anew. */
const measureAnew = (): void => {
  widths.clear();
  pen = null;
  facesCome += 1;
};

let hears = false;

/** Changes whenever texts are to be measured anew: what is laid out by their widths is laid out again. */
export const useFaces = (): number => useSyncExternalStore(hearFaces, () => facesCome);

const newPen = (): CanvasRenderingContext2D | null => {
  if (!hears) hearFaces(measureAnew);
  hears = true;
  const found = document.createElement("canvas").getContext("2d");
  if (found !== null) found.font = fontOf();
  return found;
};

/** In the weight of the sunlight theme, the widest: a label may be narrower than its place, never wider. */
export const textWidth = (text: string): number => {
  const known = widths.get(text);
  if (known !== undefined) return known;
  pen ??= newPen();
  if (pen === null) return text.length * 8;
  const width = Math.ceil(pen.measureText(text).width);
  widths.set(text, width);
  return width;
};

/** Lines that a text takes in so much width, broken between words as a browser does. */
export const linesIn = (text: string, width: number): number => {
  const space = textWidth(" ");
  let [lines, used] = [1, 0];
  for (const word of text.split(" ")) {
    const needed = textWidth(word);
    if (used > 0 && used + space + needed > width) {
      lines += 1;
      used = needed;
    } else used += (used > 0 ? space : 0) + needed;
  }
  return lines;
};
