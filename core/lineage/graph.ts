/** What came of what, as a graph of lots, batches and uses joined by flows. */
import type { LineageKind } from '../../shared/contracts/lineage.ts';

export interface LineageRef {
  readonly kind: LineageKind;
  readonly id: string;
}

export interface Flow {
  readonly from: LineageRef;
  readonly to: LineageRef;
  /** What went over; null where nobody wrote it down [kg]. */
  readonly massKg: number | null;
  readonly withdrawnAtMs?: number | null;
}

/** A node as one string, e.g. "batch:x7f3k2". */
export type LineageKey = string;

export function keyOf({ kind, id }: LineageRef): LineageKey {
  return `${kind}:${id}`;
}

export function refOf(key: LineageKey): LineageRef {
  const colon = key.indexOf(':');
  return { kind: key.slice(0, colon) as LineageKind, id: key.slice(colon + 1) };
}

export interface Lineage<F extends Flow = Flow> {
  readonly into: ReadonlyMap<LineageKey, readonly F[]>;
  readonly outOf: ReadonlyMap<LineageKey, readonly F[]>;
}

export function lineageOf<F extends Flow>(flows: readonly F[]): Lineage<F> {
  const into = new Map<LineageKey, F[]>();
  const outOf = new Map<LineageKey, F[]>();
  for (const flow of flows) {
    if (flow.withdrawnAtMs != null) continue;
    gather(outOf, keyOf(flow.from), flow);
    gather(into, keyOf(flow.to), flow);
  }
  return { into, outOf };
}

function gather<F>(map: Map<LineageKey, F[]>, key: LineageKey, flow: F): void {
  const there = map.get(key);
  if (there) there.push(flow);
  else map.set(key, [flow]);
}
