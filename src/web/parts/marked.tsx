import { createElement, Fragment, type ReactElement, type ReactNode } from "react";

/**
 * Sentences come from `report` as plain text. Here they only get their type: formulas their subscripts, figures
 * their weight, units their size, and a name with a hyphen one line. Nothing is worded or rounded here; what is copied is the plain text again.
 */
const pieces =
  /((?:at least |at most |below )?[−+±]?\d[\d\u202f.]*(?: to (?:[−+±]?\d[\d\u202f.]*|open))?)(\u202f)(ppm|ppb|vol\u202f?%|vol %|%LEL|mg\/m³|µg\/m³|mol\/mol|%|h|min|s)(?![\p{L}\d])|\b(?:H2S|CO2|NO2|SO2|NH3|O2|O3|H2|CH4|N2O|Cl2|ClO2|PH3|C2H4O|C6H6|C3H8)\b|\b[A-Z]{1,8}-[A-Z0-9]{1,8}\b/gu;

/** Children that never move among themselves need no keys when they are handed over one by one. */
const inOrder = (parts: readonly ReactNode[]): ReactElement => createElement(Fragment, null, ...parts);

const Formula = ({ text }: { readonly text: string }): ReactElement =>
  inOrder(text.split(/(\d)/).map((part) => (/^\d$/.test(part) ? createElement("sub", null, part) : part)));

const piece = (match: RegExpExecArray, strong: boolean): ReactElement => {
  const [whole, figure, space, unit] = match;
  const weighty = strong && !/^(?:h|min|s|%)$/.test(unit ?? "");
  if (whole.includes("-") && figure === undefined)
    return (
      <span className="nowrap" key={match.index}>
        {whole}
      </span>
    );
  if (figure === undefined || unit === undefined) return <Formula key={match.index} text={whole} />;
  return (
    <span className="figure" key={match.index}>
      {weighty ? <b>{figure}</b> : figure}
      {space}
      <span className="u">{unit}</span>
    </span>
  );
};

export const Marked = ({ text, strong = false }: { readonly text: string; readonly strong?: boolean }): ReactElement => {
  const parts: ReactElement[] = [];
  let from = 0;
  for (const match of text.matchAll(pieces)) {
    if (match.index > from) parts.push(<Fragment key={`t${from}`}>{text.slice(from, match.index)}</Fragment>);
    parts.push(piece(match, strong));
    from = match.index + match[0].length;
  }
  parts.push(<Fragment key="end">{text.slice(from)}</Fragment>);
  return <>{parts}</>;
};
