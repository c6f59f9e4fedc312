/** The list of two years' batches in a real browser: compact, found, put in order, and as it was after going back. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { BatchPeaks, BatchView } from '../../shared/contracts/lineage.ts';
import { toInstant } from '../../shared/contracts/time.ts';
import { verbatim } from '../../shared/messages/message.ts';
import { msPerDay } from '../../shared/units.ts';
import { verdicts } from '../../shared/verdict.ts';
import { until } from '../helpers/until.ts';
import { farmNowMs, type OpenPage, openService, type Service } from './open-pages.ts';

const count = 28;
const ended = Array.from({ length: count }, (_, i): BatchView => {
  const endedMs = farmNowMs - (i + 1) * 20 * msPerDay;
  const verdict = verdicts[i % 5];
  return {
    id: `b${i}`,
    name: `Colheita à beira ${count - i}`,
    pileId: 'barn-bed',
    pileName: 'Barn bran bed',
    site: 'saltmere-yard',
    stage: i % 2 === 0 ? 'bran' : 'soil',
    startedAt: toInstant(endedMs - 8 * msPerDay),
    endedAt: toInstant(endedMs),
    ending: 'finished',
    reason: null,
    outcome: 'White through and through, and a smell of bread; used on the beds above the wall.',
    verdict: verdict
      ? {
          ...{ verdict, why: null, note: null, by: null, at: toInstant(endedMs), entryId: `e${i}`, versionId: `v${i}` },
          ...{ says: verdict, messages: { says: verbatim(verdict) } },
        }
      : null,
  };
});
const peaks: BatchPeaks = { peaks: ended.map(({ id }, i) => ({ id, peakC: i === 9 ? 61.5 : 40 + i / 10 })) };

let service: Service;
let opened: OpenPage;
beforeAll(async () => {
  service = await openService();
  opened = await service.open({ path: '/settings', browser: { viewport: { width: 390, height: 844 } } });
  await opened.page.route(/\/api\/batches\?*$/, (route) => route.fulfill({ json: { batches: ended } }));
  await opened.page.route('**/api/batches/peaks', (route) => route.fulfill({ json: peaks }));
});
afterAll(async () => {
  await opened.close();
  await service.close();
});

async function openList(query = '') {
  const { page } = opened;
  await page.goto(`${opened.mock.url}/batches${query}`);
  await page.getByText('peak 61.5 °C').waitFor();
  return page;
}
const names = async () => opened.page.getByRole('heading', { level: 3 }).allTextContents();

test('28 batches take less than three screens of a phone, each with its figures', async () => {
  const page = await openList();
  const list = page.getByRole('region', { name: 'Ended' });
  expect((await list.boundingBox())?.height).toBeLessThan(3 * 844);
  const first = page.getByRole('listitem').filter({ hasText: `beira ${count}` });
  for (const words of ['bran stage', '8 days', 'peak 40.0 °C', 'Good']) await first.getByText(words).waitFor();
  await page.getByRole('link', { name: 'not judged' }).first().waitFor();
});

test('a batch is found without its accents, and the best or the hottest stand first', async () => {
  const page = await openList();
  await page.getByLabel('Find a batch').fill('BEIRA 2');
  await page.getByText('10 of 28 batches.').waitFor();
  await page.getByLabel('Find a batch').fill('a beira 2 poor');
  await page.getByText('2 of 28 batches.').waitFor();
  await page.getByLabel('Find a batch').fill('no such');
  await page.getByText('No batch is like that.').waitFor();
  await page.getByLabel('Find a batch').fill('');
  await page.getByLabel('Order').selectOption('heat');
  await until('the hottest first', async () => (await names())[0] === `Colheita à beira ${count - 9}` || undefined);
  await page.getByLabel('Order').selectOption('best');
  await until('the unjudged last', async () => (await names()).at(-1) === 'Colheita à beira 4' || undefined);
  expect(new URL(page.url()).search).toBe('?order=best');
});

test('whoever goes back from a batch finds the list as they left it', async () => {
  const page = await openList('?order=name&find=soil');
  await page.getByRole('link', { name: 'Colheita à beira 25', exact: true }).scrollIntoViewIfNeeded();
  const left = await page.evaluate(() => scrollY);
  expect(left).toBeGreaterThan(100);
  await page.getByRole('link', { name: 'Colheita à beira 25', exact: true }).click();
  await page.getByRole('heading', { level: 1, name: 'The batch cannot be shown.' }).waitFor();
  await page.goBack();
  await page.getByRole('link', { name: 'Colheita à beira 25', exact: true }).waitFor();
  await until('its place', async () => Math.abs((await page.evaluate(() => scrollY)) - left) < 200 || undefined);
  expect(await page.getByLabel('Find a batch').inputValue()).toBe('soil');
});
