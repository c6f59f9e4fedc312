import fc from 'fast-check';
import { expect, test } from 'vitest';
import { createChain, solveChain } from '../../../simulator/model/chain.ts';

test('solveChain() gives values that satisfy every equation of a chain whose diagonal dominates', () => {
  const node = fc.record({
    lower: fc.double({ min: -1, max: 1, noNaN: true }),
    upper: fc.double({ min: -1, max: 1, noNaN: true }),
    diagonal: fc.double({ min: 2.1, max: 9, noNaN: true }),
    rhs: fc.double({ min: -100, max: 100, noNaN: true }),
  });
  fc.assert(
    fc.property(fc.array(node, { minLength: 1, maxLength: 23 }), (given) => {
      const chain = createChain(given.length);
      chain.forEach((node, i) => {
        Object.assign(node, given[i]);
      });
      solveChain(chain);
      given.forEach((g, i) => {
        const left = i === 0 ? 0 : g.lower * (chain[i - 1]?.value ?? 0);
        const right = i === given.length - 1 ? 0 : g.upper * (chain[i + 1]?.value ?? 0);
        expect(left + g.diagonal * (chain[i]?.value ?? Number.NaN) + right).toBeCloseTo(g.rhs, 8);
      });
    }),
    { seed: 3 },
  );
});
