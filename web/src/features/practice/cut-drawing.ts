/** The sums behind a pile cut open along time: columns of layers, what ran hot, lines. */
import type { TruthRow } from '../../../../simulator/practice/record.ts';
import type { HourValue } from './said-and-so.ts';

export type Scale = (value: number) => number;

export function scaleOf(from: number, to: number, start: number, end: number): Scale {
  return (value) => start + ((value - from) / (to - from)) * (end - start);
}

export interface Knot {
  /** Height of the layer's middle above the ground [m]. */
  readonly heightM: number;
  readonly tempC: number;
  readonly moistureFrac: number;
}

/** Layers of one hour as knots from the ground up. */
export function knotsOf({ layers }: TruthRow): Knot[] {
  let groundM = 0;
  return [...layers].reverse().map(({ thicknessM, tempC, moistureFrac }) => {
    const heightM = groundM + thicknessM / 2;
    groundM += thicknessM;
    return { heightM, tempC, moistureFrac };
  });
}

export function depthOf({ layers }: TruthRow): number {
  return layers.reduce((sum, { thicknessM }) => sum + thicknessM, 0);
}

export interface Column {
  readonly fromH: number;
  readonly toH: number;
  readonly row: TruthRow;
}

/** Every so many hours one column, so that no more than `most` are drawn. Each reaches to the next. */
export function columnsOf(truth: readonly TruthRow[], most: number): Column[] {
  const every = Math.max(1, Math.ceil((truth.length - 1) / most));
  const kept = truth.filter((_, i) => i % every === 0 && i < truth.length - 1);
  const endH = truth.at(-1)?.afterH ?? 0;
  return kept.map((row, i) => ({ fromH: row.afterH, toH: kept[i + 1]?.afterH ?? endH, row }));
}

/** Between which heights a column is hotter than a limit; undefined when nowhere. The skin and the ground end it. */
export function hotSpan(row: TruthRow, limitC: number): { bottomM: number; topM: number } | undefined {
  const knots = knotsOf(row);
  const first = knots.findIndex(({ tempC }) => tempC > limitC);
  const last = knots.findLastIndex(({ tempC }) => tempC > limitC);
  if (first < 0) return undefined;
  const crossing = (inside: Knot | undefined, outside: Knot | undefined, end: number) =>
    inside && outside
      ? inside.heightM + ((inside.tempC - limitC) / (inside.tempC - outside.tempC)) * (outside.heightM - inside.heightM)
      : end;
  return {
    bottomM: crossing(knots[first], knots[first - 1], 0),
    topM: crossing(knots[last], knots[last + 1], depthOf(row)),
  };
}

export interface HotRegion {
  readonly edge: readonly { readonly afterH: number; readonly bottomM: number; readonly topM: number }[];
}

/** Stretches of hours in which something in the pile was above a limit. */
export function hotRegions(truth: readonly TruthRow[], limitC: number): HotRegion[] {
  const regions: { edge: HotRegion['edge'][number][] }[] = [];
  let wasHot = false;
  for (const row of truth) {
    const span = hotSpan(row, limitC);
    if (span && !wasHot) regions.push({ edge: [] });
    if (span) regions.at(-1)?.edge.push({ afterH: row.afterH, ...span });
    wasHot = span !== undefined;
  }
  return regions;
}

/** Around a region: along its upper edge and back along the lower. A single hour gets half an hour to either side. */
export function regionPath({ edge }: HotRegion, x: Scale, y: Scale): string {
  const only = edge.length === 1 ? edge[0] : undefined;
  const drawn = only ? [-0.5, 0.5].map((by) => ({ ...only, afterH: only.afterH + by })) : edge;
  const upper = drawn.map(({ afterH, topM }) => `${x(afterH).toFixed(1)} ${y(topM).toFixed(1)}`);
  const lower = drawn.map(({ afterH, bottomM }) => `${x(afterH).toFixed(1)} ${y(bottomM).toFixed(1)}`).reverse();
  return `M${[...upper, ...lower].join('L')}Z`;
}

/** The skin of the pile over time, as a line. */
export function skinPath(truth: readonly TruthRow[], x: Scale, y: Scale): string {
  return linePath(
    truth.map((row) => ({ afterH: row.afterH, value: depthOf(row) })),
    x,
    y,
  );
}

/** A line that breaks where nothing was said. */
export function linePath(points: readonly HourValue[], x: Scale, y: Scale): string {
  let pen = 'M';
  return points
    .map(({ afterH, value }) => {
      if (value === null) {
        pen = 'M';
        return '';
      }
      const step = `${pen}${x(afterH).toFixed(1)} ${y(value).toFixed(1)}`;
      pen = 'L';
      return step;
    })
    .join('');
}

/** Round marks of an axis of degrees, few enough to read. */
export function roundMarks(from: number, to: number, every: number): number[] {
  const first = Math.ceil(from / every);
  return Array.from({ length: Math.max(0, Math.floor(to / every) - first + 1) }, (_, i) => (first + i) * every);
}

export interface NumberMark {
  readonly x: number;
  readonly words: string;
}

/** Numbers of acts above their marks; those that would write over each other are listed together, at the first of them. */
export function numberMarks(hours: readonly number[], x: Scale, gap: number): NumberMark[] {
  const groups: { x: number; from: number; to: number }[] = [];
  hours.forEach((hour, i) => {
    const at = x(hour);
    const last = groups.at(-1);
    if (last && at - last.x < gap) last.to = i + 1;
    else groups.push({ x: at, from: i + 1, to: i + 1 });
  });
  return groups.map(({ x: at, from, to }) => ({ x: at, words: from === to ? `${from}` : `${from}–${to}` }));
}
