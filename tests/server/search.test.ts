import { afterAll, beforeAll, expect, test } from 'vitest';
import { excerptOf } from '../../server/services/search/excerpt.ts';
import type { Clock } from '../../shared/clock.ts';
import { mostFound, searchAnswerSchema } from '../../shared/contracts/search.ts';
import { msPerDay, msPerHour } from '../../shared/units.ts';
import { commitReadings } from '../helpers/commit-readings.ts';
import { openNewTestInstallation, type TestInstallation } from '../helpers/open-test-server.ts';

const nowMs = Date.UTC(2031, 5, 11, 10);
const clock: Clock = { nowMs: () => nowMs, speed: 1 };
let one: TestInstallation;

async function post(url: string, payload: object) {
  const answer = await one.app.inject({ method: 'POST', url, payload });
  if (answer.statusCode >= 300) throw new Error(`${url}: ${answer.body}`);
  return answer.json();
}

async function search(find: string, headers: Record<string, string> = {}) {
  const answer = await one.app.inject({ url: `/api/search?${new URLSearchParams({ find })}`, headers });
  expect(answer.statusCode).toBe(200);
  return searchAnswerSchema.parse(answer.json());
}

beforeAll(async () => {
  one = await openNewTestInstallation({}, clock);
  await post('/api/sites', { id: 'yard', name: 'Saltmere Yard', timeZone: 'UTC' });
  const at = (days: number) => nowMs - days * msPerDay;
  const pile = (id: string, name: string) =>
    post('/api/piles', { id, site: 'yard', name, stage: 'bran', startedAt: at(9) });
  await pile('heap-3', 'Cart shed 3');
  await pile('heap-13', 'Cart shed 13');
  await pile('wall', 'Árvore da parede');
  const entry = (pileId: string, what: object, note?: string) =>
    post(`/api/piles/${pileId}/entries`, { what, ...(note && { note }), at: at(2), by: 'Ines' });
  await entry('heap-3', { kind: 'watered', amountL: 8 }, 'The hose from the barn; Montón was dry at its foot.');
  await entry('wall', { kind: 'turned' });
  for (let i = 0; i < mostFound + 5; i += 1) await entry('heap-13', { kind: 'note' }, `Zebra grass ${i}`);
  await post('/api/piles/wall/finish', { at: at(1), outcome: 'Sweet, like ripe quince.' });
  await commitReadings(one.installation, [
    { site: 'yard', probe: 'reed-7', quantity: 'temperature', atMs: nowMs - msPerHour, value: 40 },
  ]);
  await post('/api/probes/yard/reed-7/claim', { pileId: 'heap-3', position: 'core' });
});
afterAll(() => one.closeAndRemove());

test('piles are found by name and site, those called so first, and a 3 is not the end of a 13', async () => {
  const { piles } = await search('shed 3');
  expect(piles).toEqual({ count: 1, found: [{ id: 'heap-3', name: 'Cart shed 3', siteName: 'Saltmere Yard' }] });
  expect((await search('saltmere')).piles.count).toBe(3);
  expect((await search('ARVORE')).piles.found.map(({ id }) => id)).toEqual(['wall']);
});

test('batches are found by what somebody wrote at their end, with where it stands', async () => {
  const { batches } = await search('quince');
  expect(batches.found).toMatchObject([{ pileName: 'Árvore da parede', excerpt: 'Sweet, like ripe quince.' }]);
});

test('entries are found by note, person and what they say, in the language of whoever asks', async () => {
  const { entries } = await search('monton ines');
  expect(entries.found).toMatchObject([{ pileName: 'Cart shed 3', by: 'Ines', says: 'Watered, 8 L' }]);
  const spanish = { 'accept-language': 'es' };
  const says = (await search('volteo', spanish)).entries;
  expect(says.count).toBe(1);
  expect((await search('volteo')).entries.count).toBe(0);
  expect((await search('turned')).entries.count).toBe(1);
});

test('of many the newest are given, and how many there are', async () => {
  const { entries, isWhole } = await search('zebra');
  expect([entries.count, entries.found.length, isWhole]).toEqual([mostFound + 5, mostFound, true]);
});

test('probes are found by their own name and by that of their pile', async () => {
  const claim = { pileId: 'heap-3', pileName: 'Cart shed 3', position: 'core' };
  expect((await search('reed')).probes.found).toMatchObject([{ probe: 'reed-7', siteName: 'Saltmere Yard', claim }]);
  expect((await search('cart 3')).probes.count).toBe(1);
});

test('no words find nothing, and what is struck out is not found', async () => {
  expect(await search('  ')).toMatchObject({ piles: { count: 0 }, entries: { count: 0 }, isWhole: true });
  const written = await post('/api/piles/heap-3/entries', { what: { kind: 'note' }, note: 'Obsidian', at: nowMs });
  expect((await search('obsidian')).entries.count).toBe(1);
  await post(`/api/entries/${written.id}/withdrawal`, { replaces: written.versionId });
  expect((await search('obsidian')).entries.count).toBe(0);
});

test('a long text is cut to where the word stands, between words', () => {
  const text = `${'some words before '.repeat(30)}the quince ${'and words behind '.repeat(30)}`;
  const excerpt = excerptOf(text, ['quince']);
  expect(excerpt).toMatch(/^… \w.*the quince.*\w …$/);
  expect(excerpt.length).toBeLessThan(260);
  expect(excerptOf('short quince', ['quince'])).toBe('short quince');
});
