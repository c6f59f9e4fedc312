/** Flows between a few nodes, in any order, circles included. */
import fc from 'fast-check';
import type { Flow, LineageRef } from '../../../core/lineage/graph.ts';

export const ref = (name: string): LineageRef => ({ kind: 'batch', id: name });

export const arbitraryFlows = (massKg: fc.Arbitrary<number | null>) =>
  fc.array(
    fc
      .tuple(fc.nat(9), fc.nat(9), massKg)
      .map(([from, to, mass]): Flow => ({ from: ref(`b${from}`), to: ref(`b${to}`), massKg: mass })),
    { maxLength: 25 },
  );

/** Only flows from a lower to a higher node: no circle is possible. */
export const onwardFlows = (massKg: fc.Arbitrary<number | null>) =>
  arbitraryFlows(massKg).map((flows) =>
    flows.flatMap((flow): Flow[] => {
      if (flow.from.id === flow.to.id) return [];
      return flow.from.id < flow.to.id ? [flow] : [{ ...flow, from: flow.to, to: flow.from }];
    }),
  );

/** Which node reaches which, by Warshall's closure: an independent and slower way to know. */
export function reaches(flows: readonly Flow[]): (from: string, to: string) => boolean {
  const ids = [...new Set(flows.flatMap(({ from, to }) => [from.id, to.id]))];
  const pairs = new Set(flows.map(({ from, to }) => `${from.id}>${to.id}`));
  for (const via of ids) {
    for (const from of ids) {
      for (const to of ids) {
        if (pairs.has(`${from}>${via}`) && pairs.has(`${via}>${to}`)) pairs.add(`${from}>${to}`);
      }
    }
  }
  return (from, to) => pairs.has(`${from}>${to}`);
}
