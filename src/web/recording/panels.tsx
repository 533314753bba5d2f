import { useNavigate } from "@tanstack/react-router";
import { memo, type ReactElement, useCallback, useEffect, useMemo, useRef, useState } from "react";
import type { ChannelAnswer } from "../../work/answer.ts";
import type { Frame, Stretch } from "../desk/protocol.ts";
import type { Held } from "../desk/shelf.ts";
import type { Clock } from "../parts/clock.ts";
import { FindingsTable } from "./findings-table.tsx";
import { dropEarlyDrawings, earlyWidth } from "./first-drawing.ts";
import { shortGas } from "./gas-names.ts";
import { Plot } from "./panel.tsx";
import { asksOf, shownAtFirst, stripAsks, stripModel } from "./panel-asks.ts";
import { type PanelModel, panelsOf } from "./panel-model.ts";
import { declareHash, valuesHash } from "./places.ts";
import { usePrinting } from "./printing.ts";
import { type ShiftBound, shiftBounds } from "./shift-bounds.ts";
import { standingOf } from "./standing.ts";
import { Axis, Strip, TypedTimes } from "./strip.tsx";
import { useFrame, usePointerView, useViewKeys, useWidth, type View } from "./view.ts";

/** Findings stand beside their panel from this width on; on narrower screens and on paper they stand under it. */
const wide = "screen and (min-width: 1181px)";

/** Names of limits stand beside their lines but on a phone. */
const roomyFrom = "print, (min-width: 721px)";

const useMatch = (asked: string): boolean => {
  const [matches, setMatches] = useState(() => window.matchMedia(asked).matches);
  useEffect(() => {
    const query = window.matchMedia(asked);
    const onChange = (): void => setMatches(query.matches);
    onChange();
    query.addEventListener("change", onChange);
    return () => query.removeEventListener("change", onChange);
  }, [asked]);
  return matches;
};

/** Pixels of a plot on paper, with and without names beside it: recording.css makes panels so wide there. */
const paperWidth = 452;
const paperWidthAlone = 624;

/** The height of what stands beside each panel, so that no blank opens under the plot. */
const useHeights = (): readonly [ReadonlyMap<string, number>, (key: string, height: number) => void] => {
  const [heights, setHeights] = useState<ReadonlyMap<string, number>>(() => new Map());
  const setHeight = useCallback(
    (key: string, height: number) => setHeights((now) => (now.get(key) === height ? now : new Map(now).set(key, height))),
    [],
  );
  return [heights, setHeight];
};

/** Reports the height of an element in whole pixels. */
const useTold = (tell: (height: number) => void) =>
  useCallback(
    (element: HTMLElement | null) => {
      if (element === null) return undefined;
      const observer = new ResizeObserver(() => tell(Math.round(element.clientHeight)));
      observer.observe(element);
      return () => observer.disconnect();
    },
    [tell],
  );

interface BesideParts {
  readonly model: PanelModel;
  readonly one: Held;
  readonly clock: Clock;
  readonly regimes: readonly string[];
  readonly setHeight: (key: string, height: number) => void;
  /** The gap that a declaration would most likely be about, told before the sheet for it opens. */
  readonly tellGap: (channel: number) => void;
}

/** What stands beside a plot does not follow the view: panning leaves it alone. */
const Beside = memo(({ model, one, clock, regimes, setHeight, tellGap }: BesideParts): ReactElement => {
  const navigate = useNavigate();
  const besideOf = useTold(useCallback((height: number) => setHeight(model.key, height), [setHeight, model.key]));
  const gas = shortGas(model.answer.gas) ?? model.answer.name;
  return (
    <div className="beside" ref={besideOf}>
      <FindingsTable
        id={one.id}
        channel={model.answer}
        clock={clock}
        regimes={regimes}
        standing={standingOf(one)}
        declare={() => {
          tellGap(model.sketch.index);
          void navigate({ to: ".", hash: declareHash(model.answer.name) });
        }}
      />
      <p className="small panel-acts">
        <button
          type="button"
          className="word"
          aria-label={`Table of values, ${gas}`}
          onClick={() => void navigate({ to: ".", hash: valuesHash(model.sketch.index) })}
        >
          Table of values
        </button>
      </p>
    </div>
  );
});

