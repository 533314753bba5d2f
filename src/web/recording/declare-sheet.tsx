import { type ReactElement, useEffect, useMemo, useState } from "react";
import type { ShiftSpan } from "../../core/exposure/assessment.ts";
import type { Declaration } from "../../core/recording/declaration.ts";
import type { Instant } from "../../core/time/index.ts";
import { durationText } from "../../report/index.ts";
import { desk } from "../desk/desk.ts";
import type { ChannelSketch, Met, Unsettled } from "../desk/protocol.ts";
import { declare, type Held } from "../desk/shelf.ts";
import type { Clock } from "../parts/clock.ts";
import { typedTime } from "../parts/dates.ts";
import { FaultSummary, FormField, SignFields, signFaults } from "../parts/form-field.tsx";
import { remember, remembered } from "../parts/remember.ts";
import { Sheet } from "../parts/sheet.tsx";
import { ShiftForm } from "./choices.tsx";
import { declaredSpan, emptyStatement, type Kind, kinds, metWords, unitLabel } from "./declaration-words.ts";
import { spanWords } from "./span-words.ts";
import type { View } from "./view.ts";

type Holds = "at any moment" | "as an average";

interface Draft {
  readonly kind: Kind | null;
  readonly channel: string;
  /** Key of a stretch that is offered, "whole", or "typed"; null until one is offered. */
  readonly when: string | null;
  readonly from: string;
  readonly to: string;
  readonly level: string;
  readonly holds: Holds;
  readonly by: string;
  readonly reason: string;
}

const needsLevel = (kind: Kind | null): boolean => kind === "worst case" || kind === "over-range bound";

const keyOf = ({ from, to }: View): string => `${from}/${to}`;

/** Stretches of the channel that a statement of this kind could settle; null while the worker looks. */
const useUnsettled = (one: Held, channel: string, shift: ShiftSpan | null): readonly Unsettled[] | null => {
  const { id, settings } = one;
  const [found, setFound] = useState<readonly Unsettled[] | null>(null);
  useEffect(() => {
    let wanted = true;
    void desk()
      .ask({ type: "unsettled", id, channel, shift, settings })
      .reply.then((spans) => wanted && setFound(spans));
    return () => {
      wanted = false;
    };
  }, [id, channel, shift, settings]);
  return found;
};

const offeredFor = (kind: Kind | null, unsettled: readonly Unsettled[]): readonly Unsettled[] => {
  const over = unsettled.filter((span) => span.kind === "over range");
  const unsampled = unsettled.filter((span) => span.kind === "unsampled");
  if (kind === "over-range bound") return over;
  return kind === null && unsampled.length === 0 ? over : unsampled;
};

interface Times {
  readonly from: number | null;
  readonly to: number | null;
}

const wholeOf = (shift: ShiftSpan | null, channels: readonly ChannelSketch[]): View =>
  shift ?? { from: Math.min(...channels.map(({ from }) => from)), to: Math.max(...channels.map(({ to }) => to)) };

const typedTimes = (draft: Draft, clock: Clock, near: number): Times => {
  const from = typedTime(draft.from, clock, near);
  let to = typedTime(draft.to, clock, from ?? near);
  // A stretch across midnight ends on the next day; its end is typed as a clock time all the same.
  if (from !== null && to !== null && to <= from && !clock.elapsed && !/\d{4}-/.test(draft.to)) to += 86_400_000;
  return { from, to };
};

type Fault = { readonly id: string; readonly says: string };

const faultsOf = (draft: Draft, { from, to }: Times): readonly Fault[] => [
  ...(draft.kind === null ? [{ id: "declare-kind", says: "Say which of the four it is" }] : []),
  ...(from === null || to === null || to <= from
    ? [{ id: "declare-from", says: "Enter a start and a later end, for example 11:08 and 11:30" }]
    : []),
  ...(needsLevel(draft.kind) && !/^\d+([.]\d+)?$/.test(draft.level.trim())
    ? [{ id: "declare-level", says: "Enter the highest it can have been, for example 500" }]
    : []),
  ...signFaults(draft, "declare"),
];

const statement = (draft: Draft, { from, to }: Times): Declaration | null => {
  if (draft.kind === null || from === null || to === null || to <= from) return null;
  const person = {
    id: crypto.randomUUID(),
    channel: draft.channel,
    // The times were read on the clock of the recording, which is what the declaration is bound to.
    from: from as Instant,
    to: to as Instant,
    by: draft.by.trim(),
    on: new Date().toISOString().slice(0, 10),
    reason: draft.reason.trim(),
  };
  if (draft.kind === "worst case" || draft.kind === "over-range bound")
    return { ...person, kind: draft.kind, levelText: draft.level.trim() === "" ? "0" : draft.level.trim(), holds: draft.holds };
  return { ...person, kind: draft.kind };
};

