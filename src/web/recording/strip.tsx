import { type KeyboardEvent, type PointerEvent, type ReactElement, useRef, useState } from "react";
import type { Frame } from "../desk/protocol.ts";
import type { Clock } from "../parts/clock.ts";
import { typedTime } from "../parts/dates.ts";
import { Marked } from "../parts/marked.tsx";
import { stripPlotting } from "./panel-asks.ts";
import type { ShiftBound } from "./shift-bounds.ts";
import { crossesMidnight, spanWords } from "./span-words.ts";
import { textWidth } from "./text-width.ts";
import { type TimeTick, ticksOf } from "./ticks.ts";
import { type View, within } from "./view.ts";

const { height, foot } = stripPlotting;

/** Dragging draws the frame anew; a press without a drag moves it there. */
const useBrush = (view: View, extent: View, setView: (view: View) => void) => {
  const start = useRef<number | null>(null);
  const span = extent.to - extent.from;
  const at = (event: PointerEvent<HTMLElement>): number =>
    extent.from + ((event.clientX - event.currentTarget.getBoundingClientRect().left) / event.currentTarget.clientWidth) * span;
  return {
    onPointerDown: (event: PointerEvent<HTMLElement>): void => {
      start.current = at(event);
      event.currentTarget.setPointerCapture(event.pointerId);
    },
    onPointerMove: (event: PointerEvent<HTMLElement>): void => {
      if (start.current === null) return;
      const now = at(event);
      if (Math.abs(now - start.current) > span / 200)
        setView(within({ from: Math.min(now, start.current), to: Math.max(now, start.current) }, extent));
    },
    onPointerUp: (event: PointerEvent<HTMLElement>): void => {
      const now = at(event);
      const half = (view.to - view.from) / 2;
      if (start.current !== null && Math.abs(now - start.current) <= span / 200)
        setView(within({ from: now - half, to: now + half }, extent));
      start.current = null;
    },
  };
};

interface StripParts {
  readonly frame: Frame | null;
  readonly channel: number;
  readonly gas: string;
  readonly view: View;
  readonly extent: View;
  readonly width: number;
  readonly clock: Clock;
  readonly setView: (view: View) => void;
  readonly onKeyDown: (event: KeyboardEvent) => void;
  readonly bounds: readonly ShiftBound[];
}

/** The whole recording with the frame that the panels show. Dragging, typed times and keys move the same frame. */
export const Strip = ({ frame, channel, gas, view, extent, width, clock, setView, onKeyDown, bounds }: StripParts): ReactElement => {
  const span = extent.to - extent.from;
  const x = (ms: number): number => ((ms - extent.from) / span) * width;
  const brush = useBrush(view, extent, setView);
  const drawn = frame?.panels.find((panel) => panel.channel === channel) ?? null;
  const says = `Whole recording, ${gas}, ${spanWords(clock, extent.from, extent.to)}. The frame is what the panels show: ${spanWords(clock, view.from, view.to)}. Plus, minus, arrow keys, Home, End and 0 move it.`;
  return (
    <div
      className="plot overview"
      // A frame over time has no closer role: it is moved by keys and announced by its label.
      role="application"
      // biome-ignore lint/a11y/noNoninteractiveTabindex: it is moved by keys while it has the focus.
      tabIndex={0}
      aria-label={says}
      onKeyDown={onKeyDown}
      {...brush}
    >
      <svg viewBox={`0 0 ${Math.max(width, 1)} ${height}`} preserveAspectRatio="none" aria-hidden="true">
        {(drawn?.stretches ?? [])
          .filter((stretch) => stretch.kind === "gap" || stretch.kind === "declared")
          .map((stretch) => (
            <rect
              key={stretch.from}
              className="gap"
              x={x(stretch.from)}
              y="4"
              width={Math.max(1, x(stretch.to) - x(stretch.from))}
              height={height - 4 - foot}
            />
          ))}
        {bounds.map(({ from }) => (
          <path key={from} className="bound" d={`M${Math.min(Math.max(x(from), 0.5), width - 0.5)} 2V${height - foot}`} />
        ))}
        {drawn !== null && <path className="raw" d={drawn.raw} transform={`scale(${width / (frame?.width ?? width)} 1)`} />}
        <path className="base" d={`M0 ${height - foot}H${width}`} />
        <rect className="brush" x={x(view.from) + 1} y="1" width={Math.max(4, x(view.to) - x(view.from) - 2)} height={height - foot} />
      </svg>
    </div>
  );
};

