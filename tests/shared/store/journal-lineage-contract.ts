/** The part of the journal's contract about lots, flows, uses and endings. */
import { describe, expect, test } from 'vitest';
import { ConflictError } from '../../../shared/errors.ts';
import { verbatim } from '../../../shared/messages/message.ts';
import type { FlowRecord } from '../../../shared/store/journal.ts';
import type { FarmTests } from './journal-entries-contract.ts';
import {
  bedUse,
  beginMs,
  branBatch,
  branLot,
  branPile,
  hourMs,
  laidFrom,
  oakLot,
  soilBatch,
  soilPile,
  usedOn,
} from './journal-sample.ts';

const anything = () => undefined;

export function lineageContract({ withFarm, conflict }: FarmTests): void {
  describe('lineage', () => {
    const next = { ...branBatch, id: 'bran-bay-2', startedAtMs: beginMs + 50 * hourMs };
    const on: FlowRecord = {
      ...laidFrom,
      id: 'flow-on',
      from: { kind: 'batch', id: branBatch.id },
      to: { kind: 'batch', id: next.id },
      way: 'continued',
      atMs: next.startedAtMs,
    };
    const ended = { batchId: branBatch.id, atMs: next.startedAtMs, ending: 'continued', reason: null } as const;

    test('lots are listed oldest first and can be changed', () =>
      withFarm(async (journal) => {
        await journal.lineage.keep({ lots: [branLot, oakLot] }, anything);
        expect(await journal.lots.list()).toEqual([oakLot, branLot]);
        const emptied = { ...oakLot, usedUp: true, note: 'gave the last of it away', massKg: null };
        await journal.lots.change(emptied);
        expect(await journal.lots.get(oakLot.id)).toEqual(emptied);
        expect(await journal.lots.get('no-such-lot')).toBeUndefined();
      }));

    test('a change ends a batch, lays the next where it lay and says what went over', () =>
      withFarm(async (journal) => {
        const named = { batchId: next.id, name: 'Second heap' };
        await journal.lineage.keep({ ended: [ended], batches: [next], names: [named], flows: [on] }, anything);
        expect(await journal.batches.list(branPile.id)).toEqual([{ ...branBatch, endedAtMs: ended.atMs }, next]);
        expect(await journal.lineage.flows()).toEqual([on]);
        expect(await journal.lineage.stories()).toEqual([
          { batchId: branBatch.id, name: null, ending: 'continued', reason: null },
          { batchId: next.id, name: 'Second heap', ending: null, reason: null },
        ]);
      }));

    test('a change may bring its own pile', () =>
      withFarm(async (journal) => {
        const pile = { ...branPile, id: 'bay-two', name: 'Bay two' };
        await journal.lineage.keep({ piles: [pile], batches: [{ ...next, pileId: pile.id }], flows: [on] }, anything);
        expect(await journal.batches.open('bay-two')).toMatchObject({ id: next.id });
        expect(await journal.batches.open(branPile.id)).toEqual(branBatch);
      }));

    test('nothing of a change is kept when one part cannot be', () =>
      withFarm(async (journal) => {
        const change = { ended: [ended], batches: [next], lots: [oakLot], flows: [on] };
        await conflict(journal.lineage.keep({ ...change, ended: [] }, anything), '/on/pileId');
        const ofNoLot = { ...on, id: 'flow-x', from: { kind: 'lot', id: 'no-such-lot' } } as const;
        await conflict(journal.lineage.keep({ ...change, flows: [on, ofNoLot] }, anything), '');
        const refuse = () => {
          throw new ConflictError(verbatim('not together'), '/flows');
        };
        await conflict(journal.lineage.keep(change, refuse), '/flows');
        expect(await journal.batches.list(branPile.id)).toEqual([branBatch]);
        expect(await journal.lots.list()).toEqual([]);
        expect(await journal.lineage.flows()).toEqual([]);
        expect(await journal.lineage.stories()).toEqual([]);
      }));

    test('the guard hears what stands, the new flows last', () =>
      withFarm(async (journal) => {
        await journal.lineage.keep({ lots: [oakLot], flows: [laidFrom] }, anything);
        expect(await journal.lineage.withdraw(laidFrom.id, beginMs + 1)).toBe(true);
        expect(await journal.lineage.withdraw(laidFrom.id, beginMs + 2)).toBe(false);
        const again = { ...laidFrom, id: 'flow-again' };
        await journal.lineage.keep({ flows: [again] }, (flows) => expect(flows).toEqual([again]));
        const third = { ...laidFrom, id: 'flow-third' };
        await journal.lineage.keep({ flows: [third] }, (flows) => expect(flows).toEqual([again, third]));
        expect(await journal.lineage.flows()).toEqual([{ ...laidFrom, withdrawnAtMs: beginMs + 1 }, again, third]);
      }));

    test('uses are kept with the batch they came from', () =>
      withFarm(async (journal) => {
        await journal.lineage.keep({ uses: [bedUse], flows: [usedOn] }, anything);
        expect(await journal.lineage.uses(branBatch.id)).toEqual([bedUse]);
        expect(await journal.lineage.uses(soilBatch.id)).toEqual([]);
        expect(await journal.lineage.uses()).toEqual([bedUse]);
      }));

    test('nothing is taken from a batch that was abandoned', () =>
      withFarm(async (journal) => {
        const gone = { ...ended, ending: 'abandoned', reason: 'black all through' } as const;
        await journal.lineage.keep({ ended: [gone] }, anything);
        await conflict(journal.lineage.keep({ batches: [next], flows: [on] }, anything), '');
        expect(await journal.batches.open(branPile.id)).toBeUndefined();
      }));

    test('a batch keeps its name and outcome through its ending', () =>
      withFarm(async (journal) => {
        await journal.lineage.rename(branBatch.id, 'First heap');
        await journal.lineage.keep({ ended: [{ ...ended, ending: 'used' }] }, anything);
        await journal.lineage.setOutcome(branBatch.id, 'white all through');
        expect(await journal.lineage.stories()).toEqual([
          { batchId: branBatch.id, name: 'First heap', ending: 'used', reason: null },
        ]);
        expect((await journal.batches.list(branPile.id))[0]).toMatchObject({ outcome: 'white all through' });
      }));

    test('a pile stays once a flow or an entry hangs on it', () =>
      withFarm(async (journal) => {
        await journal.lineage.keep({ lots: [oakLot], flows: [laidFrom] }, anything);
        await conflict(journal.piles.remove(branPile.id), '');
        await journal.lineage.rename(soilBatch.id, 'Terrace');
        await journal.piles.remove(soilPile.id);
        expect(await journal.lineage.stories()).toEqual([]);
      }));
  });
}