interface PanelRowParts extends BesideParts {
  readonly view: View;
  readonly width: number;
  readonly frame: Frame | null;
  readonly onKeyDown: ReturnType<typeof useViewKeys>;
  readonly pointer: ReturnType<typeof usePointerView>;
  readonly said: readonly Stretch[];
  readonly roomy: boolean;
  readonly bounds: readonly ShiftBound[];
  readonly namesBounds: boolean;
}

const PanelRow = ({ view, width, frame, onKeyDown, pointer, said, roomy, bounds, namesBounds, ...beside }: PanelRowParts): ReactElement => {
  const { model, one, clock } = beside;
  const { wheelOn, ...drag } = pointer;
  return (
    <figure className="panel">
      {/* biome-ignore lint/a11y/noStaticElementInteractions: the plot is panned here; the strip above does the same by keys. */}
      <div className="hold" ref={wheelOn} {...drag} onKeyDown={onKeyDown}>
        <Plot {...{ model, frame, view, width, clock, said, roomy, bounds, namesBounds }}>
          <Axis view={view} clock={clock} width={width} own />
        </Plot>
      </div>
      <Beside {...beside} />
      <span className="hid">{one.file.name}</span>
    </figure>
  );
};

const longestGap = (frame: Frame | null, channel: number): View | null =>
  (frame?.panels.find((panel) => panel.channel === channel)?.stretches ?? [])
    .filter((stretch) => stretch.kind === "gap")
    .reduce<View | null>(
      (longest, stretch) => (longest === null || stretch.to - stretch.from > longest.to - longest.from ? stretch : longest),
      null,
    );

/** Hands over the longest gap of a channel in the drawing that stands when it is asked. */
const useGapTeller = (frame: Frame | null, onGap: (gap: View | null) => void): ((channel: number) => void) => {
  const latest = useRef(frame);
  latest.current = frame;
  return useCallback((channel) => onGap(longestGap(latest.current, channel)), [onGap]);
};

/** The drawing of the panels, that of the strip, and the panel which the strip shows: that of the gravest finding. */
const useDrawings = (one: Held, shown: readonly PanelModel[], view: View, extent: View, width: number) => {
  const asks = useSteady(
    useMemo(() => asksOf(shown), [shown]),
    one.opened,
  );
  const frame = useFrame(one.id, view, width, asks, one.settings);
  const first = stripModel(shown);
  const strip = useSteady(
    useMemo(() => stripAsks(first), [first]),
    one.opened,
  );
  const whole = useFrame(one.id, extent, width, strip, one.settings);
  useEffect(dropEarlyDrawings, []);
  useEffect(() => markDrawn(frame !== null, frame?.partial === false && one.answer !== null), [frame, one.answer]);
  return { frame, whole, first };
};

const MoreChannels = ({ count, show }: { readonly count: number; readonly show: () => void }): ReactElement => (
  <p>
    <button type="button" className="word" onClick={show}>
      Show {count} more channels
    </button>
  </p>
);

interface OverviewParts extends Omit<Parameters<typeof Strip>[0], "channel" | "gas"> {
  readonly first: PanelModel | undefined;
  readonly measure: ReturnType<typeof useWidth>[0];
}

/** The whole recording over the panels, and the frame over it that the panels show. */
const Overview = ({ first, measure, frame, view, extent, width, clock, setView, onKeyDown, bounds }: OverviewParts): ReactElement => {
  const gas = first === undefined ? "" : (shortGas(first.answer.gas) ?? first.answer.name);
  return (
    <figure className="panel strip">
      <div>
        <div ref={measure} className="measure" />
        {first !== undefined && (
          <Strip
            frame={frame}
            channel={first.sketch.index}
            gas={gas}
            view={view}
            extent={extent}
            width={width}
            clock={clock}
            setView={setView}
            onKeyDown={onKeyDown}
            bounds={bounds}
          />
        )}
        <Axis view={extent} clock={clock} width={width} />
      </div>
      <TypedTimes view={view} extent={extent} clock={clock} setView={setView} gas={gas} />
    </figure>
  );
};