interface AxisParts {
  readonly view: View;
  readonly clock: Clock;
  readonly width: number;
  /** Of one panel: shown where panels stand apart, on paper and on narrow screens. */
  readonly own?: boolean;
}

const shareOf = ({ at }: TimeTick, view: View): number => (at - view.from) / (view.to - view.from);

/** The last time stands left of its mark where it would reach beyond the plot: a printer would cut it. */
const isAtEnd = (tick: TimeTick, view: View, width: number): boolean => (1 - shareOf(tick, view)) * width < textWidth(tick.label) / 2;

/** The times under the strip and the panels; the same hand marks both. */
export const Axis = ({ view, clock, width, own = false }: AxisParts): ReactElement => (
  <div className={own ? "axis own-axis" : "axis"} aria-hidden="true">
    {ticksOf(view, clock, Math.max(2, Math.floor(width / 90))).map((tick) => (
      <span key={tick.at} className={isAtEnd(tick, view, width) ? "end" : undefined} style={{ left: `${shareOf(tick, view) * 100}%` }}>
        {tick.label}
      </span>
    ))}
  </div>
);

interface TimesFormParts extends Omit<TypedTimesParts, "gas"> {
  readonly done: () => void;
}

const TimesForm = ({ view, extent, clock, setView, done }: TimesFormParts): ReactElement => {
  const [from, setFrom] = useState(() => clock.time(view.from));
  const [to, setTo] = useState(() => clock.time(view.to));
  const [fault, setFault] = useState<string | null>(null);
  const show = (): void => {
    const [a, b] = [typedTime(from, clock, view.from), typedTime(to, clock, view.from)];
    if (a === null || b === null || b <= a)
      setFault(`Type two times in order, for example ${clock.time(extent.from)} and ${clock.time(extent.to)}.`);
    else {
      setFault(null);
      setView(within({ from: a, to: b }, extent));
      done();
    }
  };
  return (
    <form
      className="inline"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        show();
      }}
    >
      {fault !== null && (
        <p className="error" role="alert">
          {fault}
        </p>
      )}
      <label>
        From <input value={from} size={9} onChange={(event) => setFrom(event.target.value)} />
      </label>
      <label>
        to <input value={to} size={9} onChange={(event) => setTo(event.target.value)} />
      </label>
      <button type="submit" className="act">
        Show
      </button>
    </form>
  );
};

interface TypedTimesParts {
  readonly view: View;
  readonly extent: View;
  readonly clock: Clock;
  readonly setView: (view: View) => void;
  readonly gas: string;
}

/** The same as the brush, typed. Times may carry a date; without one they are of the day shown. */
export const TypedTimes = ({ view, extent, clock, setView, gas }: TypedTimesParts): ReactElement => {
  const [open, setOpen] = useState(false);
  return (
    <div className="keysnote">
      <p>
        <span className="at-desk">
          Whole recording, <Marked text={gas} />. The frame is what the panels show:{" "}
        </span>
        <span className={crossesMidnight(clock, view.from, view.to) ? "" : "nowrap"}>{`${spanWords(clock, view.from, view.to)}.`}</span>{" "}
        <button type="button" className="word" aria-expanded={open} onClick={() => setOpen(!open)}>
          Type times
        </button>
        <span className="at-desk">, or use + − and the arrow keys.</span>{" "}
        <button type="button" className="word" onClick={() => setView(extent)}>
          Show it whole
        </button>
      </p>
      {open && <TimesForm view={view} extent={extent} clock={clock} setView={setView} done={() => setOpen(false)} />}
    </div>
  );
};
