/** Unit conversion: within one kind the point moves; across kinds gas, molar volume and LEL basis are said. */
import { lelBasis, substance, substanceByName } from "../../core/gas/index.ts";
import {
  convertQuantity,
  kindOfUnit,
  type LelBasis,
  MOLAR_VOLUME_EU,
  MOLAR_VOLUME_US,
  type MolarMass,
  type MolarVolume,
  molarVolumeAt,
  molarVolumeFrom62,
  quantity,
  UNITS,
  type Unit,
} from "../../core/quantity/index.ts";
import { given, type Result, refused } from "../../core/result.ts";
import { computedText, exactText, gasWords, type Refusal, valueText } from "../../report/index.ts";
import {
  type Calculator,
  choiceField,
  numberField,
  output,
  type SlateComputed,
  type SlateObject,
  type SlateSource,
} from "./description.ts";

const UNIT_CHOICES = UNITS.map(({ unit }) => [unit, unit] as const);
export const LEL_SOURCES = [
  ["IEC", "IEC 60079-20-1"],
  ["NFPA", "NFPA 497"],
  ["NPG", "NIOSH Pocket Guide"],
  ["BM627", "Bureau of Mines Bulletin 627"],
] as const;

const VOLUMES = [
  ["24.45", "24.45 L/mol (25 °C, 760 mmHg; US figures)"],
  ["24.055", "24.055 L/mol (20 °C, 101.3 kPa; UK and EU figures)"],
  ["at T and P", "from the gas constant at the temperature and pressure below"],
  ["62.4 form", "P M ppm / (62.4 (273.2 + t)) at the temperature and pressure below"],
] as const;

/** 760 mmHg = 101.325 kPa: the definition of the standard atmosphere in both units. */
const MILLIMETRES_PER_KILOPASCAL = 760 / 101.325;

export const UNIT_CALCULATOR: Calculator = {
  id: "unit",
  title: "Unit conversion",
  says: "A concentration in another unit. What the way there rests on has to be said: the gas, the molar volume, the basis of %LEL.",
  inputs: [
    numberField("value", "Value", "The concentration at hand."),
    choiceField("from", "Unit", "Its unit.", UNIT_CHOICES),
    choiceField("to", "Wanted unit", "The unit wanted.", UNIT_CHOICES),
    { type: "gas", name: "gas", title: "Gas", says: "Needed between volume, mass and %LEL.", required: false },
    {
      ...choiceField("molarVolume", "Molar volume", "Needed to and from mass concentrations; fixed by the regime of the limit.", VOLUMES),
      required: false,
    },
    numberField("celsius", "Temperature", "For a molar volume at T and P.", { above: -273.15, unit: "°C", required: false }),
    numberField("kilopascal", "Pressure", "For a molar volume at T and P.", { above: 0, unit: "kPa", required: false }),
    { ...choiceField("lelBasis", "Basis of %LEL", "Which publication's lower explosive limit is 100 %LEL.", LEL_SOURCES), required: false },
  ],
  outputs: [output("value", "Value"), output("unit", "Unit", null, "text")],
  examples: [
    { says: "CO in the US", input: { value: 50, from: "ppm", to: "mg/m3", gas: "carbon_monoxide", molarVolume: "24.45" } },
    { says: "methane, IEC basis", input: { value: 10, from: "%LEL", to: "vol%", gas: "methane", lelBasis: "IEC" } },
    { says: "only the point moves", input: { value: 20.9, from: "vol%", to: "ppm" } },
  ],
  cautions: [
    "Compare a reading with a limit in the unit in which the limit is published. Published pairs of ppm and mg/m³ are rounded and are no exact conversions.",
    'A limit "as F", "as CN" or the like is not converted with the molar mass of the whole molecule.',
  ],
  sources: [{ title: "CCOHS, converting occupational exposure limits", mark: "read" }],
  compute: converted,
};

