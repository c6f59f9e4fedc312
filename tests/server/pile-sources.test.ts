import { expect, test } from 'vitest';
import { pileSources } from '../../server/pile/pile-sources.ts';
import type { ClaimRecord } from '../../shared/store/journal.ts';

/** pile/probe, from, to. */
const air = (name: string, fromMs: number, toMs: number | null = null, site = 'yard'): ClaimRecord => {
  const [pileId = '', probe = ''] = name.split('/');
  return { site, probe, pileId, position: 'air', fromMs, toMs } as ClaimRecord;
};

const rows: [what: string, claims: ClaimRecord[], heard: string[]][] = [
  ['nothing where the site has no air probe', [], []],
  ['its own', [air('one/a', 5)], ['a 5-']],
  ['its own and not that of a neighbour', [air('two/b', 1), air('one/a', 5)], ['a 5-']],
  ['that of a neighbour', [air('two/b', 1)], ['b 1-']],
  ['the first of neighbours that still serves', [air('two/b', 1, 9), air('three/c', 4), air('four/d', 6)], ['c 4-']],
  ['the first of neighbours where none serves', [air('two/b', 1, 9), air('three/c', 4, 8)], ['b 1-9']],
  ['nothing of another site', [air('two/b', 1, null, 'terrace')], []],
  ['its own until that ended, then that of a neighbour', [air('two/b', 1), air('one/a', 5, 20)], ['a 5-20', 'b 20-']],
  [
    'its own until that ended, and nothing of a neighbour that ended before',
    [air('two/b', 1, 20), air('one/a', 5, 20)],
    ['a 5-20'],
  ],
  ['its own again', [air('two/b', 1), air('one/a', 5, 20), air('one/e', 30)], ['a 5-20', 'e 30-']],
];
test.each(rows)('pileSources() hears %s', (_what, claims, heard) => {
  const sources = pileSources(claims, 'one', 'yard');
  expect(sources.map(({ claim: { probe, fromMs, toMs } }) => `${probe} ${fromMs}-${toMs ?? ''}`)).toEqual(heard);
});
