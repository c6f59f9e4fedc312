/** The part of the journal's contract about what several processes share. */
import { describe, expect, test } from 'vitest';
import type { PileSummary } from '../../../shared/contracts/piles.ts';
import { LostLeaseError } from '../../../shared/errors.ts';
import type { Journal, Lease } from '../../../shared/store/journal.ts';
import { beginMs, branPile, raised, tooWarm } from './journal-sample.ts';

type WithFarm = (run: (journal: Journal) => Promise<void>) => Promise<void>;
/** A pile as its watcher saw it. */
const seen = (next: string): PileSummary => ({
  id: branPile.id,
  name: branPile.name,
  site: branPile.siteId,
  stage: 'bran',
  batch: null,
  positions: {},
  condition: 'No batch lies here now.',
  next,
  tone: 'calm',
  alarms: [],
});

const minute = 60_000;
const site = branPile.siteId;

export function sharedContract(withFarm: WithFarm): void {
  const taken = async (journal: Journal, worker: string, forMs = minute): Promise<Lease> => {
    await journal.leases.know([site]);
    const lease = await journal.leases.take(site, worker, forMs);
    if (!lease) throw new Error(`${worker} got no lease`);
    return lease;
  };

  describe('leases', () => {
    test('of a site are held by one worker, and number each change of hands', () =>
      withFarm(async (journal) => {
        const first = await taken(journal, 'one');
        expect(first).toEqual({ site, holder: 'one', fence: 1 });
        expect(await journal.leases.take(site, 'two', minute)).toBeUndefined();
        await journal.leases.release(first);
        expect(await journal.leases.take(site, 'two', minute)).toEqual({ site, holder: 'two', fence: 2 });
        await journal.leases.know([site]); // known already
        expect((await journal.leases.table()).leases).toMatchObject([{ site, holder: 'two', fence: 2 }]);
      }));

    test('are prolonged by the beat, and may be taken once their time is over', () =>
      withFarm(async (journal) => {
        await taken(journal, 'one', 0);
        await journal.leases.beat('one', minute, {});
        expect(await journal.leases.take(site, 'two', minute)).toBeUndefined();
        await journal.leases.beat('one', 0, {});
        expect(await journal.leases.take(site, 'two', minute)).toMatchObject({ holder: 'two', fence: 2 });
        const { leases, workers, nowMs } = await journal.leases.beat('one', minute, { sites: 4 });
        expect(leases[0]).toMatchObject({ holder: 'two' });
        expect(leases[0]?.untilMs).toBeGreaterThan(nowMs);
        expect(workers).toEqual([{ id: 'one', siteCount: 4 }]);
      }));

    test('of a worker that leaves are free at once', () =>
      withFarm(async (journal) => {
        await taken(journal, 'one');
        await journal.leases.beat('one', minute, {});
        await journal.leases.leave('one');
        expect((await journal.leases.table()).workers).toEqual([]);
        expect(await journal.leases.take(site, 'two', minute)).toMatchObject({ fence: 2 });
      }));

    test('that are lost let nothing be written: no alarm, no step, no place, no view', () =>
      withFarm(async (journal) => {
        const lost = await taken(journal, 'one', 0);
        const now = await taken(journal, 'two');
        const watch = { pileId: branPile.id, batchId: tooWarm.id, throughMs: beginMs, state: '{}' };
        const change = { alarms: [tooWarm], steps: [raised], watch: null };
        const refused = { ...change, watch, lease: lost };
        await expect(journal.watch.keep(refused)).rejects.toThrow(LostLeaseError);
        await expect(
          journal.views.keep(lost, [{ pileId: branPile.id, summary: seen('Wait.'), assessment: {} }]),
        ).rejects.toThrow(LostLeaseError);
        expect(await journal.leases.setHeard(lost, true)).toBe(false);
        await journal.leases.release(lost);
        expect(await journal.alarms.open()).toEqual([]);
        expect(await journal.alarms.steps(tooWarm.id)).toEqual([]);
        expect(await journal.watch.get(branPile.id)).toBeUndefined();
        expect(await journal.views.list()).toEqual([]);
        await journal.watch.keep({ ...change, lease: now });
        expect(await journal.alarms.open()).toEqual([tooWarm]);
        expect(await journal.leases.setHeard(now, true)).toBe(true);
        expect((await journal.leases.table()).leases[0]).toMatchObject({ holder: 'two', heard: true });
      }));

    test('go to one of many that ask at the same time', () =>
      withFarm(async (journal) => {
        await journal.leases.know([site]);
        const asked = await Promise.all(
          Array.from({ length: 12 }, (_, i) => journal.leases.take(site, `worker-${i}`, minute)),
        );
        expect(asked.filter((lease) => lease !== undefined)).toHaveLength(1);
      }));
  });

  test('views of piles are kept whole or in part, listed and forgotten', () =>
    withFarm(async (journal) => {
      const lease = await taken(journal, 'one');
      const view = { pileId: branPile.id, summary: seen('Wait.'), assessment: { b: 1 }, band: { c: 1 } };
      await journal.views.keep(lease, [view, { ...view, pileId: 'other' }]);
      await journal.views.keep(lease, [{ pileId: branPile.id, summary: seen('Turn it.'), assessment: { b: 2 } }]);
      expect(await journal.views.list([branPile.id])).toMatchObject([
        { pileId: branPile.id, summary: seen('Turn it.') },
      ]);
      expect(await journal.views.judged(branPile.id)).toEqual({ assessment: { b: 2 }, band: { c: 1 } });
      expect(await journal.views.list()).toHaveLength(2);
      await journal.views.forget(branPile.id);
      expect(await journal.views.judged(branPile.id)).toBeUndefined();
      expect(await journal.views.list([])).toEqual([]);
    }));

  test('commands wait in the order made until they are answered or withdrawn', () =>
    withFarm(async (journal) => {
      const command = (id: string) => ({
        id,
        site,
        pileId: branPile.id,
        command: { kind: 'reload' as const },
        askedMs: beginMs,
      });
      for (const id of ['b', 'a', 'c']) await journal.commands.add(command(id));
      expect(await journal.commands.waiting([site])).toEqual([command('b'), command('a'), command('c')]);
      expect(await journal.commands.waiting(['elsewhere'])).toEqual([]);
      expect(await journal.commands.answerTo('b')).toBeUndefined();
      await journal.commands.answer('b', true);
      expect(await journal.commands.answerTo('b')).toBe(true);
      expect(await journal.commands.withdraw('b')).toBe(false);
      expect(await journal.commands.withdraw('a')).toBe(true);
      expect(await journal.commands.waiting([site])).toEqual([command('c')]);
      await journal.commands.clear(-minute);
      expect(await journal.commands.answerTo('b')).toBeUndefined();
      expect(await journal.commands.waiting([site])).toEqual([command('c')]);
    }));
}
