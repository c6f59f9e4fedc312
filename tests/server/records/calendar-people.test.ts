/**
 * The calendar of people: an address each, so that whoever leaves the server leaves its dates too, and nobody else notices.
 */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { as, join, makeToken, settlePeople, type TestPeople } from '../../helpers/people.ts';
import { type Farm, openFarm } from '../journal/farm.ts';

let farm: Farm;
let people: TestPeople;
let ofInstallation: string;
beforeAll(async () => {
  farm = await openFarm();
  await farm.addPile('Cart shed');
  ofInstallation = await addressOf({});
  people = await settlePeople(farm.one);
});
afterAll(() => farm.close());

type Headers = Record<string, string>;
const pathOf = (body: { address: string }) => new URL(body.address).pathname;
const addressOf = async (headers: Headers) => {
  const answer = await farm.one.app.inject({ url: '/api/calendar', headers });
  expect(answer.statusCode, answer.body).toBe(200);
  return pathOf(answer.json());
};
const opens = async (path: string) => (await farm.get(path)).statusCode;
const renew = async (headers: Headers) =>
  pathOf((await farm.one.app.inject({ method: 'POST', url: '/api/calendar/renewal', headers, payload: {} })).json());

test('each person has an address of their own, the same each time, and their tokens have it too', async () => {
  const all = await Promise.all([people.owner, people.keeper, people.viewer].map(addressOf));
  expect(new Set([...all, ofInstallation]).size).toBe(4);
  expect(await addressOf(people.viewer)).toBe(all[2]);
  const token = await makeToken(farm.one.app, people.keeper, 'read');
  expect(await addressOf({ authorization: `Bearer ${token}` })).toBe(all[1]);
  for (const path of [...all, ofInstallation]) expect([path, await opens(path)]).toEqual([path, 200]);
});

test('a removed viewer’s address opens nothing any more, and everybody else’s stays', async () => {
  const gone = as(await join(farm.one, 'Val', 'viewer'));
  const path = await addressOf(gone);
  expect(await opens(path)).toBe(200);
  const { people: list } = (await farm.one.app.inject({ url: '/api/people', headers: people.owner })).json<{
    people: { id: string; name: string }[];
  }>();
  const id = list.find(({ name }) => name === 'Val')?.id ?? '';
  const before = await Promise.all([people.owner, people.viewer].map(addressOf));
  const removed = await farm.one.app.inject({ method: 'DELETE', url: `/api/people/${id}`, headers: people.owner });
  expect(removed.statusCode).toBe(204);
  expect(await opens(path)).toBe(404);
  for (const other of before) expect(await opens(other)).toBe(200);
});

test('a viewer renews their own and no other; an owner’s renewal ends that of the server too', async () => {
  const [owners, viewers] = await Promise.all([people.owner, people.viewer].map(addressOf));
  const next = await renew(people.viewer);
  expect([
    await opens(viewers ?? ''),
    await opens(next),
    await opens(owners ?? ''),
    await opens(ofInstallation),
  ]).toEqual([404, 200, 200, 200]);
  const newest = await renew(people.owner);
  expect([await opens(owners ?? ''), await opens(newest), await opens(next), await opens(ofInstallation)]).toEqual([
    404, 200, 200, 404,
  ]);
});
