import { memo, type ReactElement, type ReactNode } from "react";
import { durationText, unitText } from "../../report/index.ts";
import type { Frame, PanelFrame, Stretch } from "../desk/protocol.ts";
import type { Clock } from "../parts/clock.ts";
import { Marked } from "../parts/marked.tsx";
import { shortGas } from "./gas-names.ts";
import type { LimitLine, PanelModel } from "./panel-model.ts";
import type { View } from "./view.ts";

/** Plots leave so much above their head for brackets and below their foot for the window's bracket. */
export const headroom = 14;
export const footroom = 4;

const yOf = (value: number, model: PanelModel): number => {
  const [foot, head] = model.scale;
  return model.height - footroom - ((value - foot) / (head - foot)) * (model.height - footroom - headroom);
};

const share = (ms: number, view: View): number => ((ms - view.from) / (view.to - view.from)) * 100;

const percent = (value: number): string => `${value}%`;

/** A label stands to the right of its stretch where it fits, else to the left: never over what it names, never cut. */
const beside = (from: number, to: number, says: string, width: number, top: number): { left?: string; right?: string; top: string } => {
  const needed = ((says.length * 6.3 + 8) / Math.max(width, 1)) * 100;
  return to + needed < 100
    ? { left: percent(Math.max(to, 0) + 0.4), top: `${top}px` }
    : { right: percent(Math.max(100 - from, 0) + 0.4), top: `${top}px` };
};

const Lines = ({ model, width }: { readonly model: PanelModel; readonly width: number }): ReactElement => (
  <>
    {model.lines.map((line) => (
      <path key={`${line.value}/${line.against}`} className={`lim ${line.against}`} d={`M0 ${yOf(line.value, model)}H${width}`} />
    ))}
    <path className="base" d={`M0 ${model.height - footroom}H${width}`} />
  </>
);

const LineLabels = ({ model, width }: { readonly model: PanelModel; readonly width: number }): ReactElement => {
  let last: { readonly y: number; readonly right: number } | null = null;
  let lastScale = Number.NEGATIVE_INFINITY;
  const placed = [...model.lines].reverse().map((line: LimitLine) => {
    const at = yOf(line.value, model);
    // Under its line where the panel's name stands above.
    const above = at - 18 < 22 || (line.against === "scale" && at - 18 - lastScale < 17) ? at + 3 : at - 18;
    const y = Math.min(above, model.height - 17);
    if (line.against === "scale") lastScale = y;
    // Two lines close to each other: the second name stands right of the first, not over it.
    const left = last !== null && Math.abs(last.y - y) < 17 ? last.right + 12 : 86;
    if (line.against !== "scale") last = { y, right: left + line.says.length * 6.1 };
    return { line, y, left };
  });
  return (
    <>
      {placed.map(({ line, y, left }) => (
        <span
          key={`${line.value}/${line.against}`}
          className={`on lim ${line.against}${left + line.says.length * 6.1 > width ? " wide" : ""}`}
          style={line.against === "scale" ? { top: `${y}px` } : { left: `${left}px`, top: `${y}px` }}
        >
          {line.says}
        </span>
      ))}
    </>
  );
};

const rectOf = (stretch: Stretch, view: View, width: number): { readonly x: number; readonly w: number } => {
  const x = (share(stretch.from, view) / 100) * width;
  return { x, w: Math.max(1, ((stretch.to - stretch.from) / (view.to - view.from)) * width) };
};

const visible = (stretch: { readonly from: number; readonly to: number }, view: View): boolean =>
  stretch.to > view.from && stretch.from < view.to;

const StretchShape = ({
  stretch,
  model,
  view,
  width,
}: {
  readonly stretch: Stretch;
  readonly model: PanelModel;
  readonly view: View;
  readonly width: number;
}): ReactElement | null => {
  const { x, w } = rectOf(stretch, view, width);
  const foot = model.height - footroom;
  if (stretch.kind === "over range") return <path className="brk" d={`M${x} 10V4H${x + Math.max(w, 3)}V10`} />;
  if (stretch.kind === "seam") return <path className="seam" d={`M${x} 2V${foot}`} />;
  if (stretch.kind === "no upper bound") return null;
  return (
    <rect className={stretch.kind === "declared" ? "gap declared" : "gap"} x={x} y={headroom - 4} width={w} height={foot - headroom + 4} />
  );
};

