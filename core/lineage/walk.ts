/** Everything a node came from, and everything that came of it. */
import { type Flow, keyOf, type Lineage, type LineageKey } from './graph.ts';

export type WalkWay = 'up' | 'down' | 'both';

/** `both` is up and down from the start, and not sideways: siblings that only share a parent are left out. */
export function walk(lineage: Lineage, start: LineageKey, way: WalkWay): Map<LineageKey, number> {
  const steps = new Map<LineageKey, number>([[start, 0]]);
  if (way !== 'up') reach(steps, start, 1, (key) => ends(lineage.outOf.get(key), 'to'));
  if (way !== 'down') reach(steps, start, -1, (key) => ends(lineage.into.get(key), 'from'));
  return steps;
}

function ends(flows: readonly Flow[] | undefined, end: 'from' | 'to'): LineageKey[] {
  return (flows ?? []).map((flow) => keyOf(flow[end]));
}

/** Breadth first, so that each node gets its fewest steps. */
function reach(
  steps: Map<LineageKey, number>,
  start: LineageKey,
  stride: 1 | -1,
  next: (key: LineageKey) => LineageKey[],
): void {
  const queue = [start];
  for (let at = 0; at < queue.length; at++) {
    const key = queue[at] as LineageKey;
    for (const onward of next(key)) {
      if (steps.has(onward)) continue;
      steps.set(onward, (steps.get(key) ?? 0) + stride);
      queue.push(onward);
    }
  }
}
