import { type ReactElement, useState } from "react";
import type { Unsampled } from "../../core/exposure/assessment.ts";
import { ONE_LEVEL_FOR_SEVERAL_UNITS, sentencesOf } from "../../report/index.ts";
import type { ChannelAnswer } from "../../work/answer.ts";
import { levelForSeveralUnits } from "../../work/one-level.ts";
import { type Held, settle } from "../desk/shelf.ts";
import { FaultSummary, FormField, type Signed, SignFields, signFaults } from "../parts/form-field.tsx";
import { remember, remembered } from "../parts/remember.ts";

type Way = Unsampled["kind"];

/** Where statements about parts of the time stand, this one speaks of the rest alone. */
const openBesideOthers = "nothing is declared for the rest: its upper end stays open";

const ways: readonly (readonly [Way, string])[] = [
  ["open", "nothing is declared: the upper end stays open"],
  ["zero", "nobody was exposed"],
  ["like", "like the sampled time, for the 8-hour average only"],
  ["level", "at most this, at any moment"],
];

interface Draft extends Signed {
  readonly level: string;
}

/** One number for channels of several units means nothing that anybody said; each has a declaration of its own. */
const levelFault = (text: string, channels: readonly ChannelAnswer[]): string | null => {
  if (!/^\d+([.]\d+)?$/.test(text)) return "Enter the highest it can have been, for example 120";
  const refusal = levelForSeveralUnits(
    text,
    channels.filter(({ findings }) => findings.length > 0),
  );
  return refusal === null ? null : sentencesOf(ONE_LEVEL_FOR_SEVERAL_UNITS, refusal);
};

const faultsOf = (way: Way, draft: Draft, one: Held): readonly { readonly id: string; readonly says: string }[] => {
  const says = way === "level" ? levelFault(draft.level.trim(), one.answer?.channels ?? []) : null;
  return [...(says === null ? [] : [{ id: "unsampled-level", says }]), ...signFaults(draft, "unsampled")];
};

/** Asked before anything is taken: a statement about all time without readings decides outcomes, so it needs a name. */
const Signing = ({ one, way, leave }: { readonly one: Held; readonly way: Way; readonly leave: () => void }): ReactElement => {
  const { unsampled } = one.settings;
  const [draft, setDraft] = useState<Draft>(() => ({
    level: unsampled.kind === "level" ? unsampled.text : "",
    by: remembered("declared-by") ?? "",
    reason: "",
  }));
  const [tried, setTried] = useState(false);
  const found = faultsOf(way, draft, one);
  const faults = tried ? found : [];
  const send = (): void => {
    setTried(true);
    if (found.length > 0 || way === "open") return;
    const by = { by: draft.by.trim(), reason: draft.reason.trim() };
    remember("declared-by", by.by);
    settle(
      one.id,
      { unsampled: way === "level" ? { kind: way, text: draft.level.trim() } : { kind: way }, unsampledBy: by },
      `Declared by ${by.by}: all time without readings is taken another way.`,
    );
    leave();
  };
  return (
    <form
      className="signing"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        send();
      }}
    >
      <FaultSummary faults={faults} />
      {way === "level" && (
        <FormField
          id="unsampled-level"
          label="At most, in the unit of each channel"
          fault={faults.find(({ id }) => id === "unsampled-level")?.says}
        >
          <input
            id="unsampled-level"
            inputMode="decimal"
            value={draft.level}
            onChange={(event) => setDraft({ ...draft, level: event.target.value })}
          />
        </FormField>
      )}
      <SignFields id="unsampled" signed={draft} faults={faults} alter={(part) => setDraft({ ...draft, ...part })} />
      <p className="acts">
        <button type="submit" className="act main">
          Declare it for all such time
        </button>
        <button type="button" className="word" onClick={leave}>
          Leave it
        </button>
      </p>
    </form>
  );
};

/** How all time without readings is taken that no other statement speaks of. */
export const UnsampledChoice = ({ one }: { readonly one: Held }): ReactElement => {
  const { unsampled, unsampledBy, declarations } = one.settings;
  const [asked, setAsked] = useState<Way | null>(null);
  const choose = (way: Way): void => {
    if (way === "open") {
      setAsked(null);
      if (unsampled.kind !== "open")
        settle(one.id, { unsampled: { kind: "open" }, unsampledBy: null }, "Taken back: time without readings is open again.");
    } else setAsked(way);
  };
  return (
    <fieldset className="choices lines-choice">
      <legend>Time without readings</legend>
      {ways.map(([way, says]) => (
        <label key={way} className="choice">
          <input type="radio" name="unsampled" checked={(asked ?? unsampled.kind) === way} onChange={() => choose(way)} />
          <span>
            {way === "open" && declarations.length > 0 ? openBesideOthers : says}
            {way === "level" && unsampled.kind === "level" && asked === null && `: ${unsampled.text} in the unit of each channel`}
          </span>
        </label>
      ))}
      {asked !== null && <Signing key={asked} one={one} way={asked} leave={() => setAsked(null)} />}
      {asked === null && unsampled.kind !== "open" && unsampledBy !== null && (
        <p className="small quiet">
          Declared by {unsampledBy.by}: {unsampledBy.reason}
        </p>
      )}
    </fieldset>
  );
};
