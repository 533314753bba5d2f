/** The normal distribution with mean 0 and standard deviation 1. */
import { assert } from "../result.ts";
import type { Distribution } from "./distribution.ts";

/**
 * Density, both tails and quantile of the standard normal distribution.
 *
 * Tails: rational approximations of W. J. Cody, Mathematics of Computation 23 (1969) 631-637, in the form for the normal
 * integral; relative error below 1e-15. Quantile: M. J. Wichura, Applied Statistics 37 (1988) 477-484, algorithm AS 241
 * (PPND16), relative error about 1e-16. Coefficients from memory; every branch is checked against an independent library and
 * against printed tables.
 *
 * @example
 * ```ts
 * import { normal } from "./normal.ts";
 * normal.quantile(0.95); // => 1.6448536269514722
 * normal.below(1.6448536269514722); // => 0.95
 * normal.above(10); // => 7.61985302416047e-24
 * ```
 */
export const normal: Distribution = {
  density: (x) => INVERSE_ROOT_TWO_PI * Math.exp(-0.5 * x * x),
  below: (x) => (Math.abs(x) <= CENTRE ? 0.5 + central(x) : x < 0 ? tail(-x) : 1 - tail(x)),
  above: (x) => (Math.abs(x) <= CENTRE ? 0.5 - central(x) : x > 0 ? tail(x) : 1 - tail(-x)),
  quantile: normalQuantile,
};

const INVERSE_ROOT_TWO_PI = 0.398_942_280_401_432_7;
const CENTRE = 0.674_489_75;
const ROOT_32 = 5.656_854_249_492_381;

/** The integral from 0 to x, |x| up to the quartile. */
function central(x: number): number {
  const square = x * x;
  return (x * polynomial(CENTRAL_TOP, square)) / polynomial(CENTRAL_BOTTOM, square);
}

/** The probability above y, y beyond the quartile. */
function tail(y: number): number {
  if (y === Number.POSITIVE_INFINITY) return 0;
  // e^(-y²/2) in two factors, of which the first is exact in its argument: y to sixteenths.
  const sixteenths = Math.trunc(y * 16) / 16;
  const weight = Math.exp(-0.5 * sixteenths * sixteenths) * Math.exp(-0.5 * (y - sixteenths) * (y + sixteenths));
  if (y <= ROOT_32) return (weight * polynomial(MIDDLE_TOP, y)) / polynomial(MIDDLE_BOTTOM, y);
  const inverse = 1 / (y * y);
  return (weight * (INVERSE_ROOT_TWO_PI - (inverse * polynomial(FAR_TOP, inverse)) / polynomial(FAR_BOTTOM, inverse))) / y;
}

function normalQuantile(probability: number): number {
  assert(probability >= 0 && probability <= 1, "a probability lies between 0 and 1");
  const fromCentre = probability - 0.5;
  if (Math.abs(fromCentre) <= 0.425) {
    const r = 0.180_625 - fromCentre * fromCentre;
    return (fromCentre * polynomial(QUANTILE_CENTRE_TOP, r)) / polynomial(QUANTILE_CENTRE_BOTTOM, r);
  }
  const smaller = Math.min(probability, 1 - probability);
  if (smaller === 0) return fromCentre < 0 ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
  const r = Math.sqrt(-Math.log(smaller));
  const size =
    r <= 5
      ? polynomial(QUANTILE_MIDDLE_TOP, r - 1.6) / polynomial(QUANTILE_MIDDLE_BOTTOM, r - 1.6)
      : polynomial(QUANTILE_FAR_TOP, r - 5) / polynomial(QUANTILE_FAR_BOTTOM, r - 5);
  return fromCentre < 0 ? -size : size;
}

/** Coefficients from the constant upwards. */
function polynomial(coefficients: readonly number[], x: number): number {
  let sum = 0;
  for (let index = coefficients.length - 1; index >= 0; index--) sum = sum * x + (coefficients[index] as number); // index stays within
  return sum;
}

const CENTRAL_TOP = [18154.981253343561249, 1067.6894854603709582, 161.02823106855587881, 2.2352520354606839287, 0.065682337918207449113];
const CENTRAL_BOTTOM = [45507.789335026729956, 10260.932208618978205, 976.09855173777669322, 47.20258190468824187, 1];
const MIDDLE_TOP = [
  9842.7148383839780218, 11602.651437647350124, 6848.1904505362823326, 2494.5375852903726711, 597.27027639480026226, 93.506656132177855979,
  8.8831497943883759412, 0.39894151208813466764, 1.0765576773720192317e-8,
];
const MIDDLE_BOTTOM = [
  19685.429676859990727, 38912.003286093271411, 34900.952721145977266, 18615.571640885098091, 6485.558298266760755, 1519.377599407554805,
  235.38790178262499861, 22.266688044328115691, 1,
];
const FAR_TOP = [
  2.9112874951168792e-5, 0.001421619193227893466, 0.022235277870649807, 0.1274011611602473639, 0.21589853405795699, 0.02307344176494017303,
];
const FAR_BOTTOM = [7.29751555083966205e-5, 0.00378239633202758244, 0.0659881378689285515, 0.468238212480865118, 1.28426009614491121, 1];
const QUANTILE_CENTRE_TOP = [
  3.387132872796366608, 133.14166789178437745, 1971.5909503065514427, 13731.693765509461125, 45921.953931549871457, 67265.770927008700853,
  33430.575583588128105, 2509.0809287301226727,
];
const QUANTILE_CENTRE_BOTTOM = [
  1, 42.313330701600911252, 687.1870074920579083, 5394.1960214247511077, 21213.794301586595867, 39307.89580009271061, 28729.085735721942674,
  5226.495278852545925,
];
const QUANTILE_MIDDLE_TOP = [
  1.42343711074968357734, 4.6303378461565452959, 5.7694972214606914055, 3.64784832476320460504, 1.27045825245236838258,
  0.24178072517745061177, 0.0227238449892691845833, 7.7454501427834140764e-4,
];
const QUANTILE_MIDDLE_BOTTOM = [
  1, 2.05319162663775882187, 1.6763848301838038494, 0.68976733498510000455, 0.14810397642748007459, 0.0151986665636164571966,
  5.475938084995344946e-4, 1.05075007164441684324e-9,
];
const QUANTILE_FAR_TOP = [
  6.6579046435011037772, 5.4637849111641143699, 1.7848265399172913358, 0.29656057182850489123, 0.026532189526576123093,
  0.0012426609473880784386, 2.71155556874348757815e-5, 2.01033439929228813265e-7,
];
const QUANTILE_FAR_BOTTOM = [
  1, 0.59983220655588793769, 0.13692988092273580531, 0.0148753612908506148525, 7.868691311456132591e-4, 1.8463183175100546818e-5,
  1.4215117583164458887e-7, 2.04426310338993978564e-15,
];
