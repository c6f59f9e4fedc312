/** A server of its own with one site and a few piles, and short ways to ask it. */
import { idFromName } from '../../../server/id-from-name.ts';
import type { Quantity } from '../../../shared/quantity.ts';
import { commitReadings } from '../../helpers/commit-readings.ts';
import { makeDataDir, openTestInstallation, type TestInstallation } from '../../helpers/open-test-server.ts';

export const hourMs = 3_600_000;
export const site = 'saltmere-yard';

export interface Farm {
  one: TestInstallation;
  readonly dataDir: string;
  get(url: string): Promise<Answer>;
  post(url: string, payload: object): Promise<Answer>;
  send(
    method: 'PUT' | 'PATCH' | 'DELETE',
    url: string,
    payload?: string | Buffer | object,
    type?: string,
  ): Promise<Answer>;
  /** Adds a pile laid `hoursAgo`, with its first batch; gives the batch's id. */
  addPile(name: string, more?: object): Promise<string>;
  commit(probe: string, quantity: Quantity, values: [number, number][]): Promise<void>;
  close(): Promise<void>;
}

type Answer = Awaited<ReturnType<TestInstallation['app']['inject']>>;

export async function openFarm(environment: Record<string, string> = {}): Promise<Farm> {
  const { dataDir, remove } = await makeDataDir();
  const farm: Farm = {
    one: await openTestInstallation(dataDir, environment),
    dataDir,
    get: (url) => farm.one.app.inject({ url }),
    post: (url, payload) => farm.one.app.inject({ method: 'POST', url, payload }),
    send: (method, url, payload, type) =>
      farm.one.app.inject({
        method,
        url,
        ...(payload !== undefined && { payload }),
        ...(type !== undefined && { headers: { 'content-type': type } }),
      }),
    async addPile(name, more = {}) {
      const made = await farm.post('/api/piles', { id: idFromName(name), site, name, stage: 'bran', ...more });
      if (made.statusCode !== 201) throw new Error(made.body);
      return made.json<{ batch: { id: string } }>().batch.id;
    },
    async commit(probe, quantity, values) {
      const readings = values.map(([atMs, value]) => ({ site, probe, quantity, atMs, value }));
      await commitReadings(farm.one.installation, readings);
    },
    async close() {
      await farm.one.close();
      await remove();
    },
  };
  await farm.post('/api/sites', { name: 'Saltmere Yard', timeZone: 'Europe/Lisbon' });
  return farm;
}

export const ago = (hours: number) => new Date(Date.now() - hours * hourMs).toISOString();
