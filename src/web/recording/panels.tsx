import { useNavigate } from "@tanstack/react-router";
import { type ReactElement, useEffect, useMemo, useState } from "react";
import type { ChannelAnswer } from "../../work/answer.ts";
import type { PanelAsk, Stretch } from "../desk/protocol.ts";
import type { Held } from "../desk/shelf.ts";
import type { Clock } from "../parts/clock.ts";
import { FindingsTable } from "./findings-table.tsx";
import { shortGas } from "./gas-names.ts";
import { Plot } from "./panel.tsx";
import { type PanelModel, panelsOf } from "./panel-model.ts";
import { declareHash, valuesHash } from "./places.ts";
import { Axis, Strip, stripHeight, TypedTimes } from "./strip.tsx";
import { useFrame, usePointerView, useViewKeys, useWidth, type View } from "./view.ts";

const shownAtFirst = 8;

const wide = "(min-width: 1181px)";

/** Whether findings stand beside their panel; on narrow screens they stand under it. */
const useBeside = (): boolean => {
  const [beside, setBeside] = useState(() => window.matchMedia(wide).matches);
  useEffect(() => {
    const query = window.matchMedia(wide);
    const onChange = (): void => setBeside(query.matches);
    query.addEventListener("change", onChange);
    return () => query.removeEventListener("change", onChange);
  }, []);
  return beside;
};

const asksOf = (models: readonly PanelModel[]): readonly PanelAsk[] =>
  models.map(({ sketch, height, scale, windowMs, limit }) => ({ channel: sketch.index, height, scale, windowMs, limit }));

interface PanelRowParts {
  readonly model: PanelModel;
  readonly one: Held;
  readonly view: View;
  readonly width: number;
  readonly clock: Clock;
  readonly regimes: readonly string[];
  readonly frame: Parameters<typeof Plot>[0]["frame"];
  readonly onKeyDown: ReturnType<typeof useViewKeys>;
  readonly pointer: ReturnType<typeof usePointerView>;
  readonly onGap: (gap: View | null) => void;
  readonly said: readonly Stretch[];
}

const PanelRow = ({ model, one, view, width, clock, regimes, frame, onKeyDown, pointer, onGap, said }: PanelRowParts): ReactElement => {
  const navigate = useNavigate();
  const { wheelOn, ...drag } = pointer;
  const gas = shortGas(model.answer.gas) ?? model.answer.name;
  const gapsOf = (): View | null => {
    const gaps = (frame?.panels.find((panel) => panel.channel === model.sketch.index)?.stretches ?? []).filter(
      (stretch) => stretch.kind === "gap",
    );
    return gaps.reduce<View | null>(
      (longest, stretch) => (longest === null || stretch.to - stretch.from > longest.to - longest.from ? stretch : longest),
      null,
    );
  };
  return (
    <figure className="panel">
      {/* biome-ignore lint/a11y/noStaticElementInteractions: the plot is panned here; the strip above does the same by keys. */}
      <div className="hold" ref={wheelOn} {...drag} onKeyDown={onKeyDown}>
        <Plot model={model} frame={frame} view={view} width={width} clock={clock} said={said} />
      </div>
      <div className="beside">
        <FindingsTable
          id={one.id}
          channel={model.answer}
          clock={clock}
          regimes={regimes}
          declare={() => {
            onGap(gapsOf());
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
      <span className="hid">{one.file.name}</span>
    </figure>
  );
};

/** The drawing of the panels, that of the strip, and the panel which the strip shows: that of the gravest finding. */
const useDrawings = (one: Held, shown: readonly PanelModel[], view: View, extent: View, width: number) => {
  const asks = useMemo(() => asksOf(shown), [shown]);
  const frame = useFrame(one.id, view, width, asks, one.settings);
  const first = shown.find((model) => model.gravest) ?? shown[0];
  const strip = useMemo<readonly PanelAsk[]>(
    () =>
      first === undefined ? [] : [{ channel: first.sketch.index, height: stripHeight, scale: first.scale, windowMs: null, limit: null }],
    [first],
  );
  const whole = useFrame(one.id, extent, width, strip, one.settings);
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
}

/** The strip, then one panel a gas on shared time; findings stand beside their panel. */
export const Panels = ({ one, channels, shift, series, view, extent, clock, setView, regimes, onGap }: PanelsParts): ReactElement => {
  const [measure, width] = useWidth();
  const [all, setAll] = useState(false);
  const sketches = one.opened?.channels ?? [];
  const beside = useBeside();
  const models = useMemo(() => panelsOf(channels, sketches, shift, series, beside), [channels, sketches, shift, series, beside]);
  const shown = useMemo(() => (all ? models : models.slice(0, shownAtFirst)), [all, models]);
  const { frame, whole, first } = useDrawings(one, shown, view, extent, width);
  const said = frame?.panels.find((panel) => panel.channel === first?.sketch.index)?.stretches ?? [];
  const onKeyDown = useViewKeys(view, extent, setView);
  const pointer = usePointerView(view, extent, setView);
  const gas = first === undefined ? "" : (shortGas(first.answer.gas) ?? first.answer.name);
  return (
    <div className="panels">
      <figure className="panel strip">
        <div>
          <div ref={measure} className="measure" />
          {first !== undefined && (
            <Strip
              frame={whole}
              channel={first.sketch.index}
              gas={gas}
              view={view}
              extent={extent}
              width={width}
              clock={clock}
              setView={setView}
              onKeyDown={onKeyDown}
            />
          )}
          <Axis view={extent} clock={clock} width={width} />
        </div>
        <TypedTimes view={view} extent={extent} clock={clock} setView={setView} gas={gas} />
      </figure>
      {shown.map((model) => (
        <PanelRow
          key={model.key}
          model={model}
          one={one}
          view={view}
          width={width}
          clock={clock}
          regimes={regimes}
          frame={frame}
          onKeyDown={onKeyDown}
          pointer={pointer}
          onGap={onGap}
          said={model === first ? [] : said}
        />
      ))}
      <div className="panel foot">
        <Axis view={view} clock={clock} width={width} />
      </div>
      {!all && models.length > shownAtFirst && <MoreChannels count={models.length - shownAtFirst} show={() => setAll(true)} />}
    </div>
  );
};

/** Marks in the browser's own timeline, for the bench: the first drawing, and the one with means and findings. */
const markDrawn = (drawn: boolean, complete: boolean): void => {
  if (drawn) performance.mark("lamproom-drawn");
  if (complete) performance.mark("lamproom-complete");
};
