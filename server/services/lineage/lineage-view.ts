/** The lineage of one node, or of the whole farm, as the API shows it. */
import { findCircle, inOrder } from '../../../core/lineage/circle.ts';
import { keyOf, type LineageKey, lineageOf, refOf } from '../../../core/lineage/graph.ts';
import { sharesOf } from '../../../core/lineage/shares.ts';
import { type WalkWay, walk } from '../../../core/lineage/walk.ts';
import type { LineageAnswer, LineageNode } from '../../../shared/contracts/lineage.ts';
import { StoreError } from '../../../shared/errors.ts';
import { flowView } from './batch-detail.ts';
import { type Family, nodeFacts, wholeOf } from './family.ts';

/** @returns undefined when there is no such start. */
export function lineageFrom(family: Family, start: LineageKey, way: WalkWay): LineageAnswer | undefined {
  if (!nodeFacts(family, start)) return undefined;
  mustHaveNoCircle(family);
  const steps = walk(lineageOf(family.flows), start, way);
  const shares = sharesOf(family.flows, refOf(start), wholeOf(family));
  const nodes = [...steps].flatMap(([key, step]) =>
    nodeOf(family, key, step, step >= 0 ? (shares.get(key)?.came ?? null) : null),
  );
  nodes.sort((one, other) => Math.abs(one.step) - Math.abs(other.step) || one.name.localeCompare(other.name));
  const flows = family.flows.filter(({ from, to }) => {
    const [a, b] = [steps.get(keyOf(from)), steps.get(keyOf(to))];
    // Both ends on one side of the start: a way round it is no part of either walk.
    return a !== undefined && b !== undefined && ((a <= 0 && b <= 0) || (a >= 0 && b >= 0));
  });
  return { start: refOf(start), nodes, flows: flows.map(flowView) };
}

/** Everything, each before what came of it; lots and batches that nothing joins come last. */
export function wholeLineage(family: Family): LineageAnswer {
  mustHaveNoCircle(family);
  const joined = inOrder(family.flows);
  const all = [
    ...[...family.lots.keys()].map((id) => keyOf({ kind: 'lot', id })),
    ...[...family.batches.keys()].map((id) => keyOf({ kind: 'batch', id })),
  ];
  const keys = [...new Set([...joined, ...all])];
  return {
    start: null,
    nodes: keys.flatMap((key) => nodeOf(family, key, 0, null)),
    flows: family.flows.map(flowView),
  };
}

function nodeOf(family: Family, key: LineageKey, step: number, share: number | null): LineageNode[] {
  const facts = nodeFacts(family, key);
  return facts ? [{ ...refOf(key), ...facts, step, share: share === null ? null : Math.round(share * 1e6) / 1e6 }] : [];
}

/** The journal refuses circles; one that is there was not written by us. */
function mustHaveNoCircle({ flows }: Family): void {
  const circle = findCircle(flows);
  if (circle) throw new StoreError(`Cannot read the lineage as it must have no circle: ${circle.join(' -> ')}`);
}
