/** The straight line through points by least squares. */
import { given, type Result, refused } from "../result.ts";
import { compensatedSum } from "./compensated-sum.ts";

export interface Point {
  readonly x: number;
  readonly y: number;
}

export interface Line {
  readonly intercept: number;
  readonly slope: number;
  readonly interceptDeviation: number;
  readonly slopeDeviation: number;
  readonly covariance: number;
  /** Standard deviation of the residuals, with n - 2 in the divisor. */
  readonly residualDeviation: number;
  readonly residualSquares: number;
  readonly degreesOfFreedom: number;
  /** Share of the spread of y that the line explains; null where y does not vary. */
  readonly determination: number | null;
}

export type LineRefusal =
  | { readonly type: "too-few-points"; readonly count: number; readonly needed: number }
  | { readonly type: "all-at-one-place" };

/**
 * Ordinary least squares, y on x.
 *
 *     b = Σ (x - x̄)(y - ȳ) / Σ (x - x̄)²      a = ȳ - b x̄      s² = Σ (y - a - b x)² / (n - 2)
 *     u(b)² = s² / Σ (x - x̄)²      u(a)² = s² (1/n + x̄² / Σ (x - x̄)²)      u(a, b) = -x̄ u(b)²
 *
 * (JCGM 100:2008, GUM, H.3. Checked against NIST StRD, linear regression, and the worked example of the guide.)
 *
 * @param points at least 3, not all at one x.
 * @example
 * ```ts
 * import { lineThrough } from "./line.ts";
 * const line = lineThrough([{ x: 0, y: 1 }, { x: 1, y: 3 }, { x: 2, y: 5 }]);
 * line.ok && [line.value.intercept, line.value.slope]; // => [1, 2]
 * ```
 */
export function lineThrough(points: readonly Point[]): Result<Line, LineRefusal> {
  const count = points.length;
  if (count < 3) return refused({ type: "too-few-points", count, needed: 3 });
  const sum = (of: (point: Point) => number): number => compensatedSum(count, (index) => of(points[index] as Point)); // below count
  const middleX = sum(({ x }) => x) / count;
  const middleY = sum(({ y }) => y) / count;
  const spread = sum(({ x }) => (x - middleX) ** 2);
  if (!(spread > 0)) return refused({ type: "all-at-one-place" });
  const slope = sum(({ x, y }) => (x - middleX) * (y - middleY)) / spread;
  const residualSquares = sum(({ x, y }) => (y - middleY - slope * (x - middleX)) ** 2);
  const total = sum(({ y }) => (y - middleY) ** 2);
  const variance = residualSquares / (count - 2);
  return given({
    intercept: middleY - slope * middleX,
    slope,
    interceptDeviation: Math.sqrt(variance * (1 / count + middleX ** 2 / spread)),
    slopeDeviation: Math.sqrt(variance / spread),
    covariance: (-middleX * variance) / spread,
    residualDeviation: Math.sqrt(variance),
    residualSquares,
    degreesOfFreedom: count - 2,
    determination: total > 0 ? 1 - residualSquares / total : null,
  });
}

/**
 * Least squares through the origin, for a span with a fixed zero.
 *
 *     b = Σ x y / Σ x²      s² = Σ (y - b x)² / (n - 1)      u(b)² = s² / Σ x²
 *
 * @param points at least 2, not all at x = 0.
 * @example
 * ```ts
 * import { lineThroughOrigin } from "./line.ts";
 * const line = lineThroughOrigin([{ x: 1, y: 2 }, { x: 2, y: 4 }]);
 * line.ok && line.value.slope; // => 2
 * ```
 */
export function lineThroughOrigin(
  points: readonly Point[],
): Result<Pick<Line, "slope" | "slopeDeviation" | "residualSquares" | "degreesOfFreedom">, LineRefusal> {
  const count = points.length;
  if (count < 2) return refused({ type: "too-few-points", count, needed: 2 });
  const sum = (of: (point: Point) => number): number => compensatedSum(count, (index) => of(points[index] as Point)); // below count
  const squares = sum(({ x }) => x * x);
  if (!(squares > 0)) return refused({ type: "all-at-one-place" });
  const slope = sum(({ x, y }) => x * y) / squares;
  const residualSquares = sum(({ x, y }) => (y - slope * x) ** 2);
  return given({ slope, slopeDeviation: Math.sqrt(residualSquares / (count - 1) / squares), residualSquares, degreesOfFreedom: count - 1 });
}
