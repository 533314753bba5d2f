/** Whether a recording has been set against limits, and why not: what is not computed never looks like "no limit". */
import type { Held } from "../desk/shelf.ts";

export type Standing =
  | { readonly type: "assessed" }
  | { readonly type: "computing" }
  | { readonly type: "not computed"; readonly says: string };

export const standingOf = ({ answer, fault }: Held): Standing => {
  if (fault !== null) return { type: "not computed", says: `Lamproom failed while computing: ${fault}` };
  if (answer === null) return { type: "computing" };
  if (answer.refusal === null) return { type: "assessed" };
  return { type: "not computed", says: `${answer.refusal.message} ${answer.refusal.mend}` };
};
