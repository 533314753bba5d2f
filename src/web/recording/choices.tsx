import { type ReactElement, useId, useState } from "react";
import type { ShiftSpan } from "../../core/exposure/assessment.ts";
import { MILLISECONDS_PER_DAY } from "../../core/time/index.ts";
import { durationText, SHIFT_LONGER_THAN_A_DAY, sentencesOf } from "../../report/index.ts";
import { longerThanADay } from "../../work/shift-times.ts";
import { type Held, settle } from "../desk/shelf.ts";
import type { Clock } from "../parts/clock.ts";
import { daySpan, typedTime } from "../parts/dates.ts";
import { regimeWords } from "./regimes.ts";
import { SiteChoices, siteKey } from "./site-choices.tsx";
import { spanWords } from "./span-words.ts";
import { UnsampledChoice } from "./unsampled-choice.tsx";
import type { View } from "./view.ts";

const Regimes = ({ one, regimes }: { readonly one: Held; readonly regimes: readonly string[] }): ReactElement => {
  const chosen = one.settings.regimes.length === 0 ? regimes : one.settings.regimes;
  const turn = (regime: string): void => {
    const next = chosen.includes(regime)
      ? chosen.filter((each) => each !== regime)
      : regimes.filter((each) => chosen.includes(each) || each === regime);
    if (next.length > 0) settle(one.id, { regimes: next.length === regimes.length ? [] : next });
  };
  return (
    <fieldset className="choices">
      <legend>Limits of</legend>
      {regimes.map((regime) => (
        <label key={regime} className="tick" title={regimeWords[regime] ?? regime}>
          <input type="checkbox" checked={chosen.includes(regime)} onChange={() => turn(regime)} />
          {regime}
        </label>
      ))}
    </fieldset>
  );
};

const gapText = (ms: number | null): string => (ms === null ? "" : String(ms / 1000));

const GapChoice = ({ one }: { readonly one: Held }): ReactElement => {
  const said = useId();
  const now = one.settings.largestGapMs;
  const [known, setKnown] = useState(now);
  const [text, setText] = useState(gapText(now));
  // Undone, or chosen in another window: the field says what holds.
  if (known !== now) {
    setKnown(now);
    setText(gapText(now));
  }
  const set = (): void => {
    const seconds = Number(text);
    const next = text.trim() === "" || !Number.isFinite(seconds) || seconds <= 0 ? null : Math.round(seconds * 1000);
    if (next !== now)
      settle(
        one.id,
        { largestGapMs: next },
        next === null ? "The largest gap is found from the log again." : `A reading holds at most ${durationText(next / 1000)}.`,
      );
  };
  return (
    <form
      className="inline"
      onSubmit={(event) => {
        event.preventDefault();
        set();
      }}
    >
      <label htmlFor={said}>A reading holds at most</label>
      <input
        id={said}
        className="short"
        inputMode="decimal"
        placeholder="found"
        value={text}
        onChange={(event) => setText(event.target.value)}
        onBlur={set}
      />
      <span>s, then the time is a gap</span>
    </form>
  );
};

const ShiftLine = ({ one, shift, clock }: { readonly one: Held; readonly shift: ShiftSpan; readonly clock: Clock }): ReactElement => (
  <p>
    {daySpan(clock, shift.from, shift.to)}{" "}
    <button
      type="button"
      className="word"
      aria-label={`Take away the shift from ${clock.time(shift.from, false)}`}
      onClick={() => settle(one.id, { shifts: one.settings.shifts.filter((each) => each !== shift) }, "The shift was taken away.")}
    >
      Take away
    </button>
  </p>
);

/** When a shift began and ended, typed on the clock of the recording. */
export const ShiftForm = ({ one, clock, near }: { readonly one: Held; readonly clock: Clock; readonly near: number }): ReactElement => {
  const [from, setFrom] = useState("");
  const [to, setTo] = useState("");
  const [fault, setFault] = useState<string | null>(null);
  const add = (): void => {
    const a = typedTime(from, clock, near);
    let b = typedTime(to, clock, a ?? near);
    // A night shift ends on the next day; its end is typed as a clock time all the same.
    if (a !== null && b !== null && b <= a && !/\d{4}-/.test(to)) b += MILLISECONDS_PER_DAY;
    if (a === null || b === null || b <= a) return setFault("Type when the shift began and ended, for example 06:00 and 14:00.");
    const tooLong = longerThanADay([{ from: a, to: b }]);
    if (tooLong !== null) return setFault(sentencesOf(SHIFT_LONGER_THAN_A_DAY, tooLong));
    setFault(null);
    setFrom("");
    setTo("");
    settle(
      one.id,
      { shifts: [...one.settings.shifts, { from: a, to: b }].sort((x, y) => x.from - y.from) },
      `Shift ${spanWords(clock, a, b, false)} was set.`,
    );
  };
  return (
    <form
      className="inline"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        add();
      }}
    >
      {fault !== null && (
        <p className="error" role="alert">
          {fault}
        </p>
      )}
      <label>
        Shift from <input size={8} value={from} onChange={(event) => setFrom(event.target.value)} />
      </label>
      <label>
        to <input size={8} value={to} onChange={(event) => setTo(event.target.value)} />
      </label>
      <button type="submit" className="act">
        Add the shift
      </button>
    </form>
  );
};

const Shifts = ({ one, clock, extent }: { readonly one: Held; readonly clock: Clock; readonly extent: View }): ReactElement => (
  <fieldset className="choices">
    <legend>Shift times</legend>
    {one.settings.shifts.length === 0 && (
      <p className="small quiet">None: the file is one shift, and what was before and after it is not known.</p>
    )}
    {one.settings.shifts.map((shift) => (
      <ShiftLine key={shift.from} one={one} shift={shift} clock={clock} />
    ))}
    <ShiftForm one={one} clock={clock} near={extent.from} />
  </fieldset>
);

export const Choices = ({
  one,
  clock,
  extent,
  regimes,
}: {
  readonly one: Held;
  readonly clock: Clock;
  readonly extent: View;
  readonly regimes: readonly string[];
}): ReactElement => (
  <section className="settings">
    <h2>What it is set against</h2>
    <div className="columns">
      <Regimes one={one} regimes={regimes} />
      <Shifts one={one} clock={clock} extent={extent} />
      <div>
        <UnsampledChoice one={one} />
        <GapChoice one={one} />
      </div>
    </div>
    <SiteChoices key={siteKey(one.settings)} one={one} />
  </section>
);
