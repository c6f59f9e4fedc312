/** Programs may ask for the sentences of an answer in °F. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { makeDataDir, openTestInstallation, type TestInstallation } from '../../helpers/open-test-server.ts';

let one: TestInstallation;
let remove: () => Promise<void>;
beforeAll(async () => {
  const folder = await makeDataDir();
  remove = folder.remove;
  one = await openTestInstallation(folder.dataDir);
  await post('/api/sites', { id: 'yard', name: 'Yard' });
  await post('/api/piles', { id: 'bay', site: 'yard', name: 'Bay', stage: 'bran' });
});
afterAll(async () => {
  await one.close();
  await remove();
});

async function post(url: string, payload: object): Promise<void> {
  const answer = await one.app.inject({ method: 'POST', url, payload });
  expect(answer.statusCode, answer.body).toBeLessThan(300);
}

const whyOfHeat = async (query: string): Promise<{ why: string; messages: unknown } | undefined> => {
  const answer = await one.app.inject(`/api/piles/bay${query}`);
  expect(answer.statusCode).toBe(200);
  const { evidence } = answer.json() as { evidence: { kind: string; why: string; messages: unknown }[] };
  return evidence.find(({ kind }) => kind === 'overheating');
};

test('sentences come in °C, and in °F where that is asked for; messages are the same', async () => {
  const [plain, celsius, fahrenheit] = [await whyOfHeat(''), await whyOfHeat('?unit=C'), await whyOfHeat('?unit=F')];
  expect(plain?.why).toContain('50 °C');
  expect(celsius).toEqual(plain);
  expect(fahrenheit?.why).toContain('122 °F');
  expect(fahrenheit?.why).not.toContain('°C');
  expect(fahrenheit?.messages).toEqual(plain?.messages);
});
