/** How wide words are in the face of the labels, for laying them out before they stand anywhere. */
const fontOf = (): string => `600 13px ${getComputedStyle(document.documentElement).getPropertyValue("--face")}`;

const widths = new Map<string, number>();
let pen: CanvasRenderingContext2D | null = null;
let font = "";
let measuredWith = -1;

/** In the weight of the sunlight theme, the widest: a label may be narrower than its place, never wider. */
export const textWidth = (text: string): number => {
  // Until the house's face has come, another one stands in for it: what was measured with that one is measured anew.
  const loaded = [...document.fonts].filter((face) => face.status === "loaded").length;
  if (loaded !== measuredWith) {
    widths.clear();
    measuredWith = loaded;
    font = fontOf();
  }
  const known = widths.get(text);
  if (known !== undefined) return known;
  pen ??= document.createElement("canvas").getContext("2d");
  if (pen === null) return text.length * 8;
  pen.font = font;
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
