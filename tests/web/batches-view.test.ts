/** Which batches are listed, and in which order. */
import { expect, test } from 'vitest';
import type { BatchView } from '../../shared/contracts/lineage.ts';
import { verbatim } from '../../shared/messages/message.ts';
import { msPerDay } from '../../shared/units.ts';
import type { Verdict } from '../../shared/verdict.ts';
import {
  batchesAddress,
  chosenBatches,
  type ListedBatch,
  readBatchesView,
} from '../../web/src/features/batch/batches-view.ts';

const verdictOf = (verdict: Verdict): BatchView['verdict'] => ({
  verdict,
  why: null,
  note: null,
  by: null,
  at: '2031-05-10T08:00:00.000Z',
  entryId: 'e',
  versionId: 'v',
  says: '',
  messages: { says: verbatim('') },
});

interface Given {
  readonly day: string;
  readonly peakC?: number | null;
  readonly days?: number;
  readonly verdict?: Verdict;
}

function listed(name: string, { day, peakC, days = 8, verdict }: Given): ListedBatch {
  const batch: BatchView = {
    id: name,
    name,
    pileId: 'bed',
    pileName: 'Barn bed',
    site: 'yard',
    stage: 'bran',
    startedAt: `${day}T08:00:00.000Z`,
    endedAt: null,
    ending: null,
    reason: null,
    outcome: null,
    verdict: verdict ? verdictOf(verdict) : null,
  };
  return { batch, peakC, lengthMs: days * msPerDay, words: `${name} bran stage Barn bed Saltmere` };
}

const all = [
  listed('Árbol 2', { day: '2031-04-01', peakC: 44, verdict: 'poor' }),
  listed('Árbol 10', { day: '2031-05-01', peakC: 58, days: 12, verdict: 'good' }),
  listed('Barn', { day: '2031-06-01', peakC: null, verdict: 'usable' }),
  listed('Cart', { day: '2031-03-01', peakC: 47, days: 3 }),
  listed('Dam', { day: '2031-02-01', verdict: 'good' }),
];

test.each([
  ['newest', ['Barn', 'Árbol 10', 'Árbol 2', 'Cart', 'Dam']],
  // Among equals the newest first; what nobody judged is taken for neither good nor lost.
  ['best', ['Árbol 10', 'Dam', 'Barn', 'Árbol 2', 'Cart']],
  ['heat', ['Árbol 10', 'Cart', 'Árbol 2', 'Barn', 'Dam']],
  ['length', ['Árbol 10', 'Barn', 'Árbol 2', 'Dam', 'Cart']],
  ['name', ['Árbol 2', 'Árbol 10', 'Barn', 'Cart', 'Dam']],
] as const)('batches by %s', (order, names) => {
  expect(chosenBatches(all, { find: '', order }).map(({ batch }) => batch.name)).toEqual(names);
});

test('what is typed is found in all that a line says, without its accents', () => {
  const found = (find: string) => chosenBatches(all, { find, order: 'name' }).map(({ batch }) => batch.name);
  expect(found('ARBOL')).toEqual(['Árbol 2', 'Árbol 10']);
  expect(found('saltmere cart')).toEqual(['Cart']);
  expect(found('zebra')).toEqual([]);
});

test('the address holds what was chosen, and what it cannot mean is the usual', () => {
  expect(batchesAddress({ find: 'cart shed', order: 'best' })).toBe('/batches?find=cart+shed&order=best');
  expect(batchesAddress({ find: '', order: 'newest' })).toBe('/batches');
  expect(readBatchesView({ order: 'worst', find: 'x' })).toEqual({ find: 'x', order: 'newest' });
});
