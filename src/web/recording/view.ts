import { type KeyboardEvent, type PointerEvent, useCallback, useEffect, useMemo, useRef, useState } from "react";
import { desk, useDeskState } from "../desk/desk.ts";
import type { Frame, FrameAsk, PanelAsk, Settings } from "../desk/protocol.ts";
import { type Early, earlyDrawing } from "./first-drawing.ts";

/** The stretch of time that the panels show, in milliseconds on the recording's clock. */
export interface View {
  readonly from: number;
  readonly to: number;
}

/** Less than this nobody can read off a panel, and no portable logs finer. */
const shortest = 2_000;

export const within = (view: View, extent: View): View => {
  const span = Math.min(Math.max(view.to - view.from, shortest), Math.max(extent.to - extent.from, shortest));
  const from = Math.min(Math.max(view.from, extent.from), Math.max(extent.from, extent.to - span));
  return { from, to: from + span };
};

/**
 * The view, and what sets it. Whole, it follows the recording when a shift makes that longer or shorter; what a person
 * chose to look at stays. Null = whole again.
 */
export const useView = (extent: View): readonly [View, (next: View | null) => void] => {
  const [chosen, setChosen] = useState<View | null>(null);
  const view = useMemo(() => (chosen === null ? extent : within(chosen, extent)), [chosen, extent]);
  const setView = useCallback(
    (next: View | null): void => {
      const kept = next === null ? null : within(next, extent);
      setChosen(kept !== null && kept.from === extent.from && kept.to === extent.to ? null : kept);
    },
    [extent],
  );
  return [view, setView];
};

export const panned = (view: View, share: number): View => {
  const by = (view.to - view.from) * share;
  return { from: view.from + by, to: view.to + by };
};

/** Factor below 1 shows less time; `at` is the share of the width that keeps its time. */
export const zoomed = (view: View, factor: number, at = 0.5): View => {
  const span = view.to - view.from;
  const from = view.from + span * at * (1 - factor);
  return { from, to: from + span * factor };
};

const keyed = (key: string, view: View, extent: View): View | null => {
  switch (key) {
    case "+":
    case "=":
      return zoomed(view, 0.5);
    case "-":
    case "\u2212":
      return zoomed(view, 2);
    case "ArrowLeft":
      return panned(view, -0.1);
    case "ArrowRight":
      return panned(view, 0.1);
    case "PageUp":
      return panned(view, -0.9);
    case "PageDown":
      return panned(view, 0.9);
    case "Home":
      return { from: extent.from, to: extent.from + view.to - view.from };
    case "End":
      return { from: extent.to - (view.to - view.from), to: extent.to };
    case "0":
      return extent;
    default:
      return null;
  }
};

export const useViewKeys = (view: View, extent: View, setView: (view: View) => void): ((event: KeyboardEvent) => void) =>
  useCallback(
    (event) => {
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      const next = keyed(event.key, view, extent);
      if (next === null) return;
      event.preventDefault();
      setView(within(next, extent));
    },
    [view, extent, setView],
  );

