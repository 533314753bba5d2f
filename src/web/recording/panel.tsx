import { memo, type ReactElement, useMemo } from "react";
import { durationText, unitText } from "../../report/index.ts";
import type { PanelFrame, Stretch } from "../desk/protocol.ts";
import { Marked } from "../parts/marked.tsx";
import { extremeWords } from "./extreme-words.ts";
import { shortGas } from "./gas-names.ts";
import type { Box } from "./label-places.ts";
import type { LimitLine } from "./limit-lines.ts";
import { isVisible, layoutOf, leaderWidth, mappingOf, namesOf, type PanelLayout, panelOf, pixelsOf, type Shown } from "./panel-layout.ts";
import { yOf } from "./panel-model.ts";
import { spanWords } from "./span-words.ts";
import { useFaces } from "./text-width.ts";

const Lines = memo(
  ({ model, width }: Pick<Shown, "model" | "width">): ReactElement => (
    <>
      {model.lines.map((line) => (
        <path key={line.value} className={classOf(line)} d={`M0 ${yOf(line.value, model)}H${width}`} />
      ))}
      <path className="base" d={`M0 ${model.height - model.foot}H${width}`} />
    </>
  ),
);

/** A limit that was lowered, and no other, has dashes and dots. */
const classOf = ({ isLowered, against }: LimitLine): string => (isLowered ? "lim lowered" : against === "scale" ? "lim scale" : "lim");

/** Names of regimes and tables hold a hyphen at which no line may end. */
const Unbroken = ({ text }: { readonly text: string }): ReactElement => (
  <>
    {text.split(/([A-Z]+-[A-Z0-9]+)/).map((piece, at) =>
      at % 2 === 1 ? (
        // biome-ignore lint/suspicious/noArrayIndexKey: pieces of one text have no other name than their place.
        <span key={at} className="nowrap">
          {piece}
        </span>
      ) : (
        piece
      ),
    )}
  </>
);

/** From the end of each line to its name, which others may have pushed up or down. */
const Names = memo(({ model, names }: Pick<Shown, "model"> & Pick<PanelLayout, "names">): ReactElement | null =>
  names.length === 0 ? null : (
    <div className="names">
      <svg viewBox={`0 0 ${leaderWidth} ${model.height}`} width={leaderWidth} height={model.height} aria-hidden="true">
        {names.map(({ line, top }) => (
          <path key={line.value} className="leader" d={`M0 ${yOf(line.value, model)}H3L${leaderWidth - 4} ${top + 7.5}h2`} />
        ))}
      </svg>
      {names.map(({ line, top }) => (
        <span key={line.value} className="limit" style={{ top: `${top}px` }}>
          <b>{line.figure}</b> <Unbroken text={line.names} />
        </span>
      ))}
    </div>
  ),
);

const StretchShape = ({ stretch, shown }: { readonly stretch: Stretch; readonly shown: Shown }): ReactElement | null => {
  const { height, head, foot } = shown.model;
  const x = pixelsOf(stretch.from, shown);
  const w = Math.max(1, pixelsOf(stretch.to, shown) - x);
  if (stretch.kind === "over range") return <path className="brk" d={`M${x} ${head - 1}V${head - 5}H${x + Math.max(w, 3)}V${head - 1}`} />;
  if (stretch.kind === "seam") return <path className="seam" d={`M${x} ${head - 6}V${height - foot}`} />;
  if (stretch.kind === "no upper bound") return null;
  return <rect className={stretch.kind === "declared" ? "gap declared" : "gap"} x={x} y={head} width={w} height={height - foot - head} />;
};

/** A line on the edge of the plot would be cut in half. */
const Bounds = ({ shown }: { readonly shown: Shown }): ReactElement => (
  <>
    {shown.bounds.map(({ from }) => {
      const { model, view, width } = shown;
      if (from < view.from || from > view.to) return null;
      const x = Math.min(Math.max(pixelsOf(from, shown), 0.5), width - 0.5);
      return <path key={from} className="bound" d={`M${x} ${model.head - 6}V${model.height - model.foot}`} />;
    })}
  </>
);

const WorstWindow = ({ shown }: { readonly shown: Shown }): ReactElement | null => {
  const { model, view, clock } = shown;
  if (model.worst === null) return null;
  const [from, to] = [clock.ms(model.worst.from), clock.ms(model.worst.to)];
  if (!isVisible({ from, to }, view)) return null;
  const y = model.height - model.foot + 11;
  return <path className="brk" d={`M${pixelsOf(from, shown)} ${y - 7}V${y}H${pixelsOf(to, shown)}V${y - 7}`} />;
};

const Label = ({ box, says }: { readonly box: Box; readonly says: string }): ReactElement => (
  <span className="on says" style={{ left: `${box.x}px`, top: `${box.y}px` }}>
    {says}
  </span>
);

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

