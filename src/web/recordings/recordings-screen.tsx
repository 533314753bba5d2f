import { Link, useNavigate } from "@tanstack/react-router";
import { type ReactElement, useEffect, useRef, useState } from "react";
import { countText } from "../../report/digits.ts";
import { visibleText } from "../../report/index.ts";
import {
  bringBack,
  forgetMissing,
  type Held,
  type Missing,
  putAllAway,
  putAway,
  takeIn,
  useShelf,
  useShelfState,
  wake,
} from "../desk/shelf.ts";
import { clockOf } from "../parts/clock.ts";
import { daySpan, hourHere } from "../parts/dates.ts";
import { Marked } from "../parts/marked.tsx";
import { OutcomeMark } from "../parts/marks.tsx";
import { DropPlace } from "./drop-place.tsx";
import { openExamples } from "./examples.ts";
import { ProgressLine } from "./progress-line.tsx";
import { type Standing, standingOf, urgencyOf } from "./standing.ts";

const spanText = (one: Held): string => {
  const channels = one.opened?.channels ?? [];
  if (channels.length === 0) return "";
  const clock = clockOf(one.opened?.clock ?? null);
  const from = Math.min(...channels.map((channel) => channel.from));
  const to = Math.max(...channels.map((channel) => channel.to));
  return clock.elapsed ? `${clock.time(to - from)} long` : daySpan(clock, from, to);
};

/** What tells files of one name apart: when each was taken in, how large it is, how its digest begins. */
const apartText = (one: Held): string => {
  const sha256 = one.opened?.sha256 ?? null;
  const digest = sha256 === null ? "" : `, SHA-256 ${sha256.slice(0, 8)}…`;
  return `taken in ${hourHere(one.takenAt, Date.now())}, ${countText(one.file.size)} bytes${digest}`;
};

const StandingCell = ({ one, standing }: { readonly one: Held; readonly standing: Standing }): ReactElement => {
  if (one.progress !== null) return <ProgressLine id={one.id} progress={one.progress} />;
  return (
    <span className={`standing ${standing.kind}`}>
      <OutcomeMark outcome={standing.kind} />
      <b>{standing.word}</b> <Marked text={standing.why} />
    </span>
  );
};

const Row = ({ one, shared }: { readonly one: Held; readonly shared: boolean }): ReactElement => {
  const standing = standingOf(one);
  const name = visibleText(one.file.name);
  const readings = (one.opened?.channels ?? []).reduce((sum, channel) => sum + channel.rows, 0);
  return (
    <tr>
      <td className="wide">
        {standing.kind === "question" || standing.kind === "refused" ? (
          <Link to="/recordings/$id/reading" params={{ id: one.id }} className="tag">
            {name}
          </Link>
        ) : (
          <Link to="/recordings/$id" params={{ id: one.id }} className="tag">
            {name}
          </Link>
        )}
        {shared && <span className="apart small quiet">{apartText(one)}</span>}
        {one.kept === "said only" && (
          <span className="apart small quiet">
            too large to be kept here: after the page closes, drop it again and what was said of it stands
          </span>
        )}
      </td>
      <td>
        <StandingCell one={one} standing={standing} />
      </td>
      <td className="r">{spanText(one)}</td>
      <td className="num r">{readings > 0 ? countText(readings) : ""}</td>
      <td className="num">
        <button
          type="button"
          className="word"
          aria-label={`Put away ${name}${shared ? `, ${apartText(one)}` : ""}`}
          onClick={() => putAway([one.id])}
        >
          Put away
        </button>
      </td>
    </tr>
  );
};

const plural = (count: number, one: string, many: string): string => `${count} ${count === 1 ? one : many}`;

const sentenceOf = (shelf: readonly Held[], missing: number): string => {
  const kinds = shelf.map((one) => standingOf(one).kind);
  const count = (kind: Standing["kind"]): number => kinds.filter((one) => one === kind).length;
  const parts = [
    count("exceeds") > 0 ? `${count("exceeds")} ${count("exceeds") === 1 ? "exceeds" : "exceed"} a limit` : null,
    count("question") > 0
      ? count("question") === 1
        ? "1 needs an answer before it is read"
        : `${count("question")} need an answer before they are read`
      : null,
    count("refused") > 0 ? `${count("refused")} could not be read` : null,
    count("undetermined") > 0 ? `${count("undetermined")} cannot be told yet` : null,
    count("within") > 0 ? `${count("within")} within on these data` : null,
    count("reading") > 0 ? `${count("reading")} being read` : null,
    missing > 0 ? `${missing} to be dropped again` : null,
  ].filter((part) => part !== null);
  const all = plural(shelf.length + missing, "recording", "recordings");
  return parts.length === 0 ? `${all}.` : `${all}: ${parts.join(", ")}.`;
};

const Acts = (): ReactElement => {
  const navigate = useNavigate();
  const opened = (ids: readonly string[]): void => {
    const first = ids[0];
    if (ids.length === 1 && first !== undefined) void navigate({ to: "/recordings/$id", params: { id: first } });
  };
  return (
    <DropPlace onFiles={(files) => void takeIn(files).then(opened)}>
      <button type="button" className="act" onClick={() => void openExamples().then(opened)}>
        Open the example
      </button>
    </DropPlace>
  );
};