const KindChoice = ({
  kind,
  fault,
  choose,
}: {
  readonly kind: Kind | null;
  readonly fault: boolean;
  readonly choose: (kind: Kind) => void;
}): ReactElement => (
  <fieldset className={fault ? "choices lines-choice question wrong" : "choices lines-choice"} id="declare-kind" tabIndex={-1}>
    <legend>What do you say?</legend>
    {kinds.map((each) => (
      <label key={each.kind} className="choice">
        <input type="radio" name="kind" checked={kind === each.kind} onChange={() => choose(each.kind)} />
        <span>
          {each.says}
          <span className="r why">{each.means}</span>
        </span>
      </label>
    ))}
  </fieldset>
);

/** Where a stretch lies among the readings. */
const placeWords = ({ from, to, kind }: Unsettled, channels: readonly ChannelSketch[]): string => {
  if (kind === "over range") return "over range";
  if (to <= Math.min(...channels.map((each) => each.from))) return "before the first reading";
  return from >= Math.max(...channels.map((each) => each.to)) ? "after the last reading" : "no readings";
};

const shownStretches = 6;

interface WhenParts {
  readonly draft: Draft;
  readonly offered: readonly Unsettled[];
  readonly channels: readonly ChannelSketch[];
  readonly shift: ShiftSpan | null;
  readonly clock: Clock;
  readonly fault: string | undefined;
  readonly alter: (part: Partial<Draft>) => void;
}

const When = ({ draft, offered, channels, shift, clock, fault, alter }: WhenParts): ReactElement => {
  const whole = wholeOf(shift, channels);
  const choices: readonly (readonly [string, string])[] = [
    ...offered
      .slice(0, shownStretches)
      .map((span): readonly [string, string] => [
        keyOf(span),
        `${spanWords(clock, span.from, span.to)}, ${durationText((span.to - span.from) / 1000)}: ${placeWords(span, channels)}`,
      ]),
    [
      "whole",
      shift === null
        ? `The whole recording, ${spanWords(clock, whole.from, whole.to)}`
        : `The whole shift, ${spanWords(clock, whole.from, whole.to)}`,
    ],
    ["typed", "Other times"],
  ];
  return (
    <fieldset className="choices lines-choice">
      <legend>When</legend>
      {choices.map(([key, says]) => (
        <label key={key} className="choice">
          <input type="radio" name="when" checked={draft.when === key} onChange={() => alter({ when: key })} />
          <span>{says}</span>
        </label>
      ))}
      {offered.length > shownStretches && <p className="small quiet">{offered.length - shownStretches} shorter ones: type their times.</p>}
      {draft.when === "typed" && (
        <div className="pair">
          <FormField id="declare-from" label="From" fault={fault}>
            <input id="declare-from" value={draft.from} onChange={(event) => alter({ from: event.target.value })} />
          </FormField>
          <FormField id="declare-to" label="To">
            <input id="declare-to" value={draft.to} onChange={(event) => alter({ to: event.target.value })} />
          </FormField>
        </div>
      )}
    </fieldset>
  );
};

interface PartOfDraft {
  readonly draft: Draft;
  readonly channels: readonly ChannelSketch[];
  readonly faults: readonly Fault[];
  readonly alter: (part: Partial<Draft>) => void;
}

const Level = ({ draft, channels, faults, alter }: PartOfDraft): ReactElement => (
  <div className="pair">
    <FormField
      id="declare-level"
      label={`At most, ${unitLabel(channels.find((each) => each.name === draft.channel)?.unit ?? null)}`}
      fault={faults.find(({ id }) => id === "declare-level")?.says}
    >
      <input id="declare-level" inputMode="decimal" value={draft.level} onChange={(event) => alter({ level: event.target.value })} />
    </FormField>
    <FormField id="declare-holds" label="It holds">
      <select
        id="declare-holds"
        value={draft.holds}
        onChange={(event) => alter({ holds: event.target.value === "as an average" ? "as an average" : "at any moment" })}
      >
        <option>at any moment</option>
        <option>as an average</option>
      </select>
    </FormField>
  </div>
);

const ChannelChoice = ({ draft, channels, alter }: Omit<PartOfDraft, "faults">): ReactElement => (
  <FormField id="declare-channel" label="For">
    <select id="declare-channel" value={draft.channel} onChange={(event) => alter({ channel: event.target.value, when: null })}>
      <option value="*">every channel</option>
      {[...new Set(channels.map((each) => each.name))].map((name) => (
        <option key={name} value={name}>
          {name}
        </option>
      ))}
    </select>
  </FormField>
);

/** Without shift times the file is one shift: what was before and after it can be declared once they are set. */
const ShiftFirst = ({ one, clock, inside }: { readonly one: Held; readonly clock: Clock; readonly inside: boolean }): ReactElement => (
  <section className="shift-first">
    <p className="small">
      {inside
        ? "The stretches below lie within the recording. Time before and after it can be declared once the shift times are set."
        : "No time without readings lies within the recording. What is open lies before and after it: say first when the shift began and ended."}
    </p>
    <ShiftForm one={one} clock={clock} near={Math.min(...(one.opened?.channels ?? []).map((each) => each.from))} />
  </section>
);

