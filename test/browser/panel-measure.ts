/** Looks at panels as they stand on the screen: boxes of words, and the pixels that the series paint. */
import type { Page } from "playwright-core";

/**
 * Every pair of words of a panel that meet, and every word that a series is drawn under, a line each. The series are
 * painted anew on a canvas from the very paths on the screen, so a thin line is seen wherever it runs.
 */
const measure = `(() => {
  const faults = [];
  for (const plot of document.querySelectorAll(".panel .hold .plot")) {
    const origin = plot.getBoundingClientRect();
    const svg = plot.querySelector(".pane > svg").getBoundingClientRect();
    const canvas = document.createElement("canvas");
    canvas.width = Math.ceil(svg.width);
    canvas.height = Math.ceil(svg.height);
    const pen = canvas.getContext("2d", { willReadFrequently: true });
    for (const path of plot.querySelectorAll(".pane .raw, .pane .mean, .pane .thin, .pane .hot")) {
      const place = path.getScreenCTM();
      pen.setTransform(place.a, place.b, place.c, place.d, place.e - svg.left, place.f - svg.top);
      pen.lineWidth = 1;
      pen.stroke(new Path2D(path.getAttribute("d")));
    }
    const words = [...plot.querySelectorAll(".on, .name, .names .limit, .y")].map((word) => ({ word, box: word.getBoundingClientRect() }));
    const gas = plot.getAttribute("aria-label").split(",")[0];
    const says = ({ word }) => gas + " '" + word.textContent.trim() + "'";
    words.forEach((one, at) => {
      for (const other of words.slice(at + 1))
        if (one.box.left < other.box.right - 0.5 && other.box.left < one.box.right - 0.5 && one.box.top < other.box.bottom - 1.5 && other.box.top < one.box.bottom - 1.5)
          faults.push(says(one) + " meets " + says(other));
      const [left, top] = [Math.max(0, one.box.left - svg.left), Math.max(0, one.box.top - svg.top)];
      const [right, foot] = [Math.min(canvas.width, one.box.right - svg.left), Math.min(canvas.height, one.box.bottom - svg.top)];
      if (right - left < 1 || foot - top < 1) return;
      const { data } = pen.getImageData(left, top, right - left, foot - top);
      if (data.some((value, at) => at % 4 === 3 && value > 100)) faults.push(says(one) + " lies over a series");
    });
  }
  return faults;
})()`;

export const faultsOfLabels = (page: Page): Promise<readonly string[]> => page.evaluate(measure);

/** Lays the first label of a panel over what the panel draws: what the measure is for must be found by it. */
export const layOverSeries = (page: Page): Promise<void> =>
  page.evaluate(`(() => {
    const plot = document.querySelector(".panel .hold .plot");
    const label = plot.querySelector(".on");
    const [series, pane] = [plot.querySelector(".pane .raw").getBoundingClientRect(), plot.getBoundingClientRect()];
    label.style.top = series.bottom - pane.top - 9 + "px";
    label.style.left = "100px";
  })()`);

/**
 * What each panel draws, in values of its own axis: between which values the readings and the mean run, and whether
 * the wash above a limit has an area. The same on every screen and on paper, whatever its size.
 */
export interface Drawn {
  readonly gas: string;
  readonly raw: readonly [number, number] | null;
  readonly mean: readonly [number, number] | null;
  readonly wash: boolean;
  readonly inside: boolean;
}

export const drawnPanels = (page: Page): Promise<readonly Drawn[]> => page.evaluate(drawnExpression);

export const drawnExpression = `[...document.querySelectorAll(".panel .hold .plot")].map((plot) => {
  const labels = [...plot.querySelectorAll(".y")].map((label) => {
    const box = label.getBoundingClientRect();
    return { value: Number(label.textContent.replace(/\\u202f/g, "").replace("\\u2212", "-")), y: (box.top + box.bottom) / 2 };
  });
  const [a, b] = [labels.reduce((one, other) => (other.y > one.y ? other : one)), labels.reduce((one, other) => (other.y < one.y ? other : one))];
  const valueAt = (y) => a.value + ((y - a.y) / (b.y - a.y)) * (b.value - a.value);
  const pane = plot.querySelector(".pane").getBoundingClientRect();
  const span = (selector) => {
    const path = plot.querySelector(selector);
    if (path === null || path.getAttribute("d") === "") return null;
    const box = path.getBoundingClientRect();
    return [valueAt(box.bottom), valueAt(box.top)];
  };
  const raw = plot.querySelector(".raw")?.getBoundingClientRect() ?? null;
  return {
    gas: plot.getAttribute("aria-label").split(",")[0],
    raw: span(".raw"),
    mean: span(".mean"),
    wash: (plot.querySelector(".over")?.getAttribute("d") ?? "") !== "",
    inside: raw !== null && raw.top >= pane.top - 1 && raw.bottom <= pane.bottom + 1,
  };
})`;