function converted(input: SlateObject): Result<SlateComputed, Refusal> {
  const gas = gasOf(input["gas"]);
  if (!gas.ok) return gas;
  const [from, to] = [input["from"] as Unit, input["to"] as Unit]; // the choices are the units of the table
  const basis = basisOf(input["lelBasis"], gas.value, from, to);
  if (!basis.ok) return basis;
  const volume = molarVolumeOf(input);
  if (!volume.ok) return volume;
  const isMass = kindOfUnit(from) === "mass concentration";
  const start = quantity({
    value: input["value"] as number,
    unit: from,
    gas: gas.value,
    ...(from === "%LEL" ? { lelBasis: basis.value } : {}),
    ...(isMass ? { molarVolume: volume.value } : {}),
  }); // a number by its check
  if (!start.ok) return start;
  const target = { unit: to, lelBasis: to === "%LEL" ? basis.value : null, molarMass: molarMassOf(gas.value), molarVolume: volume.value };
  const result = convertQuantity(start.value, target);
  if (!result.ok) return result;
  return given(
    computed(input, result.value.value, to, {
      gas: gas.value,
      basis: crossesLel(from, to) ? basis.value : null,
      volume: crossesMass(from, to) ? volume.value : null,
    }),
  );
}

interface Ways {
  readonly gas: string | null;
  readonly basis: LelBasis | null;
  readonly volume: MolarVolume | null;
}

function computed(input: SlateObject, value: number, to: Unit, { gas, basis, volume }: Ways): SlateComputed {
  const from = valueText(input["value"] as number, input["from"] as string); // checked before
  const of = gas === null ? "" : ` of ${gasWords(gas)}`;
  const grounds = [
    ...(basis === null ? [] : [`100 %LEL of ${gasWords(basis.gas)} is ${valueText(basis.lelVolumePercent, "vol%")} (${basis.source}).`]),
    ...(volume === null ? [] : [`Molar volume ${exactText(volume.litresPerMole)} L/mol: ${volume.conditions}.`, ...massGrounds(gas)]),
    ...(basis === null && volume === null ? ["Only the decimal point moves."] : []),
  ];
  const sources: SlateSource[] = volume === null ? [] : [{ title: volume.source, mark: volume.mark }];
  return { outputs: { value, unit: to }, sentence: `${from}${of} is ${computedText(value, to)}.`, outcome: null, grounds, sources };
}

function massGrounds(gas: string | null): string[] {
  const mass = molarMassOf(gas);
  return mass === null ? [] : [`Molar mass of ${gasWords(mass.gas)} ${exactText(mass.gramsPerMole)} g/mol.`];
}

/** The id of the gas that a person names; null where none is named. */
export function gasOf(text: unknown): Result<string | null, Refusal> {
  if (typeof text !== "string") return given(null);
  const found = substanceByName(text);
  return found.ok ? given(found.value.id) : found;
}

function basisOf(source: unknown, gas: string | null, from: Unit, to: Unit): Result<LelBasis | null, Refusal> {
  if (typeof source !== "string" || gas === null || !crossesLel(from, to)) return given(null);
  return lelBasis(gas, source);
}

function molarMassOf(gas: string | null): MolarMass | null {
  const mass = gas === null ? null : (substance(gas)?.molarMassGramsPerMole ?? null);
  return gas === null || mass === null ? null : { gas, gramsPerMole: mass };
}

function molarVolumeOf(input: SlateObject): Result<MolarVolume | null, Refusal> {
  const [celsius, kilopascal] = [input["celsius"], input["kilopascal"]];
  switch (input["molarVolume"]) {
    case "24.45":
      return given(MOLAR_VOLUME_US);
    case "24.055":
      return given(MOLAR_VOLUME_EU);
    case "at T and P":
    case "62.4 form":
      if (typeof celsius !== "number") return refused({ type: "input-missing", path: "celsius" });
      if (typeof kilopascal !== "number") return refused({ type: "input-missing", path: "kilopascal" });
      return given(
        input["molarVolume"] === "62.4 form"
          ? molarVolumeFrom62({ celsius, millimetresOfMercury: kilopascal * MILLIMETRES_PER_KILOPASCAL })
          : molarVolumeAt({ kelvin: celsius + 273.15, pascal: kilopascal * 1000 }),
      );
    default:
      return given(null);
  }
}

const crossesLel = (from: Unit, to: Unit): boolean => from === "%LEL" || to === "%LEL";
const crossesMass = (from: Unit, to: Unit): boolean =>
  (kindOfUnit(from) === "mass concentration") !== (kindOfUnit(to) === "mass concentration");
