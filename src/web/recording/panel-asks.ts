/** What the panels, and the strip over them, ask of the worker to be drawn. */
import type { PanelAsk } from "../desk/protocol.ts";
import type { PanelModel } from "./panel-model.ts";

/** Channels beyond these are shown when asked for. */
export const shownAtFirst = 8;

export const asksOf = (models: readonly PanelModel[]): readonly PanelAsk[] =>
  models.map(({ sketch, height, head, foot, scale, windowMs, limit }) => ({
    ...{ height, head, foot, scale },
    ...{ channel: sketch.index, windowMs, limit },
  }));

/** The strip has a narrow band at its head and its foot, for its frame. */
export const stripPlotting = { height: 46, head: 8, foot: 5 } as const;

/** The strip shows the panel of the gravest finding. */
export const stripModel = (shown: readonly PanelModel[]): PanelModel | undefined => shown.find((model) => model.gravest) ?? shown[0];

/** Its readings without a mean. */
export const stripAsks = (model: PanelModel | undefined): readonly PanelAsk[] =>
  model === undefined ? [] : [{ ...stripPlotting, scale: model.scale, channel: model.sketch.index, windowMs: null, limit: null }];