const Heads = (): ReactElement => (
  <thead>
    <tr>
      <th scope="col">File</th>
      <th scope="col">What it shows</th>
      <th scope="col">When</th>
      <th scope="col" className="num">
        Readings
      </th>
      <th scope="col">
        <span className="hid">Acts</span>
      </th>
    </tr>
  </thead>
);

const MissingRow = ({ one }: { readonly one: Missing }): ReactElement => (
  <tr>
    <td className="wide">
      <span className="tag">{visibleText(one.name)}</span>
      <span className="apart small quiet">{countText(one.size)} bytes, too many to be kept here</span>
    </td>
    <td>
      <b>Drop it again.</b> What was said of it is kept and stands as soon as the same bytes are here.
    </td>
    <td />
    <td />
    <td className="num">
      <button
        type="button"
        className="word"
        aria-label={`Forget what was said of ${visibleText(one.name)}`}
        onClick={() => forgetMissing(one.sha256)}
      >
        Forget
      </button>
    </td>
  </tr>
);

/** Where files and words about them stay, in one sentence. */
const KeptLine = (): ReactElement => {
  const { keepsNothing } = useShelfState();
  if (keepsNothing !== null)
    return (
      <p className="small error">
        This browser keeps nothing ({keepsNothing}): files, answers and declarations are gone when the page closes.
      </p>
    );
  return (
    <p className="small quiet">
      Files, all that is said of them and answers for files like them are kept in this browser, on this machine, until they are put away.
      Whoever uses this browser can see them.{" "}
      <button type="button" className="word" onClick={putAllAway}>
        Put all away and forget them
      </button>
    </p>
  );
};

/** Rows keep their places while a file is being read or a pointer is on them; then the most urgent stands first. */
const useSettledOrder = (shelf: readonly Held[], isAimedAt: boolean): readonly Held[] => {
  const kept = useRef<readonly string[]>([]);
  const places = new Map(kept.current.map((id, place) => [id, place]));
  const placeOf = (one: Held): number => places.get(one.id) ?? places.size;
  const still = isAimedAt || shelf.some((one) => standingOf(one).kind === "reading");
  const ordered = [...shelf].sort((a, b) => (still ? placeOf(a) - placeOf(b) : urgencyOf(a) - urgencyOf(b)));
  kept.current = ordered.map((one) => one.id);
  return ordered;
};

const Shelf = ({ shelf, missing }: { readonly shelf: readonly Held[]; readonly missing: readonly Missing[] }): ReactElement => {
  const [isAimedAt, setAimedAt] = useState(false);
  const ordered = useSettledOrder(shelf, isAimedAt);
  const shared = (one: Held): boolean => shelf.some((other) => other !== one && other.file.name === one.file.name);
  return (
    <section className="shelf">
      <h2>
        Here <span className="count">{shelf.length + missing.length}</span>
      </h2>
      <table className="stack">
        <Heads />
        <tbody onPointerEnter={() => setAimedAt(true)} onPointerLeave={() => setAimedAt(false)}>
          {ordered.map((one) => (
            <Row key={one.id} one={one} shared={shared(one)} />
          ))}
          {missing.map((one) => (
            <MissingRow key={one.sha256} one={one} />
          ))}
        </tbody>
      </table>
      <KeptLine />
    </section>
  );
};

/** What the shelf itself has to say, and the way back from putting away. */
const Said = (): ReactElement => {
  const { says, putAway: gone } = useShelfState();
  const names = gone.length === 1 ? visibleText(gone[0]?.file.name ?? "") : `${gone.length} files`;
  return (
    <p className="undo" role="status">
      {says}
      {gone.length > 0 && (
        <>
          {names} put away, and what was said of {gone.length === 1 ? "it" : "them"} forgotten.{" "}
          <button type="button" className="word" onClick={bringBack}>
            Bring {gone.length === 1 ? "it" : "them"} back
          </button>
        </>
      )}
    </p>
  );
};

export const RecordingsScreen = (): ReactElement => {
  const shelf = useShelf();
  const { ready, missing } = useShelfState();
  useEffect(() => void wake(null), []);
  const nothing = shelf.length === 0 && missing.length === 0;
  return (
    <main>
      <title>Recordings: Lamproom</title>
      <h1 className="answer" aria-live="polite">
        {nothing ? (
          ready ? (
            "No recordings yet. Drop a file here, or open the example."
          ) : (
            "Looking for what this browser kept."
          )
        ) : (
          <Marked text={sentenceOf(shelf, missing.length)} />
        )}
      </h1>
      <p className="basis">
        CSV of any sane kind, or SenML JSON, as a detector’s software exports it. It is read and computed in this browser.
      </p>
      <Acts />
      <Said />
      {!nothing && <Shelf shelf={shelf} missing={missing} />}
    </main>
  );
};
