import pino from 'pino';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { CrossSiteReadings } from '../../../server/cluster/cross-site-readings.ts';
import type { OwnPile } from '../../../server/pile/watched-pile.ts';
import { StoreError } from '../../../shared/errors.ts';
import type { Reading } from '../../../shared/reading.ts';
import { openSqliteReadings } from '../../../shared/store/readings/sqlite-readings.ts';
import type { ReadingsStore } from '../../../shared/store/readings-store.ts';

const minuteMs = 60_000;
const beginMs = Date.UTC(2031, 2, 30);
let nowMs = beginMs;
let store: ReadingsStore;
let heard: Reading[];
let held: string[];
let crossSite: CrossSiteReadings;

/** A pile of the yard, with a probe that speaks for the site of its gateway. */
const claim = { site: 'gateway', probe: 'p1', pileId: 'bed', position: 'core' as const, fromMs: 0, toMs: null };
const pile = { sources: [{ claim, position: 'core' }] } as unknown as OwnPile;

beforeEach(() => {
  nowMs = beginMs;
  store = openSqliteReadings(':memory:');
  heard = [];
  held = ['yard'];
  crossSite = new CrossSiteReadings({
    clock: { nowMs: () => nowMs, speed: 1 },
    log: pino({ level: 'silent' }),
    readings: store,
    probes: { record: (reading) => heard.push(reading) as never },
    watch: { all: () => [pile] },
    isHeld: (site) => held.includes(site),
  });
});
afterEach(() => store.close());

const keep = (value: number, atMs = nowMs, probe = 'p1') =>
  store.append([{ site: 'gateway', probe, quantity: 'temperature', value, atMs }]);
const values = () => heard.map(({ value }) => value);

test('what a probe of a site held elsewhere says is passed on once it is kept, and once', async () => {
  await crossSite.fetch();
  await keep(31);
  await keep(99, nowMs, 'of-nobody-here');
  await crossSite.fetch();
  nowMs += minuteMs;
  await keep(32);
  await crossSite.fetch();
  await crossSite.fetch();
  expect(values()).toEqual([31, 32]);
});

test('what was kept before the pile was taken is not told again, but for the newest', async () => {
  await keep(29, nowMs - 60 * minuteMs);
  await keep(30, nowMs - minuteMs);
  await crossSite.fetch();
  expect(values()).toEqual([30]);
});

test('what came late is passed on within thirty looks', async () => {
  await crossSite.fetch();
  await keep(28, nowMs - 300 * minuteMs);
  for (let look = 0; look < 30; look += 1) await crossSite.fetch();
  expect(values()).toEqual([28]);
});

test('a site that is held here is heard by its own way, and by no other', async () => {
  held.push('gateway');
  await keep(31);
  await crossSite.fetch();
  expect(values()).toEqual([]);
});

test('what this process took in itself for a site that nobody holds yet is not passed on again', async () => {
  await crossSite.fetch();
  await keep(31);
  crossSite.tookIn([{ site: 'gateway', probe: 'p1', quantity: 'temperature', value: 31, atMs: nowMs }]);
  await crossSite.fetch();
  expect(values()).toEqual([]);
});

test('what was kept while the store could not be asked is passed on once it can be', async () => {
  await crossSite.fetch();
  const { rows } = store;
  store.rows = async () => {
    throw new StoreError('away');
  };
  await keep(33);
  nowMs += 120 * minuteMs;
  await crossSite.fetch();
  store.rows = rows;
  await crossSite.fetch();
  expect(values()).toEqual([33]);
});
