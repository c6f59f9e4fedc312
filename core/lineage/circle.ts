/** Nothing can come of itself, so flows never lead back into their own past. */
import { type Flow, keyOf, type LineageKey, lineageOf } from './graph.ts';

/** @returns The circle from a node back to the same, e.g. ["lot:a", "batch:b", "lot:a"]; undefined when there is none. */
export function findCircle(flows: readonly Flow[]): LineageKey[] | undefined {
  const { outOf } = lineageOf(flows);
  const done = new Set<LineageKey>();
  for (const first of outOf.keys()) {
    // Depth first without recursion: a lineage kept for years may be deeper than the stack.
    const trail: { key: LineageKey; next: number }[] = [{ key: first, next: 0 }];
    const onTrail = new Set<LineageKey>([first]);
    for (let top = trail.at(-1); top !== undefined; top = trail.at(-1)) {
      const flow = done.has(top.key) ? undefined : outOf.get(top.key)?.[top.next];
      top.next += 1;
      if (flow === undefined) {
        done.add(top.key);
        onTrail.delete(top.key);
        trail.pop();
        continue;
      }
      const key = keyOf(flow.to);
      if (onTrail.has(key)) {
        const from = trail.findIndex((one) => one.key === key);
        return [...trail.slice(from).map((one) => one.key), key];
      }
      if (done.has(key)) continue;
      trail.push({ key, next: 0 });
      onTrail.add(key);
    }
  }
  return undefined;
}

/**
 * Every node once, none before one it came from.
 * @throws {RangeError} When the flows hold a circle.
 */
export function inOrder(flows: readonly Flow[]): LineageKey[] {
  const { into, outOf } = lineageOf(flows);
  const waitsFor = new Map<LineageKey, number>();
  for (const key of outOf.keys()) waitsFor.set(key, into.get(key)?.length ?? 0);
  for (const [key, flowsIn] of into) waitsFor.set(key, flowsIn.length);
  const ready = [...waitsFor].filter(([, count]) => count === 0).map(([key]) => key);
  for (let at = 0; at < ready.length; at++) {
    for (const { to } of outOf.get(ready[at] as LineageKey) ?? []) {
      const left = (waitsFor.get(keyOf(to)) ?? 0) - 1;
      waitsFor.set(keyOf(to), left);
      if (left === 0) ready.push(keyOf(to));
    }
  }
  if (ready.length < waitsFor.size) {
    throw new RangeError(`Cannot order a lineage as it must have no circle: ${findCircle(flows)?.join(' -> ')}`);
  }
  return ready;
}