/** Where nothing stands beside the panels they have their own heights. */
const alone: ReadonlyMap<string, number> = new Map();

interface PanelsParts {
  readonly one: Held;
  readonly channels: readonly ChannelAnswer[];
  readonly shift: number;
  readonly series: string | null;
  readonly view: View;
  readonly extent: View;
  readonly clock: Clock;
  readonly setView: (view: View) => void;
  readonly regimes: readonly string[];
  readonly onGap: (gap: View | null) => void;
  /** Told once the first drawing is painted. */
  readonly setDrawn: (drawn: true) => void;
}

const noStretches: readonly Stretch[] = [];

/** The strip, then one panel a gas on shared time; findings stand beside their panel. */
export const Panels = (parts: PanelsParts): ReactElement => {
  const { one, channels, shift, series, view, extent, clock, setView, regimes, onGap, setDrawn } = parts;
  const [measure, measured] = useWidth(earlyWidth(one.id));
  const [all, setAll] = useState(false);
  const sketches = one.opened?.channels ?? [];
  const printing = usePrinting();
  const beside = useMatch(wide) && !printing;
  const roomy = useMatch(roomyFrom) || printing;
  const [heights, setHeight] = useHeights();
  const models = useMemo(
    () => panelsOf(channels, sketches, shift, series, beside ? heights : alone),
    [channels, sketches, shift, series, beside, heights],
  );
  const shown = useMemo(() => (all || printing ? models : models.slice(0, shownAtFirst)), [all, printing, models]);
  const named = roomy && shown.some((model) => model.lines.length > 0);
  const width = printing ? (named ? paperWidth : paperWidthAlone) : measured;
  const { frame, whole, first } = useDrawings(one, shown, view, extent, printing ? 0 : width);
  useOncePainted(frame !== null, setDrawn);
  const said = frame?.panels.find((panel) => panel.channel === first?.sketch.index)?.stretches ?? noStretches;
  const onKeyDown = useViewKeys(view, extent, setView);
  const pointer = usePointerView(view, extent, setView);
  const tellGap = useGapTeller(frame, onGap);
  const { shifts } = one.settings;
  const bounds = useMemo(() => shiftBounds(shifts, clock, extent), [shifts, clock, extent]);
  return (
    <div className={named ? "panels named" : "panels"}>
      <Overview first={first} measure={measure} {...{ frame: whole, view, extent, width, clock, setView, onKeyDown, bounds }} />
      {shown.map((model) => (
        <PanelRow
          key={model.key}
          {...{ model, one, view, width, clock, regimes, frame, onKeyDown, pointer, roomy, setHeight, tellGap, bounds }}
          // With findings between them, panels do not stand together: each says what it shows.
          namesBounds={model === first || !beside}
          said={model === first || !beside ? noStretches : said}
        />
      ))}
      <div className="panel foot">
        <Axis view={view} clock={clock} width={width} />
      </div>
      {!all && models.length > shownAtFirst && <MoreChannels count={models.length - shownAtFirst} show={() => setAll(true)} />}
    </div>
  );
};

/** Tells once the browser has painted what holds now. */
const useOncePainted = (holds: boolean, tell: (painted: true) => void): void =>
  useEffect(() => {
    if (!holds) return undefined;
    const frame = requestAnimationFrame(() => setTimeout(() => tell(true)));
    return () => cancelAnimationFrame(frame);
  }, [holds, tell]);

/**
 * The value of before as long as it says the same of the same reading: what would be asked a second time in the same
 * words is not asked at all. A file that was read anew may say the same and hold other readings.
 */
const useSteady = <Value,>(value: Value, reading: unknown): Value => {
  const kept = useRef({ value, reading });
  const same = kept.current.reading === reading && JSON.stringify(kept.current.value) === JSON.stringify(value);
  if (!same) kept.current = { value, reading };
  return kept.current.value;
};

/** Marks in the browser's own timeline, for the bench: the first drawing, and the one with means and findings. */
const markDrawn = (drawn: boolean, complete: boolean): void => {
  if (drawn) performance.mark("lamproom-drawn");
  if (complete) performance.mark("lamproom-complete");
};
