import { useNavigate } from "@tanstack/react-router";
import { type ReactElement, useState } from "react";
import type { Declaration } from "../../core/recording/declaration.ts";
import type { Instant } from "../../core/time/index.ts";
import { unitText } from "../../report/index.ts";
import type { ChannelSketch } from "../desk/protocol.ts";
import { declare, type Held, undo, withdraw } from "../desk/shelf.ts";
import type { Clock } from "../parts/clock.ts";
import { typedTime } from "../parts/dates.ts";
import { remember, remembered } from "../parts/remember.ts";
import { Sheet } from "../parts/sheet.tsx";
import { declareHash } from "./places.ts";
import type { View } from "./view.ts";

type Kind = Declaration["kind"];
type Holds = "at any moment" | "as an average";

const kinds: readonly { readonly kind: Kind; readonly says: string; readonly means: string }[] = [
  { kind: "unexposed", says: "Nobody was exposed", means: "The time counts as nought: a break, a cradle, a day off." },
  {
    kind: "like the sampled time",
    says: "It was like the sampled time",
    means: "Serves averages over the whole period, never a short window.",
  },
  { kind: "worst case", says: "It was at most so much", means: "An upper bound for time without readings." },
  { kind: "over-range bound", says: "Over range it was at most so much", means: "An upper bound for readings beyond the sensor’s range." },
];

const spanWords = (declaration: Declaration, clock: Clock): string => {
  if (declaration.from === null && declaration.to === null) return "the whole recording";
  const from = declaration.from === null ? "its start" : clock.time(declaration.from);
  const to = declaration.to === null ? "its end" : clock.time(declaration.to);
  return `${from} to ${to}`;
};

const levelWords = (declaration: Declaration): string =>
  "levelText" in declaration ? ` ${declaration.levelText}, ${declaration.holds}` : "";

const channelWords = (declaration: Declaration): string => (declaration.channel === "*" ? "every channel" : declaration.channel);

