/**
 * The family tree as it is drawn: from sources down to beds, whatever the family.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { FlowView, LineageAnswer, LineageNode } from '../../shared/contracts/lineage.ts';
import { verbatim } from '../../shared/messages/message.ts';
import { drawLineage, rowsOf, wrapWords } from '../../web/src/features/lineage/lineage-layout.ts';
import { sideOf } from '../../web/src/features/lineage/lineage-list.tsx';
import { cellsFor, flowWidth } from '../../web/src/features/lineage/lineage-tree.tsx';
import { mockFamily, nodesOf } from '../helpers/mock-family.ts';

const nowMs = Date.parse('2031-06-11T10:00:00Z');
const family = mockFamily(nowMs);
const whole: LineageAnswer = { start: null, nodes: nodesOf(family, null), flows: family.flows };

const node = (index: number): LineageNode => ({
  kind: 'batch',
  id: String(index),
  name: `Batch ${index}`,
  says: '',
  messages: { says: verbatim('') },
  at: new Date(nowMs + index).toISOString(),
  step: 0,
  share: null,
  stage: 'bran',
  ending: null,
});
const flow = (from: number, to: number): FlowView => ({
  id: `${from}-${to}`,
  from: { kind: 'batch', id: String(from) },
  to: { kind: 'batch', id: String(to) },
  way: 'split',
  at: new Date(nowMs).toISOString(),
  massKg: null,
  volumeL: null,
});

/** Flows always lead from a lower to a higher number, so there is no circle. */
const families = fc.integer({ min: 1, max: 14 }).chain((count) =>
  fc.array(fc.tuple(fc.nat(count - 1), fc.nat(count - 1)), { maxLength: 24 }).map((pairs) => ({
    start: null,
    nodes: Array.from({ length: count }, (_, index) => node(index)),
    flows: pairs
      .filter(([one, other]) => one !== other)
      .map(([one, other]) => flow(Math.min(one, other), Math.max(one, other))),
  })),
);

describe('drawLineage()', () => {
  test('every flow leads down, everybody has a place of their own, and all stand within the drawing', () => {
    fc.assert(
      fc.property(families, (answer) => {
        const { placed, flows, rows, columns } = drawLineage(answer);
        expect(placed).toHaveLength(answer.nodes.length);
        for (const { from, to } of flows) expect(to.row).toBeGreaterThan(from.row);
        expect(flows).toHaveLength(answer.flows.length);
        expect(new Set(placed.map(({ row, column }) => `${row} ${column}`)).size).toBe(placed.length);
        expect(placed.every(({ row, column }) => row < rows && column >= 0 && column <= columns - 1)).toBe(true);
      }),
      { seed: 15, numRuns: 150 },
    );
  });
  test('data that hold a circle are still drawn', () => {
    const circle = { start: null, nodes: [node(0), node(1)], flows: [flow(0, 1), flow(1, 0)] };
    expect(drawLineage(circle).placed).toHaveLength(2);
  });
  test('a farm with nothing on it draws nothing', () =>
    expect(drawLineage({ start: null, nodes: [], flows: [] })).toMatchObject({ placed: [], rows: 0 }));
  test('a source stands right above the first that took from it', () => {
    // 0 -> 1 -> 2, and 3 -> 2: the second source belongs beside 1, not beside 0.
    const rows = rowsOf({ nodes: [node(0), node(1), node(2), node(3)], flows: [flow(0, 1), flow(1, 2), flow(3, 2)] });
    expect([rows.get('batch:0'), rows.get('batch:1'), rows.get('batch:3')]).toEqual([0, 1, 1]);
  });
});

test.each([
  [358, 4],
  [358, 5],
  [1080, 4],
  [1080, 12],
])(
  'on a page %i px wide the %i generations of two years stand whole, with all that is written',
  (width, generations) => {
    const cells = cellsFor([{ ...node(0), name: 'Terrace bran, September 2025' }], generations, width);
    expect(generations * cells.width).toBeLessThanOrEqual(width);
    expect(cells.linesOf({ ...node(0), name: 'Terrace bran, September 2025' }).join(' ')).toBe(
      'Terrace bran, September 2025',
    );
  },
);

test('which beds got what came from that wood', () => {
  const start = { kind: 'lot' as const, id: 'oak' };
  const beds = sideOf({ ...whole, start, nodes: nodesOf(family, start) }, 'down').filter((one) => one.kind === 'use');
  expect(beds.map((bed) => bed.name)).toEqual(['Bed 3, upper terrace', 'Long heap']);
});

test.each([
  ['Bed 3, upper terrace', ['Bed 3, upper', 'terrace']],
  ['Oak', ['Oak']],
  ['North bran bed behind the old cart shed', ['North bran bed', 'behind the old…']],
  ['Donaudampfschifffahrtsgesellschaft', ['Donaudampfschif…']],
  ['', []],
])('wrapWords(%j) is %j', (text, lines) => expect(wrapWords(text, 16, 2)).toEqual(lines));

test('a flow is drawn wider where more went over, and thin where nobody weighed it', () => {
  expect(flowWidth(null, 100)).toBe(1.5);
  expect(flowWidth(100, 100)).toBe(7.5);
  expect(flowWidth(25, 100)).toBe(4.5);
});
