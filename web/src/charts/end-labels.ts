/** Where the names of lines stand: beside their ends, apart from each other, joined to what they name. */
import { spreadRows } from '../ui/mound/mound-layout.ts';

/** The last point of a line, and its name [px]. */
export interface LineEnd {
  readonly words: string;
  readonly x: number;
  readonly y: number;
  readonly colour: string;
}

export interface EndLabel extends LineEnd {
  readonly labelX: number;
  readonly labelY: number;
  /** Whether a stroke has to lead from the end to the name. */
  readonly isJoined: boolean;
}

/** One name for each place: what was measured by hand last is of the line of that place. */
export function lastEnds(ends: readonly LineEnd[]): LineEnd[] {
  const byName = new Map<string, LineEnd>();
  for (const end of ends) {
    const known = byName.get(end.words);
    if (!known || end.x > known.x) byName.set(end.words, end);
  }
  return [...byName.values()];
}

/** A line that ends further than this before the others is named where it ends [px]. */
const endsEarlyPx = 48;
/** A name further than this from its line, in height or along it, would be taken for another's [px]. */
const besidePx = { y: 5, x: 24 };

interface Room {
  /** Where the names stand. */
  readonly x: number;
  /** Where lines end that go on to the last. */
  readonly endX: number;
  readonly top: number;
  readonly bottom: number;
  readonly gap: number;
}

export function placeEnds(ends: readonly LineEnd[], { x, endX, top, bottom, gap }: Room): EndLabel[] {
  const early = ends.filter((end) => endX - end.x > endsEarlyPx);
  const beside = ends.filter((end) => endX - end.x <= endsEarlyPx).sort((one, other) => one.y - other.y);
  const rows = spreadRows(
    beside.map((end) => end.y),
    gap,
    top,
    bottom,
  );
  return [
    ...early.map((end) => ({ ...end, labelX: end.x + 6, labelY: end.y, isJoined: false })),
    ...beside.map((end, index) => {
      const labelY = rows[index] ?? end.y;
      return {
        ...end,
        labelX: x,
        labelY,
        isJoined: Math.abs(labelY - end.y) > besidePx.y || x - end.x > besidePx.x,
      };
    }),
  ];
}