/** Words for the widest stretches only: a label needs room, and the table of values has them all. */
const StretchLabel = ({
  stretch,
  view,
  width,
  place,
  clock,
}: {
  readonly stretch: Stretch;
  readonly view: View;
  readonly width: number;
  readonly place: number;
  readonly clock: Clock;
}): ReactElement => {
  const from = share(Math.max(stretch.from, view.from), view);
  const to = share(Math.min(stretch.to, view.to), view);
  if (stretch.kind === "over range" || stretch.kind === "seam") {
    // A clock that was set has two times for one place.
    const says = stretch.kind === "seam" ? `${stretch.says}: ${clock.time(stretch.to)}, then ${clock.time(stretch.from)}` : stretch.says;
    return (
      <span
        className="on"
        style={beside(from, stretch.kind === "seam" ? from : to, says, width, stretch.kind === "seam" ? 44 : width < 500 ? 20 : 0)}
      >
        {says}
      </span>
    );
  }
  const wide = ((to - from) / 100) * width > 70;
  const style = wide
    ? { left: percent(from + 0.5), top: `${44 + place * 20}px`, maxWidth: percent(Math.max(to - from - 1, 4)) }
    : beside(from, to, stretch.says, width, 44 + place * 20);
  return (
    <span className="on says" style={style}>
      {stretch.says}
    </span>
  );
};

const saysTheSame = (one: Stretch, other: Stretch): boolean => one.from === other.from && one.to === other.to && one.says === other.says;

/** What is said first where not all can be. */
const first: readonly Stretch["kind"][] = ["over range", "seam", "gap", "declared", "no upper bound"];

/** Labels that fit: the longest stretches of each kind, no more than the panel can hold without covering readings. */
const spoken = (stretches: readonly Stretch[], view: View, most: number): readonly Stretch[] =>
  stretches
    .filter((stretch) => visible(stretch, view) && stretch.says !== "")
    .sort((a, b) => first.indexOf(a.kind) - first.indexOf(b.kind) || b.to - b.from - (a.to - a.from))
    .filter((stretch, place, all) => all.slice(0, place).filter((other) => other.kind === stretch.kind).length < (most > 2 ? 2 : 1))
    .slice(0, most);

const WorstWindow = ({
  model,
  view,
  width,
  clock,
}: {
  readonly model: PanelModel;
  readonly view: View;
  readonly width: number;
  readonly clock: Clock;
}): ReactElement | null => {
  if (model.worst === null) return null;
  const [from, to] = [clock.ms(model.worst.from), clock.ms(model.worst.to)];
  if (!visible({ from, to }, view)) return null;
  const [left, right] = [(share(from, view) / 100) * width, (share(to, view) / 100) * width];
  const y = model.height - footroom - 11;
  return <path className="brk" d={`M${left} ${y - 7}V${y}H${right}V${y - 7}`} />;
};

const WorstLabel = ({
  model,
  view,
  clock,
}: {
  readonly model: PanelModel;
  readonly view: View;
  readonly clock: Clock;
}): ReactElement | null => {
  if (model.worst === null) return null;
  const [from, to] = [clock.ms(model.worst.from), clock.ms(model.worst.to)];
  if (!visible({ from, to }, view)) return null;
  const left = share(from, view);
  const says = `greatest mean: ${clock.time(from)} to ${clock.time(to)}`;
  const top = `${model.height - footroom - 24}px`;
  const style = left > 40 ? { right: percent(100 - left + 0.6), top } : { left: percent(Math.max(share(to, view), 0) + 0.6), top };
  return (
    <span className="on wide" style={style}>
      {says}
    </span>
  );
};

const Paths = memo(
  ({ panel, quiet }: { readonly panel: PanelFrame; readonly quiet: boolean }): ReactElement => (
    <>
      <path className="noend" d={panel.unbounded} />
      <path className="rib" d={panel.ribbon} />
      <path className="over" d={panel.wash} />
      <path className={quiet ? "raw alone" : "raw"} d={panel.raw} />
      <path className="mean" d={panel.mean} />
      <path className="thin" d={panel.thin} />
      <path className="hot" d={panel.hot} />
    </>
  ),
);

