import { type ReactElement, useState } from "react";
import { gasWords, unitText } from "../../report/index.ts";
import type { Settings } from "../desk/protocol.ts";
import { type Held, noSettings, settle } from "../desk/shelf.ts";
import { FaultSummary, type Signed, SignFields, signFaults } from "../parts/form-field.tsx";
import { remember, remembered } from "../parts/remember.ts";

type ByGas = "measurableThresholds" | "deadBands" | "negativeFloors";

const columns: readonly (readonly [ByGas, string, string])[] = [
  ["measurableThresholds", "Measurable from", "a reading from here on is an exposure"],
  ["deadBands", "Shown as 0 up to", "dead band: what a displayed 0 can hide"],
  ["negativeFloors", "Drift down to, below 0", "a lower reading is open above"],
];

type Chosen = Pick<Settings, ByGas | "meansStandForCeilings" | "longShiftModel">;

const chosenOf = ({ measurableThresholds, deadBands, negativeFloors, meansStandForCeilings, longShiftModel }: Settings): Chosen => ({
  measurableThresholds,
  deadBands,
  negativeFloors,
  meansStandForCeilings,
  longShiftModel,
});

const nothingChosen = chosenOf(noSettings);

/** The form begins anew when what stands changes, by an undo too. */
export const siteKey = (settings: Settings): string => JSON.stringify([settings.settingsBy, chosenOf(settings)]);

/** Gases of the file, each with the unit of its channel. */
const gasesOf = (one: Held): readonly (readonly [string, string | null])[] => {
  const found = new Map<string, string | null>();
  for (const { gas, unit } of one.opened?.channels ?? []) if (gas !== null && !found.has(gas)) found.set(gas, unit);
  return [...found];
};

const filled = (texts: Readonly<Record<string, string>>): Readonly<Record<string, string>> =>
  Object.fromEntries(Object.entries(texts).flatMap(([gas, text]) => (text.trim() === "" ? [] : [[gas, text.trim()]])));

const tidied = (chosen: Chosen): Chosen => ({
  ...chosen,
  measurableThresholds: filled(chosen.measurableThresholds),
  deadBands: filled(chosen.deadBands),
  negativeFloors: filled(chosen.negativeFloors),
});

const fieldId = (column: ByGas, gas: string): string => `site-${column}-${gas}`;

const faultsOf = (chosen: Chosen, signed: Signed): readonly { readonly id: string; readonly says: string }[] => [
  ...columns.flatMap(([column, title]) =>
    Object.entries(filled(chosen[column])).flatMap(([gas, text]) =>
      /^\d+([.]\d+)?$/.test(text) && (column !== "measurableThresholds" || Number(text) > 0)
        ? []
        : [
            {
              id: fieldId(column, gas),
              says: `${title}, ${gasWords(gas)}: enter a number ${column === "measurableThresholds" ? "above 0" : "of at least 0"}, not “${text}”`,
            },
          ],
    ),
  ),
  ...signFaults(signed, "site"),
];

const GasTable = ({
  one,
  chosen,
  alter,
}: {
  readonly one: Held;
  readonly chosen: Chosen;
  readonly alter: (part: Partial<Chosen>) => void;
}): ReactElement => (
  <table className="dense stack site">
    <thead>
      <tr>
        <th scope="col">Gas</th>
        {columns.map(([column, title, means]) => (
          <th key={column} scope="col">
            {title}
            <span className="apart quiet">{means}</span>
          </th>
        ))}
      </tr>
    </thead>
    <tbody>
      {gasesOf(one).map(([gas, unit]) => (
        <tr key={gas}>
          <td className="wide">{gasWords(gas)}</td>
          {columns.map(([column, title]) => (
            <td key={column}>
              <span className="stacked-label" aria-hidden="true">
                {title}{" "}
              </span>
              <input
                id={fieldId(column, gas)}
                className="short"
                inputMode="decimal"
                aria-label={`${title}, ${gasWords(gas)}${unit === null ? "" : `, ${unitText(unit)}`}`}
                value={chosen[column][gas] ?? ""}
                onChange={(event) => alter({ [column]: { ...chosen[column], [gas]: event.target.value } })}
              />
              {unit !== null && <span className="u">{unitText(unit)}</span>}
            </td>
          ))}
        </tr>
      ))}
    </tbody>
  </table>
);

const Ticks = ({ chosen, alter }: { readonly chosen: Chosen; readonly alter: (part: Partial<Chosen>) => void }): ReactElement => (
  <>
    <label className="tick">
      <input
        type="checkbox"
        checked={chosen.meansStandForCeilings}
        onChange={(event) => alter({ meansStandForCeilings: event.target.checked })}
      />
      Interval means stand as they are for ceilings, although they can hide peaks
    </label>
    <label className="tick">
      <input
        type="checkbox"
        checked={chosen.longShiftModel !== null}
        onChange={(event) => alter({ longShiftModel: event.target.checked ? "brief-scala-daily" : null })}
      />
      For a shift longer than 8 h also lower the 8-hour limits (Brief and Scala, by the day), as findings of their own
    </label>
  </>
);

/** Choices of the site that no file holds. None is made until a named person makes it. */
export const SiteChoices = ({ one }: { readonly one: Held }): ReactElement => {
  const { settingsBy } = one.settings;
  const [chosen, setChosen] = useState<Chosen>(() => chosenOf(one.settings));
  const [signed, setSigned] = useState<Signed>(() => settingsBy ?? { by: remembered("declared-by") ?? "", reason: "" });
  const [tried, setTried] = useState(false);
  const found = faultsOf(chosen, signed);
  const faults = tried ? found : [];
  const alter = (part: Partial<Chosen>): void => setChosen((now) => ({ ...now, ...part }));
  const send = (): void => {
    setTried(true);
    if (found.length > 0) return;
    const by = { by: signed.by.trim(), reason: signed.reason.trim() };
    remember("declared-by", by.by);
    settle(one.id, { ...tidied(chosen), settingsBy: by }, `Settings chosen by ${by.by}.`);
  };
  return (
    <details className="site-choices" open={settingsBy !== null}>
      <summary>
        Settings for this recording: {settingsBy === null ? "none chosen" : `chosen by ${settingsBy.by}: ${settingsBy.reason}`}
      </summary>
      <form
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          send();
        }}
      >
        <p className="small quiet">What the site has laid down and no file holds. Left blank, nothing is assumed.</p>
        <FaultSummary faults={faults} />
        <GasTable one={one} chosen={chosen} alter={alter} />
        <Ticks chosen={chosen} alter={alter} />
        <SignFields id="site" signed={signed} faults={faults} alter={(part) => setSigned((now) => ({ ...now, ...part }))} />
        <p className="acts">
          <button type="submit" className="act">
            Set these
          </button>
          {settingsBy !== null && (
            <button
              type="button"
              className="word"
              onClick={() => settle(one.id, { ...nothingChosen, settingsBy: null }, "The settings were taken back.")}
            >
              Take them back
            </button>
          )}
        </p>
      </form>
    </details>
  );
};
