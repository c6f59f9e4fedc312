import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { batchAmounts } from '../../../core/lineage/amounts.ts';
import { findCircle, inOrder } from '../../../core/lineage/circle.ts';
import { type Flow, keyOf, lineageOf, refOf } from '../../../core/lineage/graph.ts';
import { fractionsOut, sharesOf } from '../../../core/lineage/shares.ts';
import { walk } from '../../../core/lineage/walk.ts';
import { plainEnglish } from '../../../shared/messages/render.ts';
import { arbitraryFlows, onwardFlows, reaches, ref } from './arbitrary-flows.ts';

const seeded = { seed: 20310406, numRuns: 300 };
const anyMass = fc.option(fc.integer({ min: 1, max: 500 }), { nil: null });
const flow = (from: string, to: string, massKg: number | null = null): Flow => ({
  from: ref(from),
  to: ref(to),
  massKg,
});

describe('findCircle()', () => {
  test('finds a circle exactly when some node reaches itself, and shows one that is there', () => {
    fc.assert(
      fc.property(arbitraryFlows(anyMass), (flows) => {
        const circle = findCircle(flows);
        const reach = reaches(flows);
        const isCircular = flows.some(({ from }) => reach(from.id, from.id));
        expect(circle !== undefined).toBe(isCircular);
        if (!circle) return;
        expect(circle[0]).toBe(circle.at(-1));
        for (const [i, key] of circle.slice(1).entries()) {
          expect(flows.some(({ from, to }) => keyOf(from) === circle[i] && keyOf(to) === key)).toBe(true);
        }
      }),
      seeded,
    );
  });

  test('does not see flows that were taken back', () => {
    const back = { ...flow('b', 'a'), withdrawnAtMs: 5 };
    expect(findCircle([flow('a', 'b'), flow('b', 'a')])).toEqual(['batch:a', 'batch:b', 'batch:a']);
    expect(findCircle([flow('a', 'b'), back])).toBeUndefined();
    expect(findCircle([flow('a', 'a')])).toEqual(['batch:a', 'batch:a']);
  });

  test('a lineage fifty thousand batches deep is walked without running out of stack', () => {
    const flows = Array.from({ length: 50_000 }, (_, i) => flow(`b${i}`, `b${i + 1}`));
    expect(findCircle(flows)).toBeUndefined();
    expect(walk(lineageOf(flows), 'batch:b0', 'down').get('batch:b50000')).toBe(50_000);
  });
});

describe('inOrder()', () => {
  test('names every node once, none before one it came from; refuses a circle', () => {
    fc.assert(
      fc.property(onwardFlows(anyMass), (flows) => {
        const order = inOrder(flows);
        expect(new Set(order).size).toBe(order.length);
        for (const { from, to } of flows) expect(order.indexOf(keyOf(from))).toBeLessThan(order.indexOf(keyOf(to)));
      }),
      seeded,
    );
    expect(() => inOrder([flow('a', 'b'), flow('b', 'a')])).toThrow(/no circle: batch:a -> batch:b -> batch:a/);
  });
});

describe('walk()', () => {
  test('down from one reaches another exactly when up from that reaches the one', () => {
    fc.assert(
      fc.property(onwardFlows(anyMass), (flows) => {
        const lineage = lineageOf(flows);
        const reach = reaches(flows);
        const keys = inOrder(flows);
        for (const from of keys) {
          const down = walk(lineage, from, 'down');
          for (const to of keys) {
            const there = from === to || reach(refOf(from).id, refOf(to).id);
            expect(down.has(to)).toBe(there);
            expect(walk(lineage, to, 'up').has(from)).toBe(there);
          }
        }
      }),
      { ...seeded, numRuns: 60 },
    );
  });

  test('counts the fewest steps, upstream below zero', () => {
    const flows = [flow('wood', 'bran'), flow('bran', 'soil'), flow('wood', 'soil'), flow('soil', 'bed')];
    expect([...walk(lineageOf(flows), 'batch:soil', 'both')]).toEqual([
      ['batch:soil', 0],
      ['batch:bed', 1],
      ['batch:bran', -1],
      ['batch:wood', -1],
    ]);
  });

  test('both ways leaves out siblings that only share a parent', () => {
    const flows = [flow('bran', 'one'), flow('bran', 'two')];
    expect([...walk(lineageOf(flows), 'batch:one', 'both').keys()]).toEqual(['batch:one', 'batch:bran']);
  });
});

