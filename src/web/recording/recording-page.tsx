import { Link, useLocation, useNavigate } from "@tanstack/react-router";
import { memo, type ReactElement, useCallback, useDeferredValue, useEffect, useMemo, useState } from "react";
import type { ShiftSpan } from "../../core/exposure/assessment.ts";
import { countText, spanText, visibleText } from "../../report/index.ts";
import type { ChannelAnswer, FileAnswer } from "../../work/answer.ts";
import type { ChannelSketch } from "../desk/protocol.ts";
import { type Held, useHeld, useShelf, wake } from "../desk/shelf.ts";
import { type Clock, clockOf } from "../parts/clock.ts";
import { daySpan } from "../parts/dates.ts";
import { Marked } from "../parts/marked.tsx";
import { NotKept } from "../recordings/not-kept.tsx";
import { useOwnAddress } from "../recordings/own-address.ts";
import { ProgressLine } from "../recordings/progress-line.tsx";
import { Choices } from "./choices.tsx";
import { Declarations, UndoLine } from "./declarations.tsx";
import { DeclareSheet } from "./declare-sheet.tsx";
import { Episodes } from "./episodes.tsx";
import { Exports } from "./exports.tsx";
import { extentOf, inSeries, seriesIn } from "./extent.ts";
import { GroundsLink } from "./findings-table.tsx";
import { drawOnceOpened } from "./first-drawing.ts";
import { GroundsSheet } from "./grounds-sheet.tsx";
import { unassessed } from "./panel-model.ts";
import { Panels } from "./panels.tsx";
import { findingAt, sheetPlace } from "./places.ts";
import { PrintedGrounds } from "./printed-grounds.tsx";
import { usePrinting } from "./printing.ts";
import { RegimeFocus, underRegime, useRegimeFocus } from "./regime-focus.tsx";
import { regimes } from "./regimes.ts";
import { pageSentence } from "./sentence.ts";
import { SideBySide } from "./side-by-side.tsx";
import { ValuesSheet } from "./values-sheet.tsx";
import { useView, useWidth, type View } from "./view.ts";

const noSketches: readonly ChannelSketch[] = [];

const seriesOf = (one: Held): readonly string[] => seriesIn(one.opened?.channels ?? noSketches);

const chosenRegimes = (one: Held): readonly string[] => (one.settings.regimes.length === 0 ? regimes : one.settings.regimes);

const Basis = ({
  one,
  file,
  clock,
  extent,
}: {
  readonly one: Held;
  readonly file: FileAnswer | null;
  readonly clock: Clock;
  readonly extent: View;
}): ReactElement => {
  const when = clock.elapsed
    ? `${clock.time(extent.to - extent.from)} long, times from its start`
    : `${daySpan(clock, extent.from, extent.to)}, ${clock.zone}`;
  const count = one.opened?.summary?.count;
  const shared = useShelf().some((other) => other.id !== one.id && other.file.name === one.file.name);
  return (
    <p className="lines">
      <span className="tag">{visibleText(one.file.name)}</span>
      {shared && <span>SHA-256 {one.opened?.sha256?.slice(0, 8)}…</span>}
      <span>{when}</span>
      <span>
        <Link to="/recordings/$id/reading" params={{ id: one.id }}>
          {count === undefined ? "How it was read" : `${countText(count.rows)} rows read, ${countText(count.rejected)} left out`}
        </Link>
      </span>
      {file !== null && file.refusal === null && <span>Computed, not reviewed</span>}
    </p>
  );
};

const SeriesChoice = ({
  one,
  series,
  choose,
}: {
  readonly one: Held;
  readonly series: string | null;
  readonly choose: (series: string) => void;
}): ReactElement | null => {
  const all = seriesOf(one);
  const label = one.opened?.channels.find((channel) => channel.series !== null)?.series?.label;
  if (all.length < 2) return null;
  return (
    <p className="inline">
      <label>
        {label}{" "}
        <select value={series ?? ""} onChange={(event) => choose(event.target.value)}>
          {all.map((each) => (
            <option key={each}>{each}</option>
          ))}
        </select>
      </label>
      <span className="quiet">{all.length} recordings stand in this file.</span>
    </p>
  );
};

const ShiftChoice = ({
  file,
  shift,
  choose,
}: {
  readonly file: FileAnswer | null;
  readonly shift: number;
  readonly choose: (shift: number) => void;
}): ReactElement | null => {
  if (file === null || file.shifts.length < 2) return null;
  return (
    <fieldset className="inline" aria-label="Shift shown">
      {file.shifts.map((one, place) => (
        <button
          type="button"
          key={one.from}
          className={place === shift ? "word chosen" : "word"}
          aria-pressed={place === shift}
          onClick={() => choose(place)}
        >
          Shift {place + 1}: {spanText(one.from, one.to, file.zone)}
        </button>
      ))}
    </fieldset>
  );
};

