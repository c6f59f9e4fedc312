/**
 * How much of a start went where, each node taken as well mixed. It never guesses: where an amount on the way was not
 * written down, everything beyond it is null.
 */
import { inOrder } from './circle.ts';
import { type Flow, keyOf, type LineageKey, type LineageRef, lineageOf } from './graph.ts';

export interface Whole {
  /** Mass of it before anything was taken; null while unknown [kg]. */
  readonly massKg: number | null;
  /** Nothing of it is left, so what was taken is all there was. */
  readonly emptied: boolean;
}

export interface Share {
  /** Of the start [-]; null when unknown. */
  readonly came: number | null;
  /** What of that has not gone on [-]; null when unknown. */
  readonly stayed: number | null;
}

/** What `stayed` everywhere adds up to 1 as long as nothing on the way is null. */
export function sharesOf(
  flows: readonly Flow[],
  start: LineageRef,
  wholeOf: (key: LineageKey) => Whole,
): Map<LineageKey, Share> {
  const { outOf } = lineageOf(flows);
  const came = new Map<LineageKey, number | null>([[keyOf(start), 1]]);
  const shares = new Map<LineageKey, Share>();
  for (const key of new Set([keyOf(start), ...inOrder(flows)])) {
    const share = came.get(key);
    if (share === undefined) continue; // nothing of the start came here
    const out = outOf.get(key) ?? [];
    const fractions = fractionsOut(out, wholeOf(key));
    out.forEach((flow, i) => {
      const to = keyOf(flow.to);
      const before = came.get(to);
      const fraction = fractions[i] ?? null;
      const carried = share === null || fraction === null ? null : share * fraction;
      came.set(to, before === null || carried === null ? null : (before ?? 0) + carried);
    });
    shares.set(key, { came: share, stayed: stayed(share, fractions) });
  }
  return shares;
}

/** Which fraction of a node each of its flows took; together never more than 1. */
export function fractionsOut(out: readonly Flow[], { massKg, emptied }: Whole): (number | null)[] {
  const known = out.reduce((sum, flow) => sum + (flow.massKg ?? 0), 0);
  const unknown = out.filter((flow) => flow.massKg === null).length;
  if (emptied && unknown === 1 && out.length === 1) return [1];
  if (emptied && unknown === 0) return out.map((flow) => (flow.massKg ?? 0) / known);
  if (massKg === null) return out.map(() => null);
  // More may be taken than was laid: water was added since.
  const whole = Math.max(massKg, known);
  const rest = emptied && unknown === 1 ? (whole - known) / whole : null;
  return out.map((flow) => (flow.massKg === null ? rest : flow.massKg / whole));
}

function stayed(share: number | null, fractions: readonly (number | null)[]): number | null {
  if (share === null || fractions.includes(null)) return null;
  const gone = fractions.reduce<number>((sum, fraction) => sum + (fraction ?? 0), 0);
  return share * Math.max(0, 1 - gone);
}
