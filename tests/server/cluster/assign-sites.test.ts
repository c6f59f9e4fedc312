import fc from 'fast-check';
import { expect, test } from 'vitest';
import { assignSites } from '../../../server/cluster/assign-sites.ts';
import type { LeaseRecord, LeaseTable } from '../../../shared/store/journal.ts';

const nowMs = 1_000;
const table = (holders: readonly (string | null)[], workers: readonly string[]): LeaseTable => ({
  nowMs,
  leases: holders.map((holder, i): LeaseRecord => {
    const untilMs = holder === null ? 0 : nowMs + 1;
    return { site: `s${String(i).padStart(3, '0')}`, holder, fence: 1, untilMs, heard: true };
  }),
  workers: workers.map((id) => ({ id, siteCount: 0 })),
});

const rows: [string, (string | null)[], string[], string, { take: number; letGo: number }][] = [
  // what                                          holders                  workers     me   then
  ['the first takes all', [null, null, null], ['a'], 'a', { take: 3, letGo: 0 }],
  ['of two each takes at most half, rounded up', [null, null, null], ['a', 'b'], 'b', { take: 2, letGo: 0 }],
  ['nobody takes beyond a share', ['a', 'a', null], ['a', 'b'], 'a', { take: 0, letGo: 0 }],
  ['one with more than its share lets go', ['a', 'a', 'a', 'a'], ['a', 'b'], 'a', { take: 0, letGo: 2 }],
  ['one more than another is even enough', ['a', 'a', 'b'], ['a', 'b'], 'a', { take: 0, letGo: 0 }],
  [
    'the richest lets one go to who has too few',
    ['a', 'a', 'b', 'b', 'c', 'c'],
    ['a', 'b', 'c', 'd'],
    'a',
    { take: 0, letGo: 1 },
  ],
  [
    'of equals only the first lets go',
    ['a', 'a', 'b', 'b', 'c', 'c'],
    ['a', 'b', 'c', 'd'],
    'b',
    { take: 0, letGo: 0 },
  ],
  ['one that is not known to be alive moves nothing', ['a', null], ['b'], 'a', { take: 0, letGo: 0 }],
  ['what a dead worker holds is not taken before its time', ['dead', 'dead'], ['a'], 'a', { take: 0, letGo: 0 }],
];
for (const [what, holders, workers, me, then] of rows) {
  test(`assignSites(): ${what}`, () => {
    const { take, letGo } = assignSites(table(holders, workers), me);
    expect({ take: take.length, letGo: letGo.length }).toEqual(then);
  });
}

test('assignSites() brings any state to equal shares, and moves nothing from then on', () => {
  const someState = fc.record({
    workers: fc.integer({ min: 1, max: 7 }),
    holders: fc.array(fc.option(fc.integer({ min: 0, max: 6 })), { maxLength: 40 }),
  });
  fc.assert(
    fc.property(someState, ({ workers: count, holders: given }) => {
      const workers = Array.from({ length: count }, (_, i) => `w${i}`);
      const holders = given.map((one) => (one === null || one >= count ? null : `w${one}`));
      const round = () => {
        let moved = 0;
        for (const me of workers) {
          const { take, letGo } = assignSites(table(holders, workers), me);
          for (const site of [...take, ...letGo]) {
            holders[Number(site.slice(1))] = take.includes(site) ? me : null;
            moved += 1;
          }
        }
        return moved;
      };
      for (let i = 0; i < 200 && round() > 0; i += 1);
      expect(round()).toBe(0);
      const shares = workers.map((me) => holders.filter((holder) => holder === me).length);
      expect(shares.reduce((sum, share) => sum + share, 0)).toBe(holders.length);
      expect(Math.max(...shares) - Math.min(...shares)).toBeLessThanOrEqual(1);
    }),
  );
});