interface SheetsParts {
  readonly one: Held;
  readonly file: FileAnswer | null;
  readonly view: View;
  readonly gap: View | null;
  readonly shift: ShiftSpan | null;
  readonly clock: Clock;
}

const Sheets = ({ one, file, view, gap, shift, clock }: SheetsParts): ReactElement | null => {
  const navigate = useNavigate();
  const hash = useLocation({ select: (location) => location.hash });
  const close = useCallback(() => void navigate({ to: ".", hash: "" }), [navigate]);
  const place = sheetPlace(hash);
  if (place === null) return null;
  const channels = one.opened?.channels ?? [];
  if (place.type === "values") {
    const sketch = channels[place.channel];
    return sketch === undefined ? null : (
      <ValuesSheet id={one.id} sketch={sketch} view={view} clock={clock} settings={one.settings} onClose={close} />
    );
  }
  if (place.type === "declare")
    return (
      <DeclareSheet
        key={place.channel}
        one={one}
        channel={place.channel}
        channels={channels}
        gap={gap}
        shift={shift}
        clock={clock}
        onClose={close}
      />
    );
  const found = file === null ? null : findingAt(file.channels, place);
  return found === null || file === null ? null : (
    <GroundsSheet file={file} channel={found.channel} finding={found.finding} onClose={close} />
  );
};

interface AnswerHeadingParts {
  readonly one: Held;
  readonly file: FileAnswer | null;
  readonly shown: readonly ChannelAnswer[];
}

const AnswerHeading = memo(
  ({ one, file, shown }: AnswerHeadingParts): ReactElement => (
    <h1 className="answer" aria-live="polite">
      {pageSentence(one, file, shown).map((piece) =>
        piece.hash === null ? (
          <Marked key={piece.text} text={piece.text} strong />
        ) : (
          <GroundsLink key={piece.text} hash={piece.hash} label={`${piece.text}: its grounds`}>
            <Marked text={piece.text} strong />
          </GroundsLink>
        ),
      )}
    </h1>
  ),
);

const Caution = (): ReactElement => (
  <p className="small quiet caution">
    What stands here supports a competent person’s judgement and does not replace it. Only the gases of this file were looked at; local law
    and the texts in force decide.{" "}
    <Link to="." hash="words">
      What the words mean
    </Link>
  </p>
);

interface UnderPanelsParts {
  readonly one: Held;
  readonly file: FileAnswer | null;
  readonly shown: readonly ChannelAnswer[];
  readonly looked: readonly ChannelAnswer[];
  readonly clock: Clock;
  readonly extent: View;
  readonly show: (next: View) => void;
}

/** What stands under the panels follows neither the view nor, all of it, each choice: only what a choice changes is rendered. */
const [Said, Chosen, Sides, Above] = [memo(Declarations), memo(Choices), memo(SideBySide), memo(Episodes)];

const UnderPanels = memo(({ one, file, shown, looked, clock, extent, show }: UnderPanelsParts): ReactElement => {
  const printing = usePrinting();
  return (
    <>
      <Sides channels={shown} />
      <Above channels={looked} clock={clock} show={show} />
      <Said one={one} clock={clock} />
      <Chosen one={one} clock={clock} extent={extent} regimes={regimes} />
      {file !== null && <Exports file={file} />}
      <Caution />
      {printing && file !== null && <PrintedGrounds file={file} channels={looked} />}
    </>
  );
});

/** Channels of the shift and the recording shown, all of them and under the regime that the page looks at. */
const useLook = (one: Held, clock: Clock, series: string | null, shift: number) => {
  const [focus, setFocus] = useRegimeFocus();
  const chosen = chosenRegimes(one);
  const regime = focus !== null && chosen.includes(focus) ? focus : null;
  const against = useMemo(() => (regime === null ? chosen : [regime]), [chosen, regime]);
  const file = one.answer;
  const sketches = one.opened?.channels ?? noSketches;
  const channels = useMemo<readonly ChannelAnswer[]>(
    () => (file === null || file.channels.length === 0 ? sketches.map((sketch) => unassessed(sketch, clock)) : file.channels),
    [file, sketches, clock],
  );
  const at = Math.min(shift, Math.max(0, (file?.shifts.length ?? 1) - 1));
  const shown = useMemo(
    () => channels.filter((channel) => channel.shift === at && (channel.series?.value ?? null) === series),
    [channels, at, series],
  );
  const looked = useMemo(() => underRegime(shown, regime), [shown, regime]);
  const lookedAll = useMemo(() => underRegime(channels, regime), [channels, regime]);
  return { setFocus, chosen, regime, against, at, shown, looked, lookedAll };
};

