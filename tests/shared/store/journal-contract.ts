/** What every journal must do, whichever database is behind it. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Mapping } from '../../../shared/contracts/mappings.ts';
import { ConflictError, StoreError } from '../../../shared/errors.ts';
import { positions } from '../../../shared/names.ts';
import type { AlarmRecord, ClaimRecord, Journal, ProbeKeyRecord } from '../../../shared/store/journal.ts';
import { bounded } from './arbitrary-readings.ts';
import { entriesContract } from './journal-entries-contract.ts';
import { lineageContract } from './journal-lineage-contract.ts';
import { peopleContract } from './journal-people-contract.ts';
import {
  beginMs,
  branBatch,
  branPile,
  hourMs,
  raised,
  soilBatch,
  soilPile,
  terrace,
  tooWarm,
  turned,
  watered,
  yard,
} from './journal-sample.ts';
import { sharedContract } from './journal-shared-contract.ts';

export interface OpenedJournal {
  readonly journal: Journal;
  /** Closes it and opens the same journal again; absent where closing forgets it. */
  readonly reopen?: () => Promise<Journal>;
}

export function journalContract(name: string, open: () => Promise<OpenedJournal>): void {
  const withEmpty = async (run: (journal: Journal) => Promise<void>): Promise<void> => {
    const { journal } = await open();
    try {
      await run(journal);
    } finally {
      await journal.close();
    }
  };
  const withFarm = (run: (journal: Journal) => Promise<void>): Promise<void> =>
    withEmpty(async (journal) => {
      await journal.sites.add(yard);
      await journal.sites.add(terrace);
      await journal.piles.add(branPile, branBatch);
      await journal.piles.add(soilPile, soilBatch);
      await run(journal);
    });

  /** It must be a conflict, and point at the field at fault. */
  const conflict = async (attempt: Promise<unknown>, pointer: string): Promise<void> => {
    const error = await attempt.catch((reason: unknown) => reason);
    expect(error).toBeInstanceOf(ConflictError);
    expect((error as ConflictError).pointer).toBe(pointer);
  };

  describe(name, () => {
    describe('sites', () => {
      test('start empty, and are listed by id', () =>
        withEmpty(async (journal) => {
          expect(await journal.sites.list()).toEqual([]);
          await journal.sites.add(yard);
          await journal.sites.add(terrace);
          expect(await journal.sites.list()).toEqual([terrace, yard]);
        }));

      test('keep an id for one', () =>
        withFarm(async (journal) => {
          await conflict(journal.sites.add({ ...terrace, id: yard.id }), '/id');
          expect(await journal.sites.list()).toEqual([terrace, yard]);
        }));
    });

    describe('piles', () => {
      test('come with their first batch, oldest first', () =>
        withFarm(async (journal) => {
          expect(await journal.piles.list()).toEqual([branPile, soilPile]);
          expect(await journal.piles.get(soilPile.id)).toEqual(soilPile);
          expect(await journal.piles.get('no-such-pile')).toBeUndefined();
          expect(await journal.batches.open(branPile.id)).toEqual(branBatch);
        }));

      test('need a free id, a site, and a free batch id, or nothing is added', () =>
        withFarm(async (journal) => {
          const pile = { ...branPile, id: 'bran-bay-two' };
          await conflict(journal.piles.add(branPile, { ...branBatch, id: 'other' }), '/id');
          await conflict(journal.piles.add({ ...pile, siteId: 'nowhere' }, { ...branBatch, id: 'other' }), '/site');
          await conflict(journal.piles.add(pile, branBatch), '/id');
          expect(await journal.piles.list()).toEqual([branPile, soilPile]);
          expect(await journal.batches.list()).toHaveLength(2);
        }));

      test('can be renamed', () =>
        withFarm(async (journal) => {
          await journal.piles.rename(branPile.id, 'Bay by the wall');
          expect(await journal.piles.get(branPile.id)).toEqual({ ...branPile, name: 'Bay by the wall' });
        }));

      test('can be removed while nothing hangs on them, with batches, claims and watcher', () =>
        withFarm(async (journal) => {
          await journal.claims.claim(claim('probe-a', 'core', 0));
          await journal.watch.keep({ alarms: [], steps: [], watch: watchAt(0) });
          await journal.piles.remove(branPile.id);
          expect(await journal.piles.list()).toEqual([soilPile]);
          expect(await journal.batches.list()).toEqual([soilBatch]);
          expect(await journal.claims.list()).toEqual([]);
          expect(await journal.watch.get(branPile.id)).toBeUndefined();
          await journal.piles.remove('no-such-pile');
        }));

      test('stay once an act hangs on them', () =>
        withFarm(async (journal) => {
          await journal.acts.add(turned);
          await conflict(journal.piles.remove(branPile.id), '');
          expect(await journal.batches.open(branPile.id)).toEqual(branBatch);
        }));

      test('stay once an alarm hangs on them', () =>
        withFarm(async (journal) => {
          await journal.watch.keep({ alarms: [tooWarm], steps: [raised], watch: watchAt(30) });
          await conflict(journal.piles.remove(branPile.id), '');
          expect(await journal.watch.get(branPile.id)).toEqual(watchAt(30));
        }));
    });

    describe('batches', () => {
      const second = { ...branBatch, id: 'bran-bay-2', startedAtMs: beginMs + 200 * hourMs };

      test('lie on a pile one at a time', () =>
        withFarm(async (journal) => {
          await conflict(journal.batches.add(second), '/pileId');
          await journal.batches.finish(branBatch.id, beginMs + 190 * hourMs, 'sweet smell, white all through');
          expect(await journal.batches.open(branPile.id)).toBeUndefined();
          await journal.batches.add(second);
          expect(await journal.batches.open(branPile.id)).toEqual(second);
          const ended = { endedAtMs: beginMs + 190 * hourMs, outcome: 'sweet smell, white all through' };
          expect(await journal.batches.list(branPile.id)).toEqual([{ ...branBatch, ...ended }, second]);
          expect(await journal.batches.list()).toHaveLength(3);
        }));

      test('may be written down after they ended, beside the one that lies there', () =>
        withFarm(async (journal) => {
          const earlier = { ...branBatch, id: 'bran-bay-0', startedAtMs: 0, endedAtMs: 1, outcome: null };
          await journal.batches.add(earlier);
          expect(await journal.batches.list(branPile.id)).toEqual([earlier, branBatch]);
        }));

      test('need a pile and a free id', () =>
        withFarm(async (journal) => {
          await conflict(journal.batches.add({ ...second, pileId: 'no-such-pile' }), '/pileId');
          await journal.batches.finish(branBatch.id, beginMs + hourMs, null);
          await conflict(journal.batches.add({ ...second, id: branBatch.id }), '/id');
        }));

      test('change only in what is given', () =>
        withFarm(async (journal) => {
          await journal.batches.change(branBatch.id, { limits: { actC: 52, moistureMinFrac: 0.45 } });
          await journal.batches.change(branBatch.id, { startedAtMs: beginMs - hourMs });
          await journal.batches.change(branBatch.id, {});
          const changed = { ...branBatch, limits: { actC: 52, moistureMinFrac: 0.45 }, startedAtMs: beginMs - hourMs };
          expect(await journal.batches.open(branPile.id)).toEqual(changed);
          const recipe = { ...branBatch.recipe, depthM: 0.2 };
          await journal.batches.change(branBatch.id, { recipe });
          expect(await journal.batches.open(branPile.id)).toEqual({ ...changed, recipe });
        }));
    });

    describe('probes', () => {
      test('enter with their first word and keep the newest', () =>
        withEmpty(async (journal) => {
          await journal.probes.setOnline(yard.id, 'probe-a', true, 1_000);
          await journal.probes.setOnline(yard.id, 'probe-a', false, 2_000);
          await journal.probes.setOnline(yard.id, 'probe-a', true, 1_500); // came late
          expect(await journal.probes.list()).toEqual([
            { site: yard.id, probe: 'probe-a', online: false, onlineAtMs: 2_000, temperatureOffsetC: 0 },
          ]);
        }));

      test('keep an offset and a status apart, whichever comes first', () =>
        withEmpty(async (journal) => {
          await journal.probes.setTemperatureOffset(yard.id, 'probe-b', -0.4);
          await journal.probes.setOnline(yard.id, 'probe-b', true, 1_000);
          await journal.probes.setOnline(yard.id, 'probe-a', true, 1_000);
          await journal.probes.setTemperatureOffset(yard.id, 'probe-a', 1.25);
          await journal.probes.setTemperatureOffset(terrace.id, 'probe-a', 0.5);
          expect(await journal.probes.list()).toEqual([
            { site: terrace.id, probe: 'probe-a', online: null, onlineAtMs: null, temperatureOffsetC: 0.5 },
            { site: yard.id, probe: 'probe-a', online: true, onlineAtMs: 1_000, temperatureOffsetC: 1.25 },
            { site: yard.id, probe: 'probe-b', online: true, onlineAtMs: 1_000, temperatureOffsetC: -0.4 },
          ]);
        }));

      test('forgotten ones are gone, those of the same name elsewhere stay', () =>
        withEmpty(async (journal) => {
          await journal.probes.setOnline(yard.id, 'probe-a', true, 1_000);
          await journal.probes.setOnline(yard.id, 'probe-b', true, 1_000);
          await journal.probes.setOnline(terrace.id, 'probe-a', true, 1_000);
          await journal.probes.remove([
            { site: yard.id, probe: 'probe-a' },
            { site: yard.id, probe: 'never-heard-of' },
          ]);
          const left = (await journal.probes.list()).map(({ site, probe }) => `${site}/${probe}`);
          expect(left).toEqual([`${terrace.id}/probe-a`, `${yard.id}/probe-b`]);
        }));
    });

    describe('claims', () => {
      test('end the earlier claim of the same probe there and then', () =>
        withFarm(async (journal) => {
          await journal.claims.claim(claim('probe-a', 'core', 0));
          await journal.claims.claim(claim('probe-a', 'top', 5));
          expect(await journal.claims.list()).toEqual([
            { ...claim('probe-a', 'core', 0), toMs: beginMs + 5 * hourMs },
            { ...claim('probe-a', 'top', 5), toMs: null },
          ]);
        }));

      test('that reach further back than the earlier one take its place', () =>
        withFarm(async (journal) => {
          await journal.claims.claim(claim('probe-a', 'core', 5));
          await journal.claims.claim(claim('probe-a', 'top', 5));
          await journal.claims.claim(claim('probe-a', 'base', 2));
          expect(await journal.claims.list()).toEqual([{ ...claim('probe-a', 'base', 2), toMs: null }]);
          // an ended one is cut as well
          await journal.claims.release(yard.id, 'probe-a', beginMs + 9 * hourMs);
          await journal.claims.claim(claim('probe-a', 'core', 6));
          expect(await journal.claims.list()).toEqual([
            { ...claim('probe-a', 'base', 2), toMs: beginMs + 6 * hourMs },
            { ...claim('probe-a', 'core', 6), toMs: null },
          ]);
        }));

      test('are listed for one site: those of its probes and of its piles, others left out', () =>
        withFarm(async (journal) => {
          await journal.claims.claim(claim('probe-a', 'core', 0));
          await journal.claims.claim({ ...claim('probe-b', 'top', 0), site: 'elsewhere' });
          await journal.claims.claim({ ...claim('probe-c', 'core', 0), pileId: soilPile.id, site: terrace.id });
          expect((await journal.claims.list(yard.id)).map(({ probe }) => probe)).toEqual(['probe-b', 'probe-a']);
          expect((await journal.claims.list('elsewhere')).map(({ probe }) => probe)).toEqual(['probe-b']);
          expect((await journal.claims.list(terrace.id)).map(({ probe }) => probe)).toEqual(['probe-c']);
          expect(await journal.claims.list('nowhere')).toEqual([]);
        }));

      test('refuse a position that another probe holds, and change nothing', () =>
        withFarm(async (journal) => {
          await journal.claims.claim(claim('probe-a', 'core', 0));
          await journal.claims.claim(claim('probe-b', 'top', 0));
          await conflict(journal.claims.claim(claim('probe-b', 'core', 5)), '/position');
          await conflict(journal.claims.claim({ ...claim('probe-b', 'core', 5), pileId: 'no-such-pile' }), '/pileId');
          expect((await journal.claims.list()).map(({ position, toMs }) => [position, toMs])).toEqual([
            ['core', null],
            ['top', null],
          ]);
        }));

      test('free the position and the probe when released', () =>
        withFarm(async (journal) => {
          await journal.claims.claim(claim('probe-a', 'core', 0));
          await journal.claims.release(yard.id, 'probe-a', beginMs + 3 * hourMs);
          await journal.claims.claim(claim('probe-b', 'core', 1));
          expect(await journal.claims.list()).toEqual([
            { ...claim('probe-a', 'core', 0), toMs: beginMs + 3 * hourMs },
            { ...claim('probe-b', 'core', 1), toMs: null },
          ]);
          await journal.claims.release(yard.id, 'never-claimed', 0);
        }));

      test('never give a probe two places at a time nor a position two holders, whatever is claimed and released', async () => {
        const step = fc.record({
          probe: fc.constantFrom('probe-a', 'probe-b', 'probe-c'),
          position: fc.constantFrom(...positions.slice(0, 3)),
          hour: fc.nat(12),
          releases: fc.boolean(),
        });
        await fc.assert(
          fc.asyncProperty(fc.array(step, { maxLength: 14 }), (steps) =>
            withFarm(async (journal) => {
              for (const { probe, position, hour, releases } of steps) {
                if (releases) await journal.claims.release(yard.id, probe, beginMs + hour * hourMs);
                else {
                  await journal.claims.claim(claim(probe, position, hour)).catch((error: unknown) => {
                    if (!(error instanceof ConflictError)) throw error;
                  });
                }
              }
              expectOneAtATime(await journal.claims.list());
            }),
          ),
          { seed: 20310404, numRuns: 25, ...bounded },
        );
      });
    });

    describe('acts', () => {
      test('are listed by time, from a time on, with what was given and nothing else', () =>
        withFarm(async (journal) => {
          await journal.acts.add(watered);
          await journal.acts.add(turned);
          expect(await journal.acts.list(branPile.id)).toEqual([turned, watered]);
          expect(await journal.acts.list(branPile.id, watered.atMs)).toEqual([watered]);
          expect(await journal.acts.list(soilPile.id)).toEqual([]);
        }));

      test('need a pile', () =>
        withFarm((journal) => conflict(journal.acts.add({ ...turned, pileId: 'no-such-pile' }), '/pileId')));
    });

    entriesContract({ withFarm, conflict });
    lineageContract({ withFarm, conflict });
    peopleContract({ withEmpty, conflict });

    describe('alarms and watchers', () => {
      test('are kept together', () =>
        withFarm(async (journal) => {
          expect(await journal.watch.get(branPile.id)).toBeUndefined();
          await journal.watch.keep({ alarms: [tooWarm], steps: [raised], watch: watchAt(30) });
          expect(await journal.alarms.open()).toEqual([tooWarm]);
          expect(await journal.alarms.open(tooWarm.pileId)).toEqual([tooWarm]);
          expect(await journal.alarms.open('another-pile')).toEqual([]);
          expect(await journal.alarms.get(tooWarm.id)).toEqual(tooWarm);
          expect(await journal.alarms.get('no-such-alarm')).toBeUndefined();
          expect(await journal.alarms.steps(tooWarm.id)).toEqual([raised]);
          expect(await journal.watch.get(branPile.id)).toEqual(watchAt(30));
          await journal.watch.forget(branPile.id);
          expect(await journal.watch.get(branPile.id)).toBeUndefined();
        }));

      test('keep nothing of a look in which one part cannot be kept', () =>
        withFarm(async (journal) => {
          await journal.watch.keep({ alarms: [tooWarm], steps: [raised], watch: watchAt(30) });
          const changed: AlarmRecord = { ...tooWarm, state: 'acknowledged' };
          const ofNoAlarm = { ...raised, alarmId: 'no-such-alarm' };
          await expect(
            journal.watch.keep({ alarms: [changed], steps: [raised, ofNoAlarm], watch: watchAt(31) }),
          ).rejects.toThrow(StoreError);
          expect(await journal.alarms.open()).toEqual([tooWarm]);
          expect(await journal.alarms.steps(tooWarm.id)).toEqual([raised]);
          expect(await journal.watch.get(branPile.id)).toEqual(watchAt(30));
        }));

      test('keep the steps of an alarm in the order taken, at one time too', () =>
        withFarm(async (journal) => {
          await journal.watch.keep({ alarms: [tooWarm], steps: [raised], watch: null });
          const acknowledged = { ...raised, from: 'unacknowledged', to: 'acknowledged', arrow: 'acknowledge' } as const;
          const returned = {
            ...raised,
            from: 'acknowledged',
            to: 'normal',
            arrow: 'gone',
            by: 'yard hand',
            note: 'spread',
          } as const;
          const closed = { ...tooWarm, state: 'normal', closedAtMs: beginMs + 40 * hourMs } as const;
          await journal.watch.keep({ alarms: [closed], steps: [acknowledged, returned], watch: null });
          expect(await journal.alarms.steps(tooWarm.id)).toEqual([raised, acknowledged, returned]);
          expect(await journal.alarms.open()).toEqual([]);
          expect(await journal.watch.get(branPile.id)).toBeUndefined();
        }));

      test('take a change sent again, as after a commit whose answer was lost, once', () =>
        withFarm(async (journal) => {
          const change = { alarms: [tooWarm], steps: [raised], watch: null };
          await journal.watch.keep(change);
          await journal.watch.keep(change);
          expect(await journal.alarms.open()).toEqual([tooWarm]);
          expect(await journal.alarms.steps(tooWarm.id)).toEqual([raised]);
        }));

      test('hold one open alarm per pile, position and kind', () =>
        withFarm(async (journal) => {
          const ofPile = { ...tooWarm, id: 'alarm-2', kind: 'stalling', position: null } as const;
          await journal.watch.keep({ alarms: [tooWarm, ofPile], steps: [], watch: null });
          for (const twin of [tooWarm, ofPile]) {
            const again = { alarms: [{ ...twin, id: 'alarm-3' }], steps: [], watch: null };
            await expect(journal.watch.keep(again)).rejects.toThrow(StoreError);
          }
          const elsewhere = { ...tooWarm, id: 'alarm-4', position: 'top' } as const;
          await journal.watch.keep({ alarms: [elsewhere], steps: [], watch: null });
          expect((await journal.alarms.open()).map(({ id }) => id)).toEqual(['alarm-1', 'alarm-2', 'alarm-4']);
        }));

      test('may close an alarm and raise its like in one look', () =>
        withFarm(async (journal) => {
          await journal.watch.keep({ alarms: [tooWarm], steps: [], watch: null });
          const next = { ...tooWarm, id: 'alarm-2', raisedAtMs: tooWarm.raisedAtMs + hourMs };
          const closed = { ...tooWarm, state: 'normal', closedAtMs: next.raisedAtMs } as const;
          await journal.watch.keep({ alarms: [next, closed], steps: [], watch: null });
          expect(await journal.alarms.open()).toEqual([next]);
          expect(await journal.alarms.forPile(branPile.id, 10)).toEqual([next, closed]);
          expect(await journal.alarms.forPile(branPile.id, 1)).toEqual([next]);
          expect(await journal.alarms.forPile(soilPile.id, 10)).toEqual([]);
        }));
    });

    sharedContract(withFarm);

    test('mappings are listed in the order added, replaced and removed', () =>
      withEmpty(async (journal) => {
        const first: Mapping = {
          id: 'mapping-b',
          filter: 'barn/+/t',
          site: yard.id,
          probe: 'barn-{1}',
          values: [
            { pointer: '/temp', quantity: 'temperature', unit: 'F', scale: 0.1, offset: -2, probe: 'other' },
            {
              each: '/chips',
              only: { pointer: '/Id', is: '28FF' },
              pointer: '/t',
              quantity: 'temperature',
              unit: 'C',
              scale: 1,
              offset: 0,
            },
          ],
          timePointer: '/at',
          timeZone: 'Europe/Lisbon',
          availability: { filter: 'barn/+/lwt', pointer: '', online: 'Online', offline: 'Offline' },
        };
        const ignored: Mapping = { id: 'mapping-a', filter: 'barn/cat', site: '', probe: '', values: [] };
        const second = { ...ignored, filter: 'barn/dog' };
        await journal.mappings.add(first);
        await journal.mappings.add(ignored);
        await conflict(journal.mappings.add(second), '/id');
        expect(await journal.mappings.list()).toEqual([first, ignored]);
        expect(await journal.mappings.replace(second)).toBe(true);
        expect(await journal.mappings.replace({ ...second, id: 'nobody' })).toBe(false);
        expect(await journal.mappings.list()).toEqual([first, second]);
        expect(await journal.mappings.remove(first.id)).toBe(true);
        expect(await journal.mappings.remove(first.id)).toBe(false);
        expect(await journal.mappings.list()).toEqual([second]);
      }));

    test('the air ahead of a site is its newest issue, after what earlier ones said of hours gone by', () =>
      withFarm(async (journal) => {
        const issue = (issuedMs: number, hours: readonly number[], tempC: number) => ({
          siteId: yard.id,
          source: 'a service',
          issuedMs,
          receivedMs: issuedMs + 60_000,
          points: hours.map((hour) => ({ atMs: beginMs + hour * hourMs, tempC, humidityPct: null })),
        });
        expect(await journal.airAhead.get(yard.id)).toBeUndefined();
        const first = issue(beginMs, [0, 1, 2, 3], 9);
        expect(await journal.airAhead.keep(first)).toBe('kept');
        expect(await journal.airAhead.get(yard.id)).toEqual(first);
        const next = issue(beginMs + 2 * hourMs, [2, 3, 4], 12);
        expect(await journal.airAhead.keep(next)).toBe('kept');
        const joined = [...first.points.slice(0, 2), ...next.points];
        expect(await journal.airAhead.get(yard.id)).toEqual({ ...next, points: joined });
        // Again, or an earlier one that was on its way: nothing changes.
        expect(await journal.airAhead.keep(next)).toBe('known');
        expect(await journal.airAhead.keep(first)).toBe('known');
        expect((await journal.airAhead.get(yard.id))?.points).toEqual(joined);
        const weeksLater = issue(beginMs + 400 * hourMs, [400, 401], 15);
        await journal.airAhead.keep(weeksLater);
        expect(await journal.airAhead.get(yard.id)).toEqual(weeksLater);
        expect(await journal.airAhead.get(terrace.id)).toBeUndefined();
        await conflict(journal.airAhead.keep({ ...next, siteId: 'nowhere' }), '');
      }));

    test('probe keys are listed oldest first, and a revoked one stays as it was revoked', () =>
      withEmpty(async (journal) => {
        const site: ProbeKeyRecord = {
          id: 'key-b',
          name: 'Gateway of the yard',
          site: yard.id,
          probe: null,
          foreign: ['barn/+/t'],
          hears: 'own',
          secretSha256: 'ab',
          mosquittoHash: '$7$101$ab$cd',
          madeAtMs: 1_000,
          madeBy: 'Ines',
          revokedAtMs: null,
          revokedBy: null,
        };
        const probe: ProbeKeyRecord = { ...site, id: 'key-a', probe: 'p1', foreign: [], madeAtMs: 2_000, madeBy: null };
        await journal.probeKeys.add(probe);
        await journal.probeKeys.add(site);
        await conflict(journal.probeKeys.add({ ...site, name: 'another' }), '/id');
        expect(await journal.probeKeys.list()).toEqual([site, probe]);
        expect(await journal.probeKeys.revoke('key-b', 3_000, 'Bo')).toBe(true);
        expect(await journal.probeKeys.revoke('key-b', 4_000, null)).toBe(false);
        expect(await journal.probeKeys.revoke('key-c', 4_000, null)).toBe(false);
        expect(await journal.probeKeys.list()).toEqual([{ ...site, revokedAtMs: 3_000, revokedBy: 'Bo' }, probe]);
      }));

    test('settings keep the last value set', () =>
      withEmpty(async (journal) => {
        expect(await journal.settings.get('units')).toBeUndefined();
        await journal.settings.set('units', 'C');
        await journal.settings.set('units', 'F');
        expect(await journal.settings.get('units')).toBe('F');
      }));

    test('text of any kind comes back as it went in', () =>
      withEmpty(async (journal) => {
        await fc.assert(
          // PostgreSQL keeps no U+0000 in text, so nothing of ours may need it.
          fc.asyncProperty(
            fc.string({ unit: 'binary' }).filter((text) => !text.includes('\0')),
            async (text) => {
              await journal.settings.set('any', text);
              expect(await journal.settings.get('any')).toBe(text);
            },
          ),
          { seed: 20310405, numRuns: 40 },
        );
      }));

    test('many writes at once are each whole', () =>
      withFarm(async (journal) => {
        const acts = Array.from({ length: 20 }, (_, index) => ({ ...turned, id: `act-${100 + index}` }));
        await Promise.all(acts.map((act) => journal.acts.add(act)));
        expect(await journal.acts.list(branPile.id)).toEqual(acts);
      }));

    test('all of it is there after closing and opening again', async () => {
      const { journal, reopen } = await open();
      if (!reopen) return journal.close();
      await journal.sites.add(yard);
      await journal.piles.add(branPile, branBatch);
      await journal.claims.claim(claim('probe-a', 'core', 0));
      await journal.acts.add(turned);
      await journal.watch.keep({ alarms: [tooWarm], steps: [raised], watch: watchAt(30) });
      const again = await reopen();
      expect(await again.sites.list()).toEqual([yard]);
      expect(await again.piles.list()).toEqual([branPile]);
      expect(await again.batches.list()).toEqual([branBatch]);
      expect(await again.claims.list()).toHaveLength(1);
      expect(await again.acts.list(branPile.id)).toEqual([turned]);
      expect(await again.alarms.open()).toEqual([tooWarm]);
      expect(await again.watch.get(branPile.id)).toEqual(watchAt(30));
      await again.close();
    });

    test('a closed journal refuses with a StoreError', async () => {
      const { journal } = await open();
      await journal.check();
      await journal.close();
      await expect(journal.sites.list()).rejects.toThrow(StoreError);
      await expect(journal.sites.add(yard)).rejects.toThrow(StoreError);
      await expect(journal.check()).rejects.toThrow(StoreError);
    });
  });
}

function claim(probe: string, position: ClaimRecord['position'], hour: number): Omit<ClaimRecord, 'toMs'> {
  return { site: yard.id, probe, pileId: branPile.id, position, fromMs: beginMs + hour * hourMs };
}

function watchAt(hour: number) {
  return {
    pileId: branPile.id,
    batchId: branBatch.id,
    throughMs: beginMs + hour * hourMs,
    state: { phase: 'active' },
  };
}

function expectOneAtATime(claims: readonly ClaimRecord[]): void {
  for (const [index, one] of claims.entries()) {
    if (one.toMs !== null) expect(one.toMs).toBeGreaterThan(one.fromMs);
    for (const other of claims.slice(index + 1)) {
      if (one.probe === other.probe) {
        expect(one.toMs ?? Number.POSITIVE_INFINITY).toBeLessThanOrEqual(other.fromMs);
      } else if (one.toMs === null && other.toMs === null) {
        expect(one.position).not.toBe(other.position);
      }
    }
  }
}
