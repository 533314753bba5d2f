/** Column that stands at each place of a heading in another order; null where the heading is another one. */
export function orderOf(cells: readonly string[], labels: readonly string[]): readonly number[] | null {
  const used = new Set<number>();
  const order: number[] = [];
  for (const cell of cells) {
    const column = labels.findIndex((label, index) => label === cell && !used.has(index));
    if (column < 0) return null;
    used.add(column);
    order.push(column);
  }
  return used.size >= labels.filter((label) => label !== "").length ? order : null;
}
