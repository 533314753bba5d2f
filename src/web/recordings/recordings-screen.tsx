import { Link, useNavigate } from "@tanstack/react-router";
import type { ReactElement } from "react";
import { countText } from "../../report/digits.ts";
import { type Held, putAway, takeIn, useShelf } from "../desk/shelf.ts";
import { clockOf } from "../parts/clock.ts";
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
  return clock.elapsed ? `${clock.time(to - from)} long` : `${clock.date(from)}, ${clock.time(from, false)} to ${clock.time(to, false)}`;
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

const Row = ({ one }: { readonly one: Held }): ReactElement => {
  const standing = standingOf(one);
  const readings = (one.opened?.channels ?? []).reduce((sum, channel) => sum + channel.rows, 0);
  return (
    <tr>
      <td className="wide">
        {standing.kind === "question" || standing.kind === "refused" ? (
          <Link to="/recordings/$id/reading" params={{ id: one.id }} className="tag">
            {one.file.name}
          </Link>
        ) : (
          <Link to="/recordings/$id" params={{ id: one.id }} className="tag">
            {one.file.name}
          </Link>
        )}
      </td>
      <td>
        <StandingCell one={one} standing={standing} />
      </td>
      <td className="r">{spanText(one)}</td>
      <td className="num r">{readings > 0 ? countText(readings) : ""}</td>
      <td className="num">
        <button type="button" className="word" aria-label={`Put away ${one.file.name}`} onClick={() => putAway(one.id)}>
          Put away
        </button>
      </td>
    </tr>
  );
};

const plural = (count: number, one: string, many: string): string => `${count} ${count === 1 ? one : many}`;

const sentenceOf = (shelf: readonly Held[]): string => {
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
  ].filter((part) => part !== null);
  const all = plural(shelf.length, "recording", "recordings");
  return parts.length === 0 ? `${all}.` : `${all}: ${parts.join(", ")}.`;
};

const Acts = (): ReactElement => {
  const navigate = useNavigate();
  const opened = (ids: readonly string[]): void => {
    const first = ids[0];
    if (ids.length === 1 && first !== undefined) void navigate({ to: "/recordings/$id", params: { id: first } });
  };
  return (
    <DropPlace onFiles={(files) => opened(takeIn(files))}>
      <button type="button" className="act" onClick={() => void openExamples().then(opened)}>
        Open the example
      </button>
    </DropPlace>
  );
};

const Shelf = ({ shelf }: { readonly shelf: readonly Held[] }): ReactElement => {
  const ordered = [...shelf].sort((a, b) => urgencyOf(a) - urgencyOf(b));
  return (
    <section className="shelf">
      <h2>
        On this page <span className="count">{shelf.length}</span> <span className="aside">gone when the page closes</span>
      </h2>
      <table className="stack">
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
        <tbody>
          {ordered.map((one) => (
            <Row key={one.id} one={one} />
          ))}
        </tbody>
      </table>
    </section>
  );
};

export const RecordingsScreen = (): ReactElement => {
  const shelf = useShelf();
  return (
    <main>
      <title>Recordings: Lamproom</title>
      <h1 className="answer" aria-live="polite">
        {shelf.length === 0 ? "No recordings yet. Drop a file here, or open the example." : <Marked text={sentenceOf(shelf)} />}
      </h1>
      <p className="basis">
        CSV of any sane kind, or SenML JSON, as a detector’s software exports it. It is read and computed in this browser.
      </p>
      <Acts />
      {shelf.length > 0 && <Shelf shelf={shelf} />}
    </main>
  );
};
