/** Where the words of acts stand above a chart: in two rows, none over another. */

/** A mark's place and how wide its words are [px]. */
export interface ActMark {
  readonly x: number;
  readonly width: number;
}

export interface ActWords {
  readonly x: number;
  /** Counted from the chart upwards; null where there is no room: the stroke stands alone. */
  readonly row: 0 | 1 | null;
}

const besidePx = 5;
const apartPx = 8;

/** @param marks By time. */
export function placeActs(marks: readonly ActMark[], left: number, right: number): ActWords[] {
  const takenTo = [left, left];
  return marks.map(({ x, width }) => {
    // Near the right end the words stand before the mark, but never over the axis.
    const from = x + besidePx + width < right ? x + besidePx : Math.max(left, x - besidePx - width);
    const row = ([0, 1] as const).find((one) => from >= (takenTo[one] ?? left)) ?? null;
    if (row !== null) takenTo[row] = from + width + apartPx;
    return { x: from, row };
  });
}
