/**
 * Channels of one recording share their columns, and a signal is made anew for every declaration; the columns of a
 * channel never change. So what was found of one is kept for as long as it is.
 */
export function remembered<Column extends object, Found>(
  memory: WeakMap<Column, { readonly found: Found }>,
  column: Column,
  find: (column: Column) => Found,
): Found {
  const known = memory.get(column);
  if (known !== undefined) return known.found;
  const found = find(column);
  memory.set(column, { found });
  return found;
}
