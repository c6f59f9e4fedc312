import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { entrySchema } from '../../../shared/contracts/journal.ts';
import { type PileDetail, pileDetailSchema } from '../../../shared/contracts/piles.ts';
import { readinessSchema } from '../../../shared/contracts/readiness.ts';
import { batchRecordSchema } from '../../../shared/contracts/records.ts';
import type { HandKind } from '../../../shared/warning.ts';
import { ago, type Farm, hourMs, openFarm, site } from './farm.ts';

let farm: Farm;
beforeAll(async () => {
  farm = await openFarm();
});
afterAll(() => farm.close());

const crumbles = { kind: 'squeeze', feel: 'crumbles' };
const holds = { kind: 'squeeze', feel: 'holds' };
const foul = { kind: 'smell', smells: ['rotten', 'ammonia'] };
const black = { kind: 'growth', colour: 'black', place: 'all-through', amount: 'many' };

const recipe = { material: 'wheat-bran', depthM: 0.3, cover: 'breathable', moistureFrac: 0.6 };

/** A pile of two days; with a core at work that spoke minutes ago, where it is measured. */
async function lay(id: string, isMeasured: boolean): Promise<string> {
  const startedAt = ago(48);
  const batchId = await farm.addPile(id, { id, startedAt, recipe });
  if (!isMeasured) return batchId;
  await farm.send('PUT', `/api/sites/${site}/probes/${id}`, {});
  const values: [number, number][] = [];
  for (let min = 0; min < 48 * 60; min += 10) {
    values.push([Date.parse(startedAt) + min * 60_000, Math.min(41, 22 + min / 90) + (min % 30) / 100]);
  }
  await farm.commit(id, 'temperature', values);
  const claimed = await farm.post(`/api/probes/${site}/${id}/claim`, { pileId: id, position: 'core', from: startedAt });
  if (claimed.statusCode >= 300) throw new Error(claimed.body);
  return batchId;
}

const note = async (pileId: string, what: object, at = ago(0)) =>
  entrySchema.parse((await farm.post(`/api/piles/${pileId}/entries`, { what, at, by: 'Ana' })).json());
const pileOf = async (pileId: string): Promise<PileDetail> =>
  pileDetailSchema.parse((await farm.get(`/api/piles/${pileId}`)).json());
const standing = ({ alarms }: PileDetail) =>
  alarms.filter(({ state }) => state === 'unacknowledged').map(({ kind }) => kind as string);

describe('what a person notes is heard at once', () => {
  const rows: [string, object, HandKind, RegExp][] = [
    ['a handful that crumbles', crumbles, 'hand-dry', /^Ana’s squeeze just now says it is too dry/],
    ['a smell of rot and ammonia', foul, 'bad-smell', /^It smells rotten and of ammonia, noted by Ana just now/],
    ['black growth all through', black, 'wrong-growth', /^Black growth all through it, many patches, noted by Ana/],
  ];
  for (const isMeasured of [true, false]) {
    for (const [what, facts, kind, says] of rows) {
      test(`${what}, ${isMeasured ? 'beside a probe that says nothing further' : 'where no probe ever was'}`, async () => {
        const id = `${kind}-${isMeasured ? 'measured' : 'bare'}`;
        await lay(id, isMeasured);
        const before = await pileOf(id);
        const { at } = await note(id, facts);
        const pile = await pileOf(id);
        expect(pile).toMatchObject({ condition: expect.stringMatching(says), tone: 'act' });
        const alarm = pile.alarms.find((one) => one.kind === kind);
        expect(alarm).toMatchObject({ state: 'unacknowledged', noted: { by: 'Ana', at } });
        expect(alarm?.caution).toMatch(/mask/);
        if (kind !== 'hand-dry') return;
        expect(pile.batch?.moisture?.frac).toBeLessThan((before.batch?.moisture?.frac ?? 0) - 0.005);
        expect(pile.condition).toMatch(
          isMeasured ? /the estimate still says 5\d % water: they disagree\.$/ : /too dry\.$/,
        );
      });
    }
  }

  test('and told of: a notice goes into the outbox with the alarm, with who noted it', async () => {
    await lay('told', false);
    await note('told', foul);
    const [alarm] = (await pileOf('told')).alarms;
    const [notice] = await farm.one.installation.journal.notifications.notices.ofAlarm(alarm?.id ?? '');
    expect(notice).toMatchObject({ about: 'alarm', answer: 'first-raise' });
    const kept = await farm.one.installation.journal.notifications.notices.get(notice?.id ?? '');
    expect(kept?.facts).toMatchObject({ kind: 'bad-smell', noted: { by: 'Ana' } });
  });
});

