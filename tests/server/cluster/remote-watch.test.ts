import pino from 'pino';
import { expect, test } from 'vitest';
import { defaultSession } from '../../../ingest/client/site-sessions.ts';
import { RemoteWatch } from '../../../server/cluster/remote-watch.ts';
import { unheldSites } from '../../../server/cluster/unheld-sites.ts';
import { LiveHub } from '../../../server/services/live/live-hub.ts';
import { unseenPile } from '../../../server/services/views/unjudged-pile.ts';
import { StoreError } from '../../../shared/errors.ts';
import { openSqliteJournal } from '../../../shared/store/journal/sqlite-journal.ts';
import { until } from '../../helpers/until.ts';
import { beginMs, branBatch, branPile, tooWarm, yard } from '../../shared/store/journal-sample.ts';

const log = pino({ level: 'silent' });

async function openFarm(follows: 'views' | 'records' = 'views') {
  const journal = await openSqliteJournal(':memory:');
  await journal.sites.add(yard);
  await journal.piles.add(branPile, branBatch);
  await journal.claims.claim({ site: yard.id, probe: 'p1', pileId: branPile.id, position: 'core', fromMs: beginMs });
  await journal.watch.keep({ alarms: [tooWarm], steps: [], watch: null });
  const watch = await RemoteWatch.open({
    journal,
    hub: new LiveHub(),
    log,
    follows,
    probesChanged: async () => {},
  });
  const asked = () =>
    until('a command', async () => {
      const [command] = await journal.commands.waiting([yard.id]);
      return command;
    });
  return { journal, watch, asked };
}

test('a pile that no worker has seen yet is shown as being read, with what is written down of it', async () => {
  const { journal, watch } = await openFarm();
  expect(watch.get(branPile.id)?.summary()).toMatchObject({
    name: branPile.name,
    batch: { id: branBatch.id, phaseReason: 'not-judged' },
    condition: 'This pile is being read for the first time.',
  });
  expect(await watch.get(branPile.id)?.judged()).toEqual({ assessment: null, band: null });
  await watch.close();
  await journal.close();
});

test('readings brought in have the piles of their probes read anew by whoever watches them, and no others', async () => {
  const { journal, watch, asked } = await openFarm();
  await watch.broughtIn([{ site: yard.id, probe: 'unclaimed' }]);
  expect(await journal.commands.waiting([yard.id])).toEqual([]);
  const done = watch.broughtIn([{ site: yard.id, probe: 'p1' }]);
  expect(await asked()).toMatchObject({ pileId: branPile.id, command: { kind: 'reload' } });
  await done; // nobody answers: it is still done once somebody takes the site
  expect(await journal.commands.waiting([yard.id])).toHaveLength(1);
  await watch.close();
  await journal.close();
});

test('an alarm that nobody can be asked about just now is left as it is, and the person is told', {}, async () => {
  const { journal, watch, asked } = await openFarm();
  const handling = watch.handleAlarm(tooWarm.id, { kind: 'acknowledge' });
  const refused = expect(handling).rejects.toThrow(StoreError);
  await asked();
  await refused;
  expect(await journal.commands.waiting([yard.id])).toEqual([]);
  expect(await watch.handleAlarm('no-such-alarm', { kind: 'acknowledge' })).toBe(false);
  await watch.close();
  await journal.close();
});

test('one that follows records alone reads no view until every pile is asked for', async () => {
  const { journal, watch } = await openFarm('records');
  const pages = await RemoteWatch.open({
    journal,
    hub: new LiveHub(),
    log,
    follows: 'views',
    probesChanged: async () => {},
  });
  await journal.leases.know([yard.id]);
  await journal.leases.beat('w', 60_000, {});
  const lease = await journal.leases.take(yard.id, 'w', 60_000);
  if (!lease) throw new Error('the site must be free');
  const summary = { ...unseenPile(branPile, branBatch), condition: 'Warm, as it should be.' };
  await journal.views.keep(lease, [{ pileId: branPile.id, summary, assessment: null }]);
  const shownBy = (one: RemoteWatch) => one.get(branPile.id)?.summary().condition;
  await until('pages to show it', async () => shownBy(pages) === summary.condition || undefined);
  expect(shownBy(watch)).toBe('This pile is being read for the first time.');
  for (const one of [watch, pages]) {
    expect((await one.everyPile()).map((pile) => pile.summary().condition)).toEqual([summary.condition]);
  }
  await Promise.all([watch.close(), pages.close()]);
  await journal.close();
});

test('unheldSites() knows whose site nobody watches just now, and whether somebody has the default session', async () => {
  const { journal, watch } = await openFarm();
  await journal.leases.know([defaultSession, yard.id, 'terrace']);
  expect(['terrace', yard.id, null].map(await unheldSites(journal))).toEqual([true, true, true]);
  await journal.leases.beat('w', 60_000, {});
  for (const site of [yard.id, defaultSession]) await journal.leases.take(site, 'w', 60_000);
  expect(['terrace', yard.id, null].map(await unheldSites(journal))).toEqual([true, false, false]);
  await journal.leases.leave('w');
  expect(['terrace', yard.id, null].map(await unheldSites(journal))).toEqual([true, true, true]);
  await watch.close();
  await journal.close();
});
