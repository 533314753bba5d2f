import type { ReactElement } from "react";
import type { TableMapping } from "../../core/table/mapping.ts";
import type { Preview, PreviewRow } from "../../core/table/reading.ts";
import { countText, unitText } from "../../report/index.ts";

const Parsed = ({ value, was }: { readonly value: string | null; readonly was: string | null | undefined }): ReactElement => {
  const changed = was !== undefined && was !== value;
  return (
    <td className={value === null ? "hatched" : undefined}>
      <span className={value === null ? "patch" : undefined}>
        {changed ? <b>{value ?? "not understood"}</b> : (value ?? "not understood")}
      </span>
      {changed && <span className="was">was {was ?? "not understood"}</span>}
    </td>
  );
};

const Row = ({
  row,
  before,
  width,
  open,
}: {
  readonly row: PreviewRow;
  readonly before: PreviewRow | undefined;
  readonly width: number;
  readonly open: ReadonlySet<number>;
}): ReactElement => (
  <tr>
    <th scope="row" className="num">
      {countText(row.line)}
    </th>
    {places(width).map((place) => (
      <td key={`r${place}`} className="raw">
        {row.raw[place] ?? ""}
      </td>
    ))}
    {places(width).map((place) =>
      open.has(place) ? (
        <td key={`p${place}`} className="hatched">
          <span className="patch">as you answer</span>
        </td>
      ) : (
        <Parsed
          key={`p${place}`}
          value={row.parsed[place] ?? null}
          was={before === undefined ? undefined : (before.parsed[place] ?? null)}
        />
      ),
    )}
  </tr>
);

const places = (width: number): readonly number[] => Array.from({ length: width }, (_, place) => place);

const headOf = (mapping: TableMapping, place: number): string => {
  const column = mapping.columns[place];
  if (column === undefined) return "";
  if (column.role !== "reading" && column.role !== "value") return column.role;
  return column.unit === null ? "unit not known" : unitText(column.unit);
};

const Rows = ({
  caption,
  rows,
  mapping,
  columns,
  before,
  open,
}: {
  readonly caption: string;
  readonly rows: readonly PreviewRow[];
  readonly mapping: TableMapping;
  readonly columns: readonly string[];
  readonly before: ReadonlyMap<number, PreviewRow>;
  readonly open: ReadonlySet<number>;
}): ReactElement => {
  const width = Math.max(columns.length, ...rows.map((row) => Math.max(row.raw.length, row.parsed.length)));
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls on its own has to take the focus to be scrolled by keys.
    <section className="scroll" aria-label={caption} tabIndex={0}>
      <table className="preview">
        <caption>{caption}</caption>
        <thead>
          <tr>
            <td />
            <th scope="colgroup" colSpan={width}>
              As the file has it
            </th>
            <th scope="colgroup" colSpan={width}>
              As understood
            </th>
          </tr>
          <tr>
            <th scope="col" className="num">
              Line
            </th>
            {places(width).map((place) => (
              <th scope="col" key={`r${place}`}>
                {columns[place] ?? `column ${place + 1}`}
              </th>
            ))}
            {places(width).map((place) => (
              <th scope="col" key={`p${place}`}>
                {headOf(mapping, place) || `column ${place + 1}`}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <Row key={row.line} row={row} before={before.get(row.line)} width={width} open={open} />
          ))}
        </tbody>
      </table>
    </section>
  );
};

const timeRoles: ReadonlySet<string> = new Set(["time", "date", "clock"]);

/** Raw beside parsed: the rows that were hardest to understand, then the first of the file. */
export const PreviewTable = ({
  preview,
  mapping,
  before,
  dateOpen,
}: {
  readonly preview: Preview;
  readonly mapping: TableMapping;
  readonly before: Preview | null;
  /** Nobody has said yet which number of a date is the day: its columns show no date. */
  readonly dateOpen: boolean;
}): ReactElement => {
  const open = new Set(dateOpen ? mapping.columns.flatMap(({ role }, place) => (timeRoles.has(role) ? [place] : [])) : []);
  const earlier = new Map([...(before?.first ?? []), ...(before?.worst ?? [])].map((row) => [row.line, row]));
  return (
    <section>
      <h2>Raw beside parsed</h2>
      {preview.worst.length > 0 && (
        <Rows
          caption="The rows hardest to understand"
          rows={preview.worst.slice(0, 20)}
          mapping={mapping}
          columns={preview.columns}
          before={earlier}
          open={open}
        />
      )}
      <Rows
        caption="The first rows"
        rows={preview.first.slice(0, 20)}
        mapping={mapping}
        columns={preview.columns}
        before={earlier}
        open={open}
      />
    </section>
  );
};