const Series = ({ shown }: { readonly shown: Shown }): ReactElement | null => {
  const { model, frame, view, width } = shown;
  const panel = panelOf(shown);
  if (panel === null || frame === null) return null;
  const { scaleX, shiftX, scaleY, shiftY } = mappingOf(frame, panel, model, view, width);
  return (
    <g transform={`translate(${shiftX} ${shiftY}) scale(${scaleX} ${scaleY})`}>
      <Paths panel={panel} quiet={model.windowMs === null} />
    </g>
  );
};

/** The gas's name in the plot, and the values at its axis. */
const Scale = memo(
  ({ model, gas }: Pick<Shown, "model"> & { readonly gas: string }): ReactElement => (
    <>
      <span className="name">
        <Marked text={gas} /> <span className="unit">{model.answer.unit === null ? "" : unitText(model.answer.unit)}</span>
        {model.named && model.answer.name !== gas && <span className="unit"> {model.answer.name}</span>}
      </span>
      {model.labels.map((label) => (
        <span key={label.value} className={label.isLimit ? "y at-limit" : "y"} style={{ top: `${yOf(label.value, model)}px` }}>
          {label.text}
        </span>
      ))}
    </>
  ),
);

/** The longest gaps that the panel shows, for those who do not see it. */
const unmeasuredWords = (shown: Shown): string => {
  const gaps = (panelOf(shown)?.stretches ?? []).filter(({ kind, ...span }) => kind === "gap" && isVisible(span, shown.view));
  const longest = [...gaps].sort((a, b) => b.to - b.from - (a.to - a.from)).slice(0, 3);
  const more = gaps.length - longest.length;
  if (longest.length === 0) return "";
  const spans = longest.map(({ from, to }) => spanWords(shown.clock, from, to)).join(", ");
  return ` Not measured: ${spans}${more > 0 ? `, and ${more} shorter` : ""}.`;
};

const boundWords = ({ bounds, view }: Shown): string => {
  const visible = bounds.filter(({ from }) => from >= view.from && from <= view.to);
  return visible.length === 0 || visible.length > 8 ? "" : ` Lines: ${visible.map(({ says }) => says).join(", ")}.`;
};

const sentenceOf = (shown: Shown, gas: string): string => {
  const { model, view, clock } = shown;
  const { answer } = model;
  const unit = answer.unit === null ? "unit not known" : unitText(answer.unit);
  const mean =
    model.worst === null || model.windowMs === null
      ? ""
      : ` Greatest ${durationText(model.windowMs / 1000)} mean from ${spanWords(clock, clock.ms(model.worst.from), clock.ms(model.worst.to))}.`;
  return `${gas}, ${unit}: ${extremeWords(answer, clock)}.${mean}${unmeasuredWords(shown)}${boundWords(shown)} The panel shows ${spanWords(clock, view.from, view.to)}. Its table of values stands beside it.`;
};

/** What the panel has no room to say in itself: limits by name, stretches by their times. */
const Under = ({ under, words }: Pick<PanelLayout, "under" | "words">): ReactElement | null =>
  under.length === 0 && words.length === 0 ? null : (
    <p className="under">
      {under.map((line) => (
        <span key={line.value}>
          <b>{line.figure}</b> <Unbroken text={line.names} />.{" "}
        </span>
      ))}
      <Marked text={words.join(" ")} />
    </p>
  );

interface PlotParts extends Shown {
  /** What stands close under the plot: its times, where it does not share those of all panels. */
  readonly children: ReactElement;
}

export const Plot = ({ children, ...shown }: PlotParts): ReactElement => {
  const { model, view, width, roomy } = shown;
  const gas = shortGas(model.answer.gas) ?? model.answer.name;
  const faces = useFaces();
  // biome-ignore lint/correctness/useExhaustiveDependencies: names are measured in the faces that have come.
  const placed = useMemo(() => namesOf({ model, roomy }), [model, roomy, faces]);
  const stretches = (panelOf(shown)?.stretches ?? []).filter((stretch) => isVisible(stretch, view));
  const { names, under, words, stretches: labels, worst } = layoutOf(shown, gas, placed);
  return (
    <>
      <div className="plot" style={{ height: `${model.height}px` }} role="img" aria-label={sentenceOf(shown, gas)}>
        <div className="pane">
          <svg viewBox={`0 0 ${Math.max(width, 1)} ${model.height}`} preserveAspectRatio="none" aria-hidden="true">
            {stretches.map((stretch) => (
              <StretchShape key={`${stretch.kind}/${stretch.from}`} stretch={stretch} shown={shown} />
            ))}
            <Bounds shown={shown} />
            <Series shown={shown} />
            <Lines model={model} width={width} />
            <WorstWindow shown={shown} />
          </svg>
          {labels.map(({ thing, says, box }) => (
            <Label key={`${thing.kind}/${thing.from}`} says={says} box={box} />
          ))}
          {worst !== null && <Label says={worst.says} box={worst.box} />}
        </div>
        <Scale model={model} gas={gas} />
        <Names model={model} names={names} />
      </div>
      {children}
      <Under under={under} words={words} />
    </>
  );
};
