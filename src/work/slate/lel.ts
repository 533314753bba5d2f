/** A flammable reading on another basis: the same air reads differently in %LEL after IEC and after NFPA. */
import { lelBases, lelBasis } from "../../core/gas/index.ts";
import { convertQuantity, type LelBasis, type Quantity, quantity, type Unit } from "../../core/quantity/index.ts";
import { given, type Result, refused } from "../../core/result.ts";
import { computedText, exactText, gasWords, type Refusal, type SlateRefusal, unitText, valueText } from "../../report/index.ts";
import { type Calculator, choiceField, numberField, output, type SlateComputed, type SlateObject } from "./description.ts";
import { gasOf, LEL_SOURCES } from "./unit.ts";

export const LEL_CALCULATOR: Calculator = {
  id: "lel",
  title: "%LEL on every basis",
  says: "What a reading in %LEL, vol % or ppm of one flammable gas is on each published basis.",
  inputs: [
    { type: "gas", name: "gas", title: "Gas", says: "The gas that is really there; the reading has to be one of it.", required: true },
    numberField("value", "Reading", "The reading."),
    choiceField("unit", "Unit", "Its unit.", [
      ["%LEL", "%LEL"],
      ["vol%", "vol %"],
      ["ppm", "ppm"],
    ]),
    {
      ...choiceField(
        "basis",
        "Basis of the reading",
        "Which lower explosive limit the instrument takes as 100 %LEL; needed for a reading in %LEL.",
        LEL_SOURCES,
      ),
      required: false,
    },
  ],
  outputs: [
    output("volumePercent", "Volume fraction", "vol%"),
    output("ppm", "Volume fraction", "ppm"),
    output("bases", "On each basis", null, "rows", [
      output("basis", "Basis", null, "text"),
      output("lelVolumePercent", "100 %LEL is", "vol%"),
      output("percentLel", "Reading", "%LEL"),
    ]),
  ],
  examples: [
    { says: "10 %LEL of methane as an IEC instrument shows it", input: { gas: "methane", value: 10, unit: "%LEL", basis: "IEC" } },
    { says: "0.5 vol % of propane", input: { gas: "propane", value: 0.5, unit: "vol%" } },
  ],
  cautions: [
    "A sensor set up with one gas reads another gas wrong: this moves between bases of one gas and corrects no sensor.",
    "%LEL says nothing of poison: 10 % of the LEL of toluene is above every toxic limit.",
  ],
  sources: [],
  compute: onEveryBasis,
};

function onEveryBasis(input: SlateObject): Result<SlateComputed, Refusal> {
  const gas = gasOf(input["gas"]);
  if (!gas.ok) return gas;
  const id = gas.value ?? "";
  const start = readingOf(input, id);
  if (!start.ok) return start;
  const share = convertQuantity(start.value, { unit: "vol%" });
  if (!share.ok) return share;
  const outOfRange = noShareOfAir(share.value.value, input);
  if (outOfRange !== null) return refused(outOfRange);
  const bases = lelBases(id);
  if (bases.length === 0) return refused({ type: "no-flammable-limit", gas: id });
  const ppm = convertQuantity(share.value, { unit: "ppm" });
  if (!ppm.ok) return ppm;
  const rows: SlateObject[] = [];
  for (const basis of bases) {
    const percent = convertQuantity(share.value, { unit: "%LEL", lelBasis: basis });
    if (!percent.ok) return percent;
    rows.push({ basis: basis.source, lelVolumePercent: basis.lelVolumePercent, percentLel: percent.value.value });
  }
  const said = rows.map((row) => `${computedText(row["percentLel"] as number, "%LEL")} after ${row["basis"] as string}`).join(", "); // rows as just made
  return given({
    outputs: { volumePercent: share.value.value, ppm: ppm.value.value, bases: rows },
    sentence: `${valueText(input["value"] as number, input["unit"] as string)} of ${gasWords(id)} is ${computedText(share.value.value, "vol%")}: ${said}.`, // checked before
    outcome: null,
    grounds: bases.map(
      (basis) => `100 %LEL of ${gasWords(id)} is ${exactText(basis.lelVolumePercent)} vol %: ${basis.title}${hot(basis)}.`,
    ),
    sources: bases.map(({ title, mark }) => ({ title, mark })),
  });
}

/** A gas is a share of the air: below nought or above all of it is a slip of the finger, whatever the unit. */
function noShareOfAir(volumePercent: number, input: SlateObject): SlateRefusal | null {
  if (volumePercent >= 0 && volumePercent <= 100) return null;
  const unit = input["unit"] as Unit; // one of the choices
  const found = valueText(input["value"] as number, unit); // a number by its check
  const expected = `from 0 ${unitText(unit)} on, and no more than 100 vol % of the air`;
  return { type: "input-not-fitting", path: "value", found, expected };
}

function hot(basis: { readonly measuredAtCelsius: number | null }): string {
  return basis.measuredAtCelsius === null ? "" : `, measured at ${exactText(basis.measuredAtCelsius)} °C`;
}

function readingOf(input: SlateObject, gas: string): Result<Quantity, Refusal> {
  const unit = input["unit"] as Unit; // one of the choices
  const value = input["value"] as number; // a number by its check
  if (unit !== "%LEL") return quantity({ value, unit, gas });
  if (typeof input["basis"] !== "string") return refused({ type: "input-missing", path: "basis" });
  const basis: Result<LelBasis, Refusal> = lelBasis(gas, input["basis"]);
  return basis.ok ? quantity({ value, unit, gas, lelBasis: basis.value }) : basis;
}
