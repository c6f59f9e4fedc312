/** The built program goes on answering while what people asked for is worked out beside it. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { makeDataDir } from '../helpers/open-test-server.ts';
import { type SpawnedInstallation, spawnInstallation } from '../helpers/spawn-server.ts';

let installation: SpawnedInstallation;
let remove: () => Promise<void>;
beforeAll(async () => {
  const folder = await makeDataDir();
  remove = folder.remove;
  installation = await spawnInstallation(folder.dataDir);
  await post('/api/sites', { id: 'yard', name: 'Yard' });
  await post('/api/piles', { id: 'bay', site: 'yard', name: 'Bay', stage: 'bran', startedAt: ago(100) });
});
afterAll(async () => {
  await installation.stop();
  await remove();
});

const ago = (hours: number) => new Date(Date.now() - hours * 3_600_000).toISOString();
async function post(path: string, body: object): Promise<unknown> {
  const answer = await fetch(`${installation.pagesUrl}${path}`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });
  expect([path, answer.status < 300 ? '' : await answer.clone().text()]).toEqual([path, '']);
  return answer.json();
}
const healthy = async () => (await fetch(`${installation.pagesUrl}/api/health`)).status;

/** Whether others were answered before it was: what is worked out on their thread comes before everything asked after it. */
async function othersComeFirst(heavy: Promise<Response>): Promise<Response> {
  const came: string[] = [];
  const done = heavy.then((answer) => {
    came.push('heavy');
    return answer;
  });
  // It is at work once its connection is taken and its question has been read: several others follow one another.
  for (let count = 0; count < 5; count += 1) came.push(`health ${await healthy()}`);
  const answer = await done;
  expect(came.slice(0, 3)).toEqual(['health 200', 'health 200', 'health 200']);
  return answer;
}

test('a record of many long notes is drawn while others are answered', async () => {
  const { batches } = (await (await fetch(`${installation.pagesUrl}/api/batches`)).json()) as {
    batches: { id: string }[];
  };
  const draw = () => fetch(`${installation.pagesUrl}/api/batches/${batches[0]?.id}/record.pdf`);
  // A short one first: where paper was drawn on the main thread, its library would else be loaded while others go first.
  expect((await draw()).status).toBe(200);
  const note = 'Turned the heap from the east end and it steamed well, as deep as the arm goes. '.repeat(24);
  for (let first = 0; first < 300; first += 100) {
    const entries = Array.from({ length: 100 }, (_, i) => ({
      pileId: 'bay',
      entry: { id: `note-${first + i}`.padEnd(8, '-'), at: ago(90 - (first + i) / 10), note, what: { kind: 'note' } },
    }));
    await post('/api/entries', { entries });
  }
  const answer = await othersComeFirst(draw());
  expect([
    answer.status,
    Buffer.from(await answer.arrayBuffer())
      .subarray(0, 5)
      .toString(),
  ]).toEqual([200, '%PDF-']);
});

test('a large file is read while others are answered, and kept as it was shown', async () => {
  const rows = Array.from({ length: 40_000 }, (_, i) => `${ago(80 - i / 1000)},${30 + (i % 100) / 10}`);
  const ask = { kind: 'readings', site: 'yard', probe: 'p1', csv: ['time,temperature', ...rows].join('\n') };
  const send = (path: string, body: object) =>
    fetch(`${installation.pagesUrl}${path}`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
  const preview = await othersComeFirst(send('/api/import/preview', ask));
  const { digest, rows: shown } = (await preview.json()) as { digest: string; rows: { accepted: number } };
  expect(shown.accepted).toBe(rows.length);
  const done = await othersComeFirst(send('/api/import/commit', { ...ask, digest }));
  expect(await done.json()).toMatchObject({ kept: rows.length, refused: 0 });
});

test('a file with a cell that says nothing is refused by name from the thread too', async () => {
  const answer = await fetch(`${installation.pagesUrl}/api/import/preview`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ kind: 'readings', site: 'yard', csv: '\n\n' }),
  });
  expect(answer.status).toBe(422);
  expect(await answer.text()).toContain('The file has no heading');
});
