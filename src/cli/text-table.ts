/** Columns of plain text, wide enough for their longest cell. */

export function textTable(rows: readonly (readonly string[])[], indent: string): string[] {
  const widths: number[] = [];
  for (const row of rows)
    row.forEach((cell, column) => {
      widths[column] = Math.max(widths[column] ?? 0, shownWidth(cell));
    });
  return rows.map((row) =>
    `${indent}${row.map((cell, column) => padded(cell, column === row.length - 1 ? 0 : (widths[column] ?? 0))).join("  ")}`.trimEnd(),
  );
}

function padded(cell: string, width: number): string {
  return cell + " ".repeat(Math.max(0, width - shownWidth(cell)));
}

/** Letters as a terminal shows them: colour marks take no room. */
function shownWidth(text: string): number {
  return [...text.replace(COLOUR_MARKS, "").normalize("NFC")].length;
}

const COLOUR_MARKS = new RegExp(`${String.fromCharCode(27)}\\[[0-9;]*m`, "g");