/** Drag pans; wheel with Ctrl or Shift zooms and pans, so that the page still scrolls under a plain wheel. */
export const usePointerView = (view: View, extent: View, setView: (view: View) => void) => {
  const held = useRef<{ readonly x: number; readonly view: View; readonly width: number } | null>(null);
  const latest = useRef({ view, extent, setView });
  latest.current = { view, extent, setView };
  const onPointerDown = (event: PointerEvent<HTMLElement>): void => {
    if (event.button !== 0) return;
    held.current = { x: event.clientX, view, width: event.currentTarget.clientWidth };
    event.currentTarget.setPointerCapture(event.pointerId);
  };
  const onPointerMove = (event: PointerEvent<HTMLElement>): void => {
    if (held.current !== null) setView(within(panned(held.current.view, (held.current.x - event.clientX) / held.current.width), extent));
  };
  const onPointerUp = (): void => {
    held.current = null;
  };
  const wheelOn = useCallback((element: HTMLElement | null) => {
    if (element === null) return;
    const onWheel = (event: WheelEvent): void => {
      const now = latest.current;
      if (!event.ctrlKey && !event.shiftKey && Math.abs(event.deltaX) <= Math.abs(event.deltaY)) return;
      event.preventDefault();
      const at = (event.clientX - element.getBoundingClientRect().left) / element.clientWidth;
      const next = event.ctrlKey
        ? zoomed(now.view, Math.exp(event.deltaY / 300), at)
        : panned(now.view, (event.deltaX || event.deltaY) / element.clientWidth);
      now.setView(within(next, now.extent));
    };
    // React listens passively to wheels; this one has to keep the page from zooming.
    element.addEventListener("wheel", onWheel, { passive: false });
    return () => element.removeEventListener("wheel", onWheel);
  }, []);
  return { onPointerDown, onPointerMove, onPointerUp, onPointerCancel: onPointerUp, wheelOn };
};

const stale = (frame: Frame | null, view: View, width: number): boolean => {
  if (frame === null || frame.width !== width || frame.partial) return true;
  const span = view.to - view.from;
  return Math.abs(frame.to - frame.from - span) > span * 1e-9 || Math.abs(view.from - frame.from) > span * 0.5;
};

interface Wanted {
  readonly panels: readonly PanelAsk[];
  readonly settings: Settings;
}

/**
 * The drawing of the view. One ask is under way at a time; until its answer comes the last drawing is shifted, and
 * it reaches a whole view to either side, so that panning never shows a blank. What was asked for before the page
 * stood is taken up and not asked for again.
 */
export const useFrame = (id: string, view: View, width: number, panels: readonly PanelAsk[], settings: Settings): Frame | null => {
  const [early] = useState(() => earlyDrawing(id, view, panels, settings));
  const [frame, setFrame] = useState<Frame | null>(early?.frame ?? null);
  const asking = useRef(false);
  const wanted = useRef<Wanted | null>(null);
  const drawn = useRef<Wanted | null>(frame === null ? null : { panels, settings });
  const underWay = useRef<Early | null>(frame === null ? early : null);
  /** A drawing that failed is said by the desk; until the worker was started again the same is not asked for. */
  const failed = useRef<FrameAsk | null>(null);
  const [turn, setTurn] = useState(0);
  const isWell = useDeskState().type === "well";
  wanted.current = { panels, settings };
  // `turn` runs it again once the worker is free.
  // biome-ignore lint/correctness/useExhaustiveDependencies: see above.
  useEffect(() => {
    const asked = wanted.current;
    const same = drawn.current?.panels === panels && drawn.current.settings === settings;
    if (asking.current || width === 0 || panels.length === 0 || (same && !stale(frame, view, width))) return;
    const ask: FrameAsk = { type: "frame", id, from: view.from, to: view.to, width, panels, settings };
    if (!isWell && failed.current !== null && JSON.stringify(failed.current) === JSON.stringify(ask)) return;
    asking.current = true;
    const reply = underWay.current?.reply ?? desk().ask(ask).reply;
    underWay.current = null;
    reply
      .then(
        (reply) => {
          drawn.current = asked;
          failed.current = null;
          setFrame(reply);
        },
        () => {
          failed.current = ask;
        },
      )
      .finally(() => {
        asking.current = false;
        setTurn((one) => one + 1);
      });
  }, [id, view, width, panels, settings, frame, turn, isWell]);
  return frame;
};

/** The width of an element in whole pixels, kept up as it changes; `first` until it is measured. */
export const useWidth = (first = 0): [(element: HTMLElement | null) => (() => void) | undefined, number] => {
  const [width, setWidth] = useState(first);
  const measure = useCallback((element: HTMLElement | null) => {
    if (element === null) return undefined;
    const observer = new ResizeObserver(() => setWidth(Math.round(element.clientWidth)));
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  return [measure, width];
};