const sentenceOf = (model: PanelModel, view: View, clock: Clock, gas: string): string => {
  const { answer } = model;
  const unit = answer.unit === null ? "unit not known" : unitText(answer.unit);
  const peak =
    answer.peak === null
      ? "no reading"
      : `${answer.peak.atLeast ? "greatest reading at least" : "greatest reading"} ${answer.peak.value} at ${clock.time(clock.ms(answer.peak.at))}`;
  const low =
    answer.gas === "oxygen" && answer.lowest !== null ? `, lowest ${answer.lowest.value} at ${clock.time(clock.ms(answer.lowest.at))}` : "";
  const mean =
    model.worst === null || model.windowMs === null
      ? ""
      : ` Greatest ${durationText(model.windowMs / 1000)} mean from ${clock.time(clock.ms(model.worst.from))} to ${clock.time(clock.ms(model.worst.to))}.`;
  return `${gas}, ${unit}: ${peak}${low}.${mean} The panel shows ${clock.time(view.from)} to ${clock.time(view.to)}. Its table of values stands beside it.`;
};

interface PlotParts {
  readonly model: PanelModel;
  readonly frame: Frame | null;
  readonly view: View;
  readonly width: number;
  readonly clock: Clock;
  /** Stretches that another panel has said already: they are drawn here and not said again. */
  readonly said: readonly Stretch[];
  readonly children?: ReactNode;
}

export const Plot = ({ model, frame, view, width, clock, said, children }: PlotParts): ReactElement => {
  const panel = frame?.panels.find((one) => one.channel === model.sketch.index) ?? null;
  const gas = shortGas(model.answer.gas) ?? model.answer.name;
  const stretches = (panel?.stretches ?? []).filter((stretch) => visible(stretch, view));
  const labelled =
    width < 1
      ? []
      : spoken(
          stretches.filter((stretch) => !said.some((other) => other !== stretch && saysTheSame(other, stretch))),
          view,
          width > 500 ? 4 : 2,
        );
  // Its paths are in pixels of the width that they were asked for: paper is narrower than the screen.
  const scale = frame === null ? 1 : ((frame.to - frame.from) / (view.to - view.from)) * (width / frame.width);
  const shift = frame === null ? 0 : ((frame.from - view.from) / (view.to - view.from)) * width;
  return (
    <div className="plot" style={{ height: `${model.height}px` }} role="img" aria-label={sentenceOf(model, view, clock, gas)}>
      <div className="pane">
        <svg viewBox={`0 0 ${Math.max(width, 1)} ${model.height}`} preserveAspectRatio="none" aria-hidden="true">
          {stretches.map((stretch) => (
            <StretchShape key={`${stretch.kind}/${stretch.from}`} stretch={stretch} model={model} view={view} width={width} />
          ))}
          <g transform={`translate(${shift} 0) scale(${scale} 1)`}>
            {panel !== null && <Paths panel={panel} quiet={model.windowMs === null} />}
          </g>
          <Lines model={model} width={width} />
          <WorstWindow model={model} view={view} width={width} clock={clock} />
        </svg>
        {labelled.map((stretch, place) => (
          <StretchLabel key={`${stretch.kind}/${stretch.from}`} stretch={stretch} view={view} width={width} place={place} clock={clock} />
        ))}
        <LineLabels model={model} width={width} />
        <WorstLabel model={model} view={view} clock={clock} />
        {model.beyond.length > 0 && <span className="on wide beyond">{model.beyond.slice(0, 2).join("; ")}</span>}
      </div>
      <span className="name">
        <Marked text={gas} /> <span className="unit">{model.answer.unit === null ? "" : unitText(model.answer.unit)}</span>
        {model.named && model.answer.name !== gas && <span className="unit"> {model.answer.name}</span>}
      </span>
      {model.labels.map((label) => (
        <span key={label.value} className="y" style={{ top: `${yOf(label.value, model)}px` }}>
          {label.text}
        </span>
      ))}
      {children}
    </div>
  );
};
