import type { ReactElement } from "react";

/** Drawn once a page; every mark and hatching refers to it by name. */
export const MarkSheet = (): ReactElement => (
  <svg width="0" height="0" className="marks" aria-hidden="true">
    <defs>
      <symbol id="o-in" viewBox="0 0 16 16">
        <path d="M11.5 2v12" strokeWidth="1.8" />
        <path d="M1.5 6h7v4h-7z" fill="currentColor" stroke="none" />
      </symbol>
      <symbol id="o-over" viewBox="0 0 16 16">
        <path d="M4.5 2v12" strokeWidth="1.8" />
        <path d="M7.5 6h7v4h-7z" fill="currentColor" stroke="none" />
      </symbol>
      <symbol id="o-und" viewBox="0 0 16 16">
        <path d="M1.5 6h13v4h-13zM3 10l4-4M6 10l4-4M9 10l4-4" strokeWidth="1" />
        <path d="M8 2v12" strokeWidth="1.8" />
      </symbol>
      <pattern id="hatch" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
        <path d="M0 0v5" className="hatch-line" />
      </pattern>
      <pattern id="gap" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
        <path d="M0 0v6" className="gap-line" />
      </pattern>
    </defs>
  </svg>
);

const names: Readonly<Record<string, string>> = { exceeds: "o-over", within: "o-in", undetermined: "o-und" };

/** The picture of an outcome; its word always stands beside it. */
export const OutcomeMark = ({ outcome }: { readonly outcome: string }): ReactElement | null => {
  const name = names[outcome];
  if (name === undefined) return null;
  return (
    <svg className="m" aria-hidden="true">
      <use href={`#${name}`} />
    </svg>
  );
};
