/**
 * When the server works an expected curve out anew: at once after an act, within the hour when the weather departs.
 */
import { afterAll, afterEach, beforeAll, expect, test, vi } from 'vitest';
import { msPerHour, msPerMinute } from '../../shared/units.ts';
import { type CartShed, openCartShed } from '../helpers/cart-shed.ts';
import { bandsAtOnce } from '../helpers/open-test-server.ts';
import { until } from '../helpers/until.ts';

const laidMs = Date.UTC(2031, 4, 1, 6);
let nowMs = laidMs;
let shed: CartShed;
const asked = vi.spyOn(bandsAtOnce, 'compute');

beforeAll(async () => {
  shed = await openCartShed(laidMs, () => nowMs);
  await measure(0, 1, 18);
  await shed.claimProbes();
});
afterEach(() => asked.mockClear());
afterAll(() => shed.one.closeAndRemove());

/** Core and air every ten minutes of these hours, committed; it is then the end of them. */
async function measure(fromHour: number, toHour: number, airC: number) {
  for (let minute = 60 * fromHour; minute < 60 * toHour; minute += 10) {
    await shed.measure(laidMs + minute * msPerMinute, 24 + minute / 600, airC);
  }
  nowMs = laidMs + toHour * msPerHour;
}

/** Waits until the server has looked at the pile as it is now. */
const looked = () =>
  until('a look at the pile', async () => {
    const judged = await shed.one.installation.watch.get('cart-shed')?.judged();
    return judged?.assessment?.atMs === nowMs ? true : undefined;
  });

test('an act asks for a new expected curve at once, and the curve knows of it', async () => {
  await looked();
  asked.mockClear();
  const done = await shed.post('/api/piles/cart-shed/acts', { kind: 'turned' });
  expect(done.statusCode).toBe(201);
  expect(asked).toHaveBeenCalledOnce();
  expect(asked.mock.lastCall?.[0].setup.acts.map(({ kind }) => kind)).toEqual(['turned']);
});

test('air as it was taken to be asks for no new curve before three hours are over', async () => {
  await measure(1, 2.5, 18);
  await looked();
  expect(asked).not.toHaveBeenCalled();
});

test('air that departs from what the curve took it to be asks for a new one, once', async () => {
  await measure(2.5, 4.2, 18);
  await until('the regular curve', () => (asked.mock.calls.length > 0 ? true : undefined));
  asked.mockClear();
  await measure(4.2, 6.2, 27);
  await until('a curve for the warm air', () => (asked.mock.calls.length > 0 ? true : undefined));
  expect(asked.mock.lastCall?.[0].air.at(-1)?.tempC).toBeCloseTo(27, 1);
  nowMs += 10 * msPerMinute;
  await looked();
  expect(asked).toHaveBeenCalledOnce();
});