test('an entry that is corrected or withdrawn takes its sign back', async () => {
  await lay('taken-back', false);
  const slip = await note('taken-back', crumbles);
  const smelt = await note('taken-back', foul);
  expect(standing(await pileOf('taken-back'))).toEqual(expect.arrayContaining(['hand-dry', 'bad-smell']));
  await farm.post(`/api/entries/${slip.id}/corrections`, { replaces: slip.versionId, what: holds });
  expect(standing(await pileOf('taken-back'))).toEqual(['bad-smell']);
  await farm.post(`/api/entries/${smelt.id}/withdrawal`, { replaces: smelt.versionId });
  expect(standing(await pileOf('taken-back'))).toEqual([]);
});

test('a queue of entries that waited out of reach is placed by when each was noted', async () => {
  await lay('late', false);
  await note('late', holds, ago(1));
  const entries = [
    { id: 'late-crumble-1', what: crumbles, at: ago(2), by: 'Ana' }, // the good handful came after it
    { id: 'late-smell-11', what: foul, at: ago(3), by: 'Ana' },
  ].map((entry) => ({ pileId: 'late', entry }));
  expect((await farm.post('/api/entries', { entries })).statusCode).toBeLessThan(300);
  const pile = await pileOf('late');
  expect(standing(pile)).toEqual(['bad-smell']);
  expect(pile.condition).toMatch(/noted by Ana 3 hours ago/);
});

test('the act that answers ends it and asks for another look; the batch’s end ends it for good', async () => {
  await lay('answered', false);
  await note('answered', crumbles, ago(0.2));
  await note('answered', { kind: 'watered', amountL: 5 }, ago(0.1));
  const pile = await pileOf('answered');
  expect(standing(pile)).toEqual([]);
  expect(pile.next).toMatch(/^It was watered 6 minutes ago because it was too dry by hand\. Squeeze a handful/);
  await note('answered', crumbles);
  expect(standing(await pileOf('answered'))).toEqual(['hand-dry']);
  await farm.post('/api/piles/answered/finish', {});
  expect(standing(await pileOf('answered'))).toEqual([]);
});

test('readiness listens to the same entries, in the pile, the record and the word on it', async () => {
  const batchId = await lay('ready', false);
  const said = async () =>
    (await pileOf('ready')).judgement?.readiness.points.find(({ what }) => what === 'smell-and-look')?.says;
  expect(await said()).toBe('Nobody has judged its smell and look yet.');
  await note('ready', foul, ago(3));
  expect(await said()).toBe('Its smell was found bad; nobody has judged its look yet.');
  await note('ready', { kind: 'readiness', smell: 'good', look: 'good', ready: true }, ago(2));
  expect(await said()).toBe('A person found its smell and look good.');
  const view = async () => readinessSchema.parse((await farm.get(`/api/batches/${batchId}/readiness`)).json());
  expect(await view()).toMatchObject({ ready: true });
  await note('ready', black, ago(1));
  expect(await said()).toBe('Its smell was found good, its look bad.');
  expect(await view()).toMatchObject({ ready: false, says: expect.stringMatching(/^Something bad was noted since/) });
  const record = batchRecordSchema.parse((await farm.get(`/api/batches/${batchId}/record`)).json());
  expect(record.alarms).toContainEqual(
    expect.objectContaining({ kind: 'wrong-growth', noted: { by: 'Ana', at: expect.any(String) } }),
  );
  expect((await farm.get(`/api/batches/${batchId}/record.pdf`)).statusCode).toBe(200);
});

test('what was noted is heard again by a server that was opened anew', async () => {
  await lay('anew', false);
  await note('anew', foul, new Date(Date.now() - hourMs).toISOString());
  const { alarms } = await pileOf('anew');
  await farm.one.installation.watching?.reload('anew');
  const again = await pileOf('anew');
  expect(again.alarms.map(({ id, state }) => [id, state])).toEqual(alarms.map(({ id, state }) => [id, state]));
  expect(again.condition).toMatch(/noted by Ana 1 hour ago|noted by Ana 60 minutes ago/);
});
