import { afterAll, beforeAll, expect, test } from 'vitest';
import { calendarBatches } from '../../../server/services/records/calendar/calendar-batches.ts';
import { dateCalendar } from '../../../server/services/records/calendar/date-calendar.ts';
import { type BatchDetail, batchDetailSchema, batchesAnswerSchema } from '../../../shared/contracts/lineage.ts';
import { plainReader } from '../../../shared/messages/format.ts';
import { type Farm, openFarm } from '../journal/farm.ts';

/** Half past midnight of the 2nd in Lisbon, where the farm is; still the 1st in UTC. */
const laidAt = '2024-06-01T23:30:00Z';
const spanish = { 'accept-language': 'es' };

let farm: Farm;
let batchId: string;
beforeAll(async () => {
  farm = await openFarm();
  batchId = await farm.addPile('Cart shed', { startedAt: laidAt });
});
afterAll(() => farm.close());

const asked = async (url: string) => farm.one.app.inject({ url, headers: spanish });
const batch = async (): Promise<BatchDetail> =>
  batchDetailSchema.parse((await asked(`/api/batches/${batchId}`)).json());

test('a batch that nobody named is named by stage, day of the farm and pile, in the language of whoever reads', async () => {
  const [english] = batchesAnswerSchema.parse((await farm.get('/api/batches')).json()).batches;
  expect(english?.name).toBe('Bran of 2 Jun 2024, Cart shed');
  expect((await batch()).name).toBe('Salvado del 2 jun 2024, Cart shed');
  const record = (await asked(`/api/batches/${batchId}/record`)).json<{ batch: BatchDetail }>();
  expect(record.batch.name).toBe('Salvado del 2 jun 2024, Cart shed');
  const lying = await calendarBatches(farm.one.installation.journal, {});
  const calendar = dateCalendar(lying, 'https://farm.example', { ...plainReader(Date.parse(laidAt)), language: 'es' });
  expect(calendar.replaceAll('\r\n ', '')).toContain('Salvado del 2 jun 2024\\, Cart shed');
});

test('an export has its plain English name, for programs', async () => {
  expect((await asked('/api/export/batches.csv')).body).toContain('"Bran of 2 Jun 2024, Cart shed"');
});

test('what came of an unnamed batch names it in every language too', async () => {
  const on = { newPile: { site: 'saltmere-yard', name: 'Bay two' } };
  const moved = await farm.post(`/api/batches/${batchId}/continue`, { stage: 'soil', on });
  const next = batchDetailSchema.parse(moved.json());
  const inputs = batchDetailSchema.parse((await asked(`/api/batches/${next.id}`)).json()).inputs;
  expect(inputs.map(({ name }) => name)).toEqual(['Salvado del 2 jun 2024, Cart shed']);
  const nodes = (await asked(`/api/lineage?start=batch:${next.id}`)).json<{ nodes: { name: string }[] }>().nodes;
  expect(nodes.map(({ name }) => name)).toContain('Salvado del 2 jun 2024, Cart shed');
  const again = await farm.one.app.inject({
    method: 'POST',
    url: `/api/batches/${batchId}/continue`,
    payload: { stage: 'soil', on: { newPile: { ...on.newPile, name: 'Bay three' } } },
    headers: spanish,
  });
  expect(again.statusCode).toBe(409);
  expect(again.body).toContain('Salvado del 2 jun 2024, Cart shed');
});

test('a name that somebody gave stays as it is, until it is taken away', async () => {
  await farm.send('PATCH', `/api/batches/${batchId}`, { name: 'Bran of the old oak' });
  expect((await batch()).name).toBe('Bran of the old oak');
  await farm.send('PATCH', `/api/batches/${batchId}`, { name: null });
  expect((await batch()).name).toBe('Salvado del 2 jun 2024, Cart shed');
});
