/** Where the words of a panel stand: never over a drawn series, never over each other, and near what they name. */

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Whether a box is free of the drawn series. */
export type IsFree = (box: Box) => boolean;

export const meet = (a: Box, b: Box): boolean => a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;

export interface Wanted {
  /** The stretch that is named, in pixels of the view; it may reach beyond it. */
  readonly from: number;
  readonly to: number;
  readonly width: number;
}

interface Room {
  readonly width: number;
  /** The band over the readings, from the top; and the last y at which a label may begin. */
  readonly band: number;
  readonly last: number;
  readonly isFree: IsFree;
  /** What is there already: the gas's name, a bracket. */
  readonly taken: readonly Box[];
}

export const labelHeight = 17;
const near = 4;
const step = 6;

/** Over, then right of, then left of its stretch, all of them touching it; from the band at the head downwards. */
const candidates = ({ from, to, width }: Wanted, room: Room): readonly Box[] => {
  const [start, end] = [Math.max(from, 0), Math.min(to, room.width)];
  const kept = (x: number): number => Math.min(Math.max(x, 0), room.width - width);
  const inBand = [kept((start + end - width) / 2), kept(start), kept(end - width), end + near, start - near - width];
  const under = end - start >= width + 2 * near ? [start + near, end + near, start - near - width] : [end + near, start - near - width];
  const places = (xs: readonly number[], y: number): readonly Box[] => xs.map((x) => ({ x, y, width, height: labelHeight }));
  const rows = Array.from({ length: Math.max(0, Math.floor((room.last - room.band) / step) + 1) }, (_, row) => room.band + row * step);
  return [...places(inBand, 1), ...rows.flatMap((y) => places(under, y + 2))].filter(({ x }) => x >= 0 && x + width <= room.width);
};

/** A label that stands over another stretch would be read as the name of that one. */
const namesAnother = (box: Box, one: Wanted, wanted: readonly Wanted[]): boolean =>
  wanted.some(
    (other) => other !== one && other.from < box.x + box.width && box.x < other.to && !(one.from < other.to && other.from < one.to),
  ) && !(box.x < one.to && one.from < box.x + box.width);

/** A place for each label in turn, null where there is none: then it is said in words under the panel. */
export const placeLabels = (wanted: readonly Wanted[], room: Room): readonly (Box | null)[] => {
  const taken = [...room.taken];
  return wanted.map((one) => {
    const place =
      candidates(one, room).find(
        (box) => taken.every((other) => !meet(box, other)) && !namesAnother(box, one, wanted) && room.isFree(box),
      ) ?? null;
    if (place !== null) taken.push(place);
    return place;
  });
};

/** Labels in a column beside their lines: in order, apart, as near to their own height as they can be; null = no room for all. */
export const spread = (
  wanted: readonly { readonly y: number; readonly height: number }[],
  head: number,
  foot: number,
): readonly number[] | null => {
  const needed = wanted.reduce((sum, { height }) => sum + height, 0);
  if (needed > foot - head) return null;
  const tops: number[] = [];
  let free = head;
  for (const { y, height } of wanted) {
    tops.push(Math.max(y, free));
    free = Math.max(y, free) + height;
  }
  let end = foot;
  for (let at = wanted.length - 1; at >= 0; at--) {
    const height = wanted[at]?.height ?? 0;
    tops[at] = Math.min(tops[at] ?? 0, end - height);
    end = tops[at] ?? 0;
  }
  return tops;
};