/** The draft with the stretch that it is about: the one that was pointed at, else the longest. */
const whenOf = (draft: Draft, offered: readonly Unsettled[], gap: View | null): string => {
  if (draft.when === "whole" || draft.when === "typed" || offered.some((span) => keyOf(span) === draft.when)) return draft.when ?? "typed";
  const pointed = gap === null ? undefined : offered.find((span) => span.from < gap.to && span.to > gap.from);
  const first = pointed ?? offered[0];
  return first === undefined ? "typed" : keyOf(first);
};

const timesOf = (draft: Draft, offered: readonly Unsettled[], whole: View, clock: Clock): Times => {
  if (draft.when === "whole") return whole;
  return offered.find((span) => keyOf(span) === draft.when) ?? typedTimes(draft, clock, whole.from);
};

/** What the statement meets, as it stands in the form. */
const useMetNow = (one: Held, declaration: Declaration | null): Met | null => {
  const [met, setMet] = useState<{ readonly key: string; readonly met: Met } | null>(null);
  const key = declaration === null ? "" : `${declaration.kind}/${declaration.channel}/${declaration.from}/${declaration.to}`;
  // The statement is asked about anew when what it says of time changes, not with every letter of its reason.
  // biome-ignore lint/correctness/useExhaustiveDependencies: see above.
  useEffect(() => {
    let wanted = true;
    if (declaration !== null)
      void desk()
        .ask({ type: "met", id: one.id, declarations: [declaration], settings: one.settings })
        .reply.then(([found]) => wanted && found !== undefined && setMet({ key, met: found }));
    return () => {
      wanted = false;
    };
  }, [key, one.id, one.settings]);
  return met?.key === key ? met.met : null;
};

interface DeclareSheetParts {
  readonly one: Held;
  readonly channel: string;
  readonly channels: readonly ChannelSketch[];
  readonly gap: View | null;
  /** The shift shown; null where the file is one shift. */
  readonly shift: ShiftSpan | null;
  readonly clock: Clock;
  readonly onClose: () => void;
}

const useDraft = ({ one, channel, channels, gap, shift, clock }: DeclareSheetParts) => {
  const [typed, setTyped] = useState<Draft>(() => ({
    kind: null,
    channel,
    when: null,
    from: "",
    to: "",
    level: "",
    holds: "at any moment",
    by: remembered("declared-by") ?? "",
    reason: "",
  }));
  const unsettled = useUnsettled(one, typed.channel, shift);
  const offered = useMemo(() => offeredFor(typed.kind, unsettled ?? []), [typed.kind, unsettled]);
  const draft: Draft = { ...typed, when: whenOf(typed, offered, gap) };
  const times = timesOf(draft, offered, wholeOf(shift, channels), clock);
  const declaration = statement(draft, times);
  const met = useMetNow(one, declaration);
  const empty = declaration === null || met === null ? null : emptyStatement(declaration, met, clock, one.settings.shifts.length > 0);
  const alter = (part: Partial<Draft>): void => setTyped((now) => ({ ...now, ...part }));
  return { draft, unsettled, offered, times, declaration, met, empty, alter };
};

/** The form, beside the panels. Nothing is taken before what, who and why are said, and nothing that would settle no time. */
export const DeclareSheet = (parts: DeclareSheetParts): ReactElement => {
  const { one, channels, shift, clock, onClose } = parts;
  const [tried, setTried] = useState(false);
  const { draft, unsettled, offered, times, declaration, met, empty, alter } = useDraft(parts);
  const found = faultsOf(draft, times);
  const faults = tried ? [...found, ...(empty === null ? [] : [{ id: "declare-when", says: empty }])] : [];
  const send = (): void => {
    setTried(true);
    if (found.length > 0 || empty !== null || declaration === null || met === null) return;
    remember("declared-by", draft.by.trim());
    declare(one.id, declaration, `Declared by ${declaration.by}: ${declaration.kind}, ${declaredSpan(declaration, clock)}.`);
    onClose();
  };
  return (
    <Sheet heading="Declare" label="Declare" onClose={onClose}>
      <p className="small quiet">A statement that the readings cannot give. It stands with your name in every finding that rests on it.</p>
      {shift === null && unsettled !== null && (
        <ShiftFirst one={one} clock={clock} inside={unsettled.some((span) => span.kind === "unsampled")} />
      )}
      <form
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          send();
        }}
      >
        <FaultSummary faults={faults} />
        <KindChoice kind={draft.kind} fault={faults.some(({ id }) => id === "declare-kind")} choose={(kind) => alter({ kind })} />
        <ChannelChoice draft={draft} channels={channels} alter={alter} />
        <div id="declare-when" tabIndex={-1}>
          <When
            draft={draft}
            offered={offered}
            channels={channels}
            shift={shift}
            clock={clock}
            fault={faults.find(({ id }) => id === "declare-from")?.says}
            alter={alter}
          />
        </div>
        {needsLevel(draft.kind) && <Level draft={draft} channels={channels} faults={faults} alter={alter} />}
        <p className="small met" role="status">
          {declaration !== null && met !== null && (empty ?? metWords(declaration, met, one))}
        </p>
        <SignFields id="declare" signed={draft} faults={faults} alter={alter} />
        <p className="acts">
          <button type="submit" className="act main">
            Declare it
          </button>
        </p>
      </form>
    </Sheet>
  );
};