describe('sharesOf()', () => {
  test('what stayed everywhere adds up to the whole, whatever was split and merged', () => {
    fc.assert(
      fc.property(
        onwardFlows(fc.integer({ min: 1, max: 500 })),
        fc.array(fc.tuple(fc.integer({ min: 1, max: 2000 }), fc.boolean()), { minLength: 10, maxLength: 10 }),
        (flows, wholes) => {
          const wholeOf = (key: string) => {
            const [massKg = 1, emptied = false] = wholes[Number(refOf(key).id.slice(1))] ?? [];
            return { massKg, emptied };
          };
          for (const start of inOrder(flows)) {
            const shares = [...sharesOf(flows, refOf(start), wholeOf).values()];
            const stayed = shares.reduce((sum, share) => sum + (share.stayed ?? Number.NaN), 0);
            expect(stayed).toBeCloseTo(1, 9);
            for (const { came } of shares) expect(came).toBeLessThanOrEqual(1 + 1e-9);
          }
        },
      ),
      { ...seeded, numRuns: 150 },
    );
  });

  test('an amount nobody wrote down makes everything beyond it unknown, and nothing else', () => {
    const flows = [flow('a', 'b', 4), flow('a', 'c', null), flow('b', 'd', 2), flow('c', 'e', 1)];
    const shares = sharesOf(flows, ref('a'), () => ({ massKg: 8, emptied: false }));
    expect(shares.get('batch:b')?.came).toBe(0.5);
    expect(shares.get('batch:d')?.came).toBe(0.125);
    expect(shares.get('batch:c')?.came).toBeNull();
    expect(shares.get('batch:e')?.came).toBeNull();
  });

  test('a share that comes two ways is added up', () => {
    const flows = [flow('a', 'b', 6), flow('a', 'c', 2), flow('b', 'd', 3), flow('c', 'd', 2)];
    const whole: Record<string, number> = { 'batch:a': 8, 'batch:b': 6, 'batch:c': 2 };
    const shares = sharesOf(flows, ref('a'), (key) => ({ massKg: whole[key] ?? null, emptied: false }));
    expect(shares.get('batch:d')?.came).toBeCloseTo(6 / 8 / 2 + 2 / 8, 12);
  });
});

describe('fractionsOut()', () => {
  const rows: [string, (number | null)[], number | null, boolean, (number | null)[]][] = [
    ['all of it, amount not written down', [null], null, true, [1]],
    ['a part, amount not written down', [null], 40, false, [null]],
    ['parts of a known whole', [10, 20], 40, false, [0.25, 0.5]],
    ['parts of an unknown whole', [10, 20], null, false, [null, null]],
    ['parts that are all there was', [10, 30], null, true, [0.25, 0.75]],
    ['the rest of a known whole', [10, null], 40, true, [0.25, 0.75]],
    ['two rests cannot be told apart', [10, null, null], 40, true, [0.25, null, null]],
    ['more than was laid, for water was added', [30, 30], 40, false, [0.5, 0.5]],
    ['nothing taken', [], 40, false, []],
  ];
  for (const [what, masses, massKg, emptied, fractions] of rows) {
    test(what, () => {
      const out = masses.map((mass, i) => flow('a', `b${i}`, mass));
      expect(fractionsOut(out, { massKg, emptied })).toEqual(fractions);
    });
  }
});

describe('batchAmounts()', () => {
  test('parts and rest add up to what was laid', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 50 }), { maxLength: 8 }), fc.nat(400), (parts, restKg) => {
        const laidKg = parts.reduce((sum, part) => sum + part, restKg);
        const amounts = batchAmounts(
          laidKg,
          [],
          parts.map((part) => flow('a', 'b', part)),
          false,
        );
        expect((amounts.outKg ?? Number.NaN) + (amounts.restKg ?? Number.NaN)).toBe(laidKg);
        expect(amounts.remark).toBeNull();
      }),
      seeded,
    );
  });

  test('says so when more was taken than laid, and keeps what is not known unknown', () => {
    const { remark, ...amounts } = batchAmounts(40, [flow('l', 'a', 39)], [flow('a', 'b', 45.255)], false);
    expect(amounts).toEqual({ laidKg: 40, inKg: 39, outKg: 45.255, restKg: 0, restAtMostKg: null });
    expect(remark && plainEnglish(remark)).toBe(
      '45.26 kg was written down as taken and 40 kg as laid: water added since may explain it, or a slip of the pen.',
    );
    expect(batchAmounts(40, [flow('l', 'a', null)], [flow('a', 'b', null)], false)).toMatchObject({
      inKg: null,
      outKg: null,
      restKg: null,
    });
    const partly = [flow('a', 'b', 5), flow('a', 'c', null)];
    expect(batchAmounts(40, [], partly, false)).toMatchObject({ outKg: null, restKg: null, restAtMostKg: 35 });
    expect(batchAmounts(null, [], [], true)).toMatchObject({ inKg: null, outKg: 0, restKg: 0 });
  });
});
