/**
 * The first drawing of a recording is asked for as soon as the recording is open: the worker draws while the page is
 * still being laid out, and the page finds its drawing where it would have asked for it.
 */
import { desk } from "../desk/desk.ts";
import { awaitOpened, find } from "../desk/held-files.ts";
import type { Frame, FrameAsk, Opened, PanelAsk, Settings } from "../desk/protocol.ts";
import { clockOf } from "../parts/clock.ts";
import { extentOf, inSeries, seriesIn } from "./extent.ts";
import { asksOf, shownAtFirst, stripAsks, stripModel } from "./panel-asks.ts";
import { panelsOf, unassessed } from "./panel-model.ts";
import type { View } from "./view.ts";

export interface Early {
  readonly key: string;
  readonly width: number;
  readonly reply: Promise<Frame>;
  /** Null until the worker has answered. */
  frame: Frame | null;
}

interface Drawings {
  readonly id: string;
  readonly width: number;
  readonly panels: Early;
  readonly strip: Early;
}

/** Of one recording at a time: the one whose page was waiting for it. */
let drawings: Drawings | null = null;

/** Everything but the width: a drawing of another width is shown until there is a better one. */
const keyOf = (id: string, { from, to }: View, panels: readonly PanelAsk[], settings: Settings): string =>
  JSON.stringify([id, from, to, panels, settings]);

const askedFor = (ask: FrameAsk): Early => {
  const reply = desk().ask(ask).reply;
  const early: Early = { key: keyOf(ask.id, ask, ask.panels, ask.settings), width: ask.width, reply, frame: null };
  reply.then(
    (frame) => {
      early.frame = frame;
    },
    // Whoever waits for the reply hears why there is none; nobody may.
    () => undefined,
  );
  return early;
};

/** What the page shows of a recording before anything was computed or chosen. */
const askFirst = (id: string, { channels: sketches, clock: basis }: Opened, settings: Settings, width: number): void => {
  const series = seriesIn(sketches)[0] ?? null;
  const clock = clockOf(basis);
  const unknown = sketches.map((sketch) => unassessed(sketch, clock));
  const shown = panelsOf(unknown, sketches, 0, series, new Map()).slice(0, shownAtFirst);
  const ask = (panels: readonly PanelAsk[]): Early =>
    askedFor({ type: "frame", id, ...extentOf(inSeries(sketches, series), settings.shifts), width, panels, settings });
  drawings = { id, width, panels: ask(asksOf(shown)), strip: ask(stripAsks(stripModel(shown))) };
};

/** Asks as soon as the recording is open; gives what ends the waiting. `width`: pixels of its panels. */
export const drawOnceOpened = (id: string, width: number): (() => void) =>
  awaitOpened(id, (opened) => {
    const settings = find(id)?.settings;
    if (settings !== undefined && opened.channels.length > 0) askFirst(id, opened, settings, width);
  });

/** The width that was drawn for; 0 where nothing was. */
export const earlyWidth = (id: string): number => (drawings?.id === id ? drawings.width : 0);

/** The drawing that was asked for before; null where it was another one. */
export const earlyDrawing = (id: string, view: View, panels: readonly PanelAsk[], settings: Settings): Early | null => {
  const key = keyOf(id, view, panels, settings);
  return [drawings?.panels, drawings?.strip].find((early) => early?.key === key) ?? null;
};

/** Once the page has taken it up a drawing is of no use any more: the same file may be read anew. */
export const dropEarlyDrawings = (): void => {
  drawings = null;
};
