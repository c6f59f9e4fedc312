import { afterAll, beforeAll, expect, test } from 'vitest';
import { commitReadings } from '../../helpers/commit-readings.ts';
import { makeDataDir, openTestInstallation, type TestInstallation } from '../../helpers/open-test-server.ts';

let folder: Awaited<ReturnType<typeof makeDataDir>>;
let one: TestInstallation;

beforeAll(async () => {
  folder = await makeDataDir();
  one = await openTestInstallation(folder.dataDir);
});
afterAll(async () => {
  await one.close();
  await folder.remove();
});

async function post(url: string, payload: object): Promise<void> {
  const answer = await one.app.inject({ method: 'POST', url, payload });
  if (answer.statusCode >= 300) throw new Error(`${url}: ${answer.body}`);
}
const metrics = async () => (await one.app.inject({ url: '/metrics' })).body.split('\n');

test('GET /metrics gives what the probes of each pile said last, in base units, and when', async () => {
  const atMs = Date.now() - 60_000;
  await post('/api/sites', { name: 'Saltmere Yard' });
  await post('/api/piles', {
    site: 'saltmere-yard',
    id: 'first-bed',
    name: 'First bed',
    stage: 'bran',
    startedAt: atMs - 3_600_000,
  });
  const reading = { site: 'devices', probe: 'node-core', atMs } as const;
  await commitReadings(one.installation, [
    { ...reading, quantity: 'temperature', value: 41.5 },
    { ...reading, quantity: 'moisture', value: 44 },
    { ...reading, probe: 'stranger', quantity: 'temperature', value: 20 },
  ]);
  await post('/api/probes/devices/node-core/claim', { pileId: 'first-bed', position: 'core' });
  const lines = await metrics();
  const at = 'site="saltmere-yard",pile="first-bed",position="core"';
  expect(lines).toContain(`branhearth_pile_temperature_celsius{${at}} 41.5`);
  expect(lines).toContain(`branhearth_pile_moisture_ratio{${at}} 0.44`);
  expect(lines).toContain(`branhearth_probe_last_heard_timestamp_seconds{${at},probe="node-core"} ${atMs / 1000}`);
  expect(lines).toContain('branhearth_pile_alarms{site="saltmere-yard",pile="first-bed",state="unacknowledged"} 0');
  expect(lines.filter((line) => line.startsWith('branhearth_build_info{'))).toEqual([
    expect.stringMatching(/^branhearth_build_info\{version=".+"\} 1$/),
  ]);
  expect(lines.join('\n')).not.toContain('stranger');
});