const Answered = ({ one }: { readonly one: Held }): ReactElement => {
  const clock = useMemo(() => clockOf(one.opened?.clock ?? null), [one.opened]);
  const sketches = one.opened?.channels ?? noSketches;
  const [series, setSeries] = useState<string | null>(() => seriesOf(one)[0] ?? null);
  const { shifts } = one.settings;
  const extent = useMemo(() => extentOf(inSeries(sketches, series), shifts), [sketches, series, shifts]);
  const [view, setView] = useView(extent);
  const [shift, setShift] = useState(0);
  const [gap, setGap] = useState<View | null>(null);
  const [isDrawn, setDrawn] = useState(false);
  const file = one.answer;
  const { setFocus, chosen, regime, against, at, shown, looked, lookedAll } = useLook(one, clock, series, shift);
  // The panels show an answer first, the tables under them follow: neither keeps a press waiting for the other.
  const tables = useDeferredValue(useMemo(() => ({ file, shown, looked }), [file, shown, looked]));
  const chooseSeries = (chosen: string): void => {
    setSeries(chosen);
    setView(null);
  };
  return (
    <main className="recording">
      <title>{`${visibleText(one.file.name)}: Lamproom`}</title>
      <AnswerHeading one={one} file={file} shown={looked} />
      <Basis one={one} file={file} clock={clock} extent={extent} />
      <RegimeFocus regimes={chosen} regime={regime} choose={setFocus} />
      {one.progress !== null && <ProgressLine id={one.id} progress={one.progress} />}
      <UndoLine one={one} />
      <SeriesChoice one={one} series={series} choose={chooseSeries} />
      <ShiftChoice
        file={file}
        shift={at}
        choose={(place) => {
          setShift(place);
          setView(shifts[place] ?? null);
        }}
      />
      <Panels
        one={one}
        channels={lookedAll}
        shift={at}
        series={series}
        view={view}
        extent={extent}
        clock={clock}
        setView={setView}
        regimes={against}
        onGap={setGap}
        setDrawn={setDrawn}
      />
      {(isDrawn || file !== null || one.fault !== null) && (
        <UnderPanels one={one} {...tables} clock={clock} extent={extent} show={setView} />
      )}
      <Sheets one={one} file={file} view={view} gap={gap} shift={shifts[at] ?? null} clock={clock} />
    </main>
  );
};

export const RecordingPage = ({ id }: { readonly id: string }): ReactElement => {
  const one = useHeld(id);
  useEffect(() => void wake(id), [id]);
  useOwnAddress(one, id, "/recordings/$id");
  if (one === null) return <NotKept id={id} />;
  if ((one.opened?.channels.length ?? 0) > 0)
    return <Answered key={`${one.id}/${one.opened?.sha256}/${one.opened?.channels.length}`} one={one} />;
  return <NotYet one={one} />;
};

/** The place of the panels, without a sign of its own: their first drawing is made for its width while the page is laid out. */
const PlaceOfPanels = ({ id }: { readonly id: string }): ReactElement => {
  const [measure, width] = useWidth();
  useEffect(() => (width === 0 ? undefined : drawOnceOpened(id, width)), [id, width]);
  return (
    <div className="panels awaited" aria-hidden="true">
      <div className="panel strip">
        <div>
          <div ref={measure} className="measure" />
        </div>
      </div>
    </div>
  );
};

/** A file that has no channels yet: it is being read, asks, or was refused. */
const NotYet = ({ one }: { readonly one: Held }): ReactElement => {
  const asks = one.opened?.questions.filter((question) => question.blocking).length ?? 0;
  const refusal = one.opened?.refusal ?? null;
  const says =
    one.fault !== null
      ? `Lamproom failed while reading this file: ${one.fault}`
      : one.progress !== null
        ? "Reading the file."
        : asks > 0
          ? `This file needs ${asks === 1 ? "an answer" : `${asks} answers`} before anything is computed.`
          : refusal === null
            ? "Reading the file."
            : `${refusal.message} ${refusal.mend}`;
  return (
    <main>
      <title>{`${visibleText(one.file.name)}: Lamproom`}</title>
      <h1 className="answer" aria-live="polite">
        <Marked text={says} />
      </h1>
      <p className="basis">{visibleText(one.file.name)}</p>
      {one.progress !== null && <ProgressLine id={one.id} progress={one.progress} />}
      <PlaceOfPanels id={one.id} />
      {one.progress === null && one.opened !== null && (
        <p className="acts">
          <Link className="act main" to="/recordings/$id/reading" params={{ id: one.id }}>
            {asks > 0 ? "Answer" : "See what was found"}
          </Link>
          <Link className="act" to="/recordings">
            Other files
          </Link>
        </p>
      )}
    </main>
  );
};