/** What persons have said about this recording, each with its reason, and a way to take it back. */
export const Declarations = ({ one, clock }: { readonly one: Held; readonly clock: Clock }): ReactElement => {
  const navigate = useNavigate();
  const { declarations } = one.settings;
  return (
    <section className="declarations">
      <h2>
        Declarations <span className="count">{declarations.length}</span>
        <span className="aside">
          <button type="button" className="act" onClick={() => void navigate({ to: ".", hash: declareHash("*") })}>
            Declare something
          </button>
        </span>
      </h2>
      {declarations.length === 0 && (
        <p className="small quiet">Nothing is declared: time without readings stays open, and so does what was over range.</p>
      )}
      {declarations.length > 0 && (
        <table className="dense stack">
          <thead>
            <tr>
              <th scope="col">What</th>
              <th scope="col">For</th>
              <th scope="col">When</th>
              <th scope="col">Who and why</th>
              <th scope="col">
                <span className="hid">Acts</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {declarations.map((declaration) => (
              <tr key={declaration.id}>
                <td className="wide">
                  <b>{kinds.find((kind) => kind.kind === declaration.kind)?.says}</b>
                  {levelWords(declaration)}
                </td>
                <td>{channelWords(declaration)}</td>
                <td>{spanWords(declaration, clock)}</td>
                <td>
                  {declaration.by}, {declaration.on}: {declaration.reason}
                </td>
                <td className="num">
                  <button
                    type="button"
                    className="word"
                    aria-label={`Take back: ${declaration.kind}, ${spanWords(declaration, clock)}`}
                    onClick={() => withdraw(one.id, declaration.id, `Taken back: ${declaration.kind}, ${spanWords(declaration, clock)}.`)}
                  >
                    Take back
                  </button>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </section>
  );
};

/** An undo stands in place, without a clock that runs out. */
export const UndoLine = ({ one }: { readonly one: Held }): ReactElement => (
  <p className="undo" role="status">
    {one.undo !== null && (
      <>
        {one.undo.says}{" "}
        <button type="button" className="word" onClick={() => undo(one.id)}>
          Undo
        </button>
      </>
    )}
    {one.computing && " Computing."}
  </p>
);

interface Draft {
  readonly kind: Kind;
  readonly channel: string;
  readonly whole: boolean;
  readonly from: string;
  readonly to: string;
  readonly level: string;
  readonly holds: Holds;
  readonly by: string;
  readonly reason: string;
}

type Faults = { readonly [Field in "from" | "level" | "by" | "reason"]?: string };

const faultsOf = (draft: Draft, from: number | null, to: number | null): Faults => ({
  ...(!draft.whole && (from === null || to === null || to <= from)
    ? { from: "Enter a start and a later end, for example 11:08 and 11:30" }
    : {}),
  ...(needsLevel(draft.kind) && !/^\d+([.]\d+)?$/.test(draft.level.trim())
    ? { level: "Enter the highest it can have been, for example 500" }
    : {}),
  ...(draft.by.trim() === "" ? { by: "Enter the name of the person who says so" } : {}),
  ...(draft.reason.trim() === "" ? { reason: "Enter the reason, for example: in the cradle, log of the lamp room" } : {}),
});

const needsLevel = (kind: Kind): boolean => kind === "worst case" || kind === "over-range bound";

const made = (draft: Draft, from: number | null, to: number | null): Declaration => {
  const person = {
    id: crypto.randomUUID(),
    channel: draft.channel,
    // The times were read on the clock of the recording, which is what the declaration is bound to.
    from: draft.whole ? null : (from as Instant | null),
    to: draft.whole ? null : (to as Instant | null),
    by: draft.by.trim(),
    on: new Date().toISOString().slice(0, 10),
    reason: draft.reason.trim(),
  };
  if (draft.kind === "worst case" || draft.kind === "over-range bound")
    return { ...person, kind: draft.kind, levelText: draft.level.trim(), holds: draft.holds };
  return { ...person, kind: draft.kind };
};

const Field = ({
  name,
  label,
  fault,
  children,
}: {
  readonly name: string;
  readonly label: string;
  readonly fault: string | undefined;
  readonly children: ReactElement;
}): ReactElement => (
  <div className={fault === undefined ? "field" : "field wrong"}>
    <label htmlFor={`declare-${name}`}>{label}</label>
    {fault !== undefined && (
      <p className="error" id={`declare-${name}-fault`}>
        {fault}
      </p>
    )}
    {children}
  </div>
);

const KindChoice = ({ kind, choose }: { readonly kind: Kind; readonly choose: (kind: Kind) => void }): ReactElement => (
  <fieldset className="choices lines-choice">
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

const FaultSummary = ({ faults }: { readonly faults: Faults }): ReactElement | null => {
  if (Object.keys(faults).length === 0) return null;
  return (
    <div className="error" role="alert">
      {Object.entries(faults).map(([name, fault]) => (
        <p key={name}>
          <a
            href={`#declare-${name}`}
            onClick={(event) => {
              event.preventDefault();
              document.getElementById(`declare-${name}`)?.focus();
            }}
          >
            {fault}
          </a>
        </p>
      ))}
    </div>
  );
};

const blankDraft = (channel: string, clock: Clock, near: View): Draft => ({
  kind: "unexposed",
  channel,
  whole: false,
  from: clock.time(near.from),
  to: clock.time(near.to),
  level: "",
  holds: "at any moment",
  by: remembered("declared-by") ?? "",
  reason: "",
});

interface WhatForParts {
  readonly draft: Draft;
  readonly channels: readonly ChannelSketch[];
  readonly faults: Faults;
  readonly alter: (part: Partial<Draft>) => void;
}

const Level = ({ draft, channels, faults, alter }: WhatForParts): ReactElement => {
  const unit = channels.find((each) => each.name === draft.channel)?.unit ?? null;
  return (
    <div className="pair">
      <Field name="level" label={unit === null ? "At most, in the unit of the channel" : `At most, ${unitText(unit)}`} fault={faults.level}>
        <input id="declare-level" inputMode="decimal" value={draft.level} onChange={(event) => alter({ level: event.target.value })} />
      </Field>
      <Field name="holds" label="It holds" fault={undefined}>
        <select
          id="declare-holds"
          value={draft.holds}
          onChange={(event) => alter({ holds: event.target.value === "as an average" ? "as an average" : "at any moment" })}
        >
          <option>at any moment</option>
          <option>as an average</option>
        </select>
      </Field>
    </div>
  );
};

/** Which channel, when, and how much. */
const WhatFor = ({ draft, channels, faults, alter }: WhatForParts): ReactElement => {
  return (
    <>
      <Field name="channel" label="For" fault={undefined}>
        <select id="declare-channel" value={draft.channel} onChange={(event) => alter({ channel: event.target.value })}>
          <option value="*">every channel</option>
          {[...new Set(channels.map((each) => each.name))].map((name) => (
            <option key={name} value={name}>
              {name}
            </option>
          ))}
        </select>
      </Field>
      <label className="tick">
        <input type="checkbox" checked={draft.whole} onChange={(event) => alter({ whole: event.target.checked })} /> The whole recording
      </label>
      {!draft.whole && (
        <div className="pair">
          <Field name="from" label="From" fault={faults.from}>
            <input id="declare-from" value={draft.from} onChange={(event) => alter({ from: event.target.value })} />
          </Field>
          <Field name="to" label="To" fault={undefined}>
            <input id="declare-to" value={draft.to} onChange={(event) => alter({ to: event.target.value })} />
          </Field>
        </div>
      )}
      {needsLevel(draft.kind) && <Level draft={draft} channels={channels} faults={faults} alter={alter} />}
    </>
  );
};

interface DeclareSheetParts {
  readonly one: Held;
  readonly channel: string;
  readonly channels: readonly ChannelSketch[];
  readonly gap: View | null;
  readonly view: View;
  readonly clock: Clock;
  readonly onClose: () => void;
}

/** The form, beside the panels. Nothing is taken before who and why are said. */
export const DeclareSheet = ({ one, channel, channels, gap, view, clock, onClose }: DeclareSheetParts): ReactElement => {
  const near = gap ?? view;
  const [draft, setDraft] = useState<Draft>(() => blankDraft(channel, clock, near));
  const [tried, setTried] = useState(false);
  const alter = (part: Partial<Draft>): void => setDraft({ ...draft, ...part });
  const from = typedTime(draft.from, clock, near.from);
  const to = typedTime(draft.to, clock, near.from);
  const faults = tried ? faultsOf(draft, from, to) : {};
  const send = (): void => {
    setTried(true);
    if (Object.keys(faultsOf(draft, from, to)).length > 0) return;
    remember("declared-by", draft.by.trim());
    const declaration = made(draft, from, to);
    declare(one.id, declaration, `Declared by ${declaration.by}: ${declaration.kind}, ${spanWords(declaration, clock)}.`);
    onClose();
  };
  return (
    <Sheet heading="Declare" label="Declare" onClose={onClose}>
      <p className="small quiet">A statement that the readings cannot give. It stands with your name in every finding that rests on it.</p>
      <form
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          send();
        }}
      >
        <FaultSummary faults={faults} />
        <KindChoice kind={draft.kind} choose={(kind) => alter({ kind })} />
        <WhatFor draft={draft} channels={channels} faults={faults} alter={alter} />
        <Field name="by" label="Who says so" fault={faults.by}>
          <input id="declare-by" autoComplete="name" value={draft.by} onChange={(event) => alter({ by: event.target.value })} />
        </Field>
        <Field name="reason" label="Why" fault={faults.reason}>
          <input id="declare-reason" value={draft.reason} onChange={(event) => alter({ reason: event.target.value })} />
        </Field>
        <p className="acts">
          <button type="submit" className="act main">
            Declare it
          </button>
        </p>
      </form>
    </Sheet>
  );
};
