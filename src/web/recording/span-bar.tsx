import type { ReactElement } from "react";

/** Where a range lies against its limit: the axis runs from 0 to twice the limit, so the limit stands in the middle of every row. */
export const SpanBar = ({
  low,
  best,
  high,
  limit,
  outcome,
}: {
  readonly low: number;
  readonly best: number | null;
  readonly high: number | null;
  readonly limit: number;
  readonly outcome: string;
}): ReactElement => {
  const width = 96;
  const at = (value: number): number => Math.min(Math.max((value / (2 * limit)) * width, 0), width);
  const beyond = high === null || high > 2 * limit;
  const left = Math.min(at(low), beyond ? width - 14 : width - 2);
  const right = beyond ? width - 12 : Math.max(at(high), left + 2.5);
  const kind = outcome === "exceeds" ? "bar over" : outcome === "undetermined" ? "bar und" : "bar";
  return (
    <svg className="span" viewBox="0 0 96 18" aria-hidden="true">
      <path className="zero" d="M0 9H96" />
      <path className={kind} d={`M${left} 5H${right}V13H${left}z`} />
      {beyond && <path className={kind} d="M87 5h3v8h-3zM93 5h3v8h-3z" />}
      <path className="lim" d="M48 0V18M44 .5h8M44 17.5h8" />
      {best !== null && high !== null && best <= 2 * limit && <circle className="best" cx={at(best)} cy="9" r="3" />}
    </svg>
  );
};
