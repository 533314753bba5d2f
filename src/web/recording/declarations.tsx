import { useNavigate } from "@tanstack/react-router";
import { type ReactElement, useEffect, useState } from "react";
import type { Declaration } from "../../core/recording/declaration.ts";
import { desk } from "../desk/desk.ts";
import type { Met } from "../desk/protocol.ts";
import { type Held, settle, undo, withdraw } from "../desk/shelf.ts";
import type { Clock } from "../parts/clock.ts";
import { channelWords, declaredSpan, kindSays, levelWords, metWords, unsampledSays } from "./declaration-words.ts";
import { declareHash } from "./places.ts";

/** What each statement meets in the recording, asked anew whenever a choice changes. */
const useMet = ({ id, settings }: Held): readonly Met[] => {
  const [met, setMet] = useState<readonly Met[]>([]);
  useEffect(() => {
    let wanted = true;
    if (settings.declarations.length === 0) setMet([]);
    else
      void desk()
        .ask({ type: "met", id, declarations: settings.declarations, settings })
        .reply.then((found) => wanted && setMet(found));
    return () => {
      wanted = false;
    };
  }, [id, settings]);
  return met;
};

const UnsampledRow = ({ one }: { readonly one: Held }): ReactElement | null => {
  const says = unsampledSays(one);
  const by = one.settings.unsampledBy;
  if (says === null) return null;
  return (
    <tr>
      <td className="wide">
        <b>{says}</b>
      </td>
      <td>every channel</td>
      <td>all time without readings that no other statement speaks of</td>
      <td>{by === null ? "nobody put a name to it" : `${by.by}: ${by.reason}`}</td>
      <td className="num">
        <button
          type="button"
          className="word"
          aria-label={`Take back: ${says}, all time without readings`}
          onClick={() =>
            settle(one.id, { unsampled: { kind: "open" }, unsampledBy: null }, "Taken back: time without readings is open again.")
          }
        >
          Take back
        </button>
      </td>
    </tr>
  );
};

interface DeclaredRowParts {
  readonly one: Held;
  readonly declaration: Declaration;
  readonly met: Met | undefined;
  readonly clock: Clock;
}

const DeclaredRow = ({ one, declaration, met, clock }: DeclaredRowParts): ReactElement => {
  const span = declaredSpan(declaration, clock);
  return (
    <tr>
      <td className="wide">
        <b>{kindSays(declaration.kind)}</b>
        {levelWords(declaration)}
        {met !== undefined && <span className="apart small quiet">{metWords(declaration, met, one)}</span>}
      </td>
      <td>{channelWords(declaration)}</td>
      <td>{span}</td>
      <td>
        {declaration.by}, {declaration.on}: {declaration.reason}
      </td>
      <td className="num">
        <button
          type="button"
          className="word"
          aria-label={`Take back: ${declaration.kind}, ${span}`}
          onClick={() => withdraw(one.id, declaration.id, `Taken back: ${declaration.kind}, ${span}.`)}
        >
          Take back
        </button>
      </td>
    </tr>
  );
};

const DeclaredTable = ({ one, clock }: { readonly one: Held; readonly clock: Clock }): ReactElement => {
  const met = useMet(one);
  return (
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
        <UnsampledRow one={one} />
        {one.settings.declarations.map((declaration, place) => (
          <DeclaredRow key={declaration.id} one={one} declaration={declaration} met={met[place]} clock={clock} />
        ))}
      </tbody>
    </table>
  );
};

/** What persons have said about this recording, each with its reason, and a way to take it back. */
export const Declarations = ({ one, clock }: { readonly one: Held; readonly clock: Clock }): ReactElement => {
  const navigate = useNavigate();
  const count = one.settings.declarations.length + (unsampledSays(one) === null ? 0 : 1);
  return (
    <section className="declarations">
      <h2>
        Declarations <span className="count">{count}</span>
        <span className="aside">
          <button type="button" className="act" onClick={() => void navigate({ to: ".", hash: declareHash("*") })}>
            Declare something
          </button>
        </span>
      </h2>
      {count === 0 ? (
        <p className="small quiet">Nothing is declared: time without readings stays open, and so does what was over range.</p>
      ) : (
        <DeclaredTable one={one} clock={clock} />
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
    {one.heard !== null && ` ${one.heard}`}
    {one.computing && " Computing."}
  </p>
);
