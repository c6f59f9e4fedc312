/** The built program on an empty folder with one pile, 500 long notes on it, and the key of one probe. */
import { z } from 'zod';
import { type SpawnedInstallation, spawnInstallation } from '../../helpers/spawn-server.ts';

export interface Besieged {
  readonly installation: SpawnedInstallation;
  readonly pagesUrl: string;
  readonly mqttUrl: string;
  readonly batchId: string;
  readonly key: { readonly id: string; readonly secret: string };
}

export const ago = (hours: number): string => new Date(Date.now() - hours * 3_600_000).toISOString();

const notes = 500;
const notesInOne = 100;

export async function openBesieged(dataDir: string): Promise<Besieged> {
  const installation = await spawnInstallation(dataDir, { nodeArguments: ['--max-semi-space-size=4'] });
  const { pagesUrl, mqttUrl } = installation;
  const ask = async (method: string, path: string, body?: object): Promise<unknown> => {
    const answer = await fetch(`${pagesUrl}${path}`, {
      method,
      ...(body && { headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) }),
    });
    if (!answer.ok) throw new Error(`${method} ${path}: ${await answer.text()}`);
    return answer.json();
  };
  await ask('POST', '/api/sites', { id: 'yard', name: 'Yard' });
  await ask('POST', '/api/piles', { id: 'bay', site: 'yard', name: 'Bay', stage: 'bran', startedAt: ago(100) });
  const note = 'Turned it from the east end; it steamed well, as deep as the arm goes. '.repeat(28);
  for (let first = 0; first < notes; first += notesInOne) {
    const entries = Array.from({ length: notesInOne }, (_, i) => ({
      pileId: 'bay',
      entry: { id: `long-note-${first + i}`, at: ago(90 - (first + i) / 10), note, what: { kind: 'note' } },
    }));
    await ask('POST', '/api/entries', { entries });
  }
  const { batches } = z
    .object({ batches: z.array(z.object({ id: z.string() })).min(1) })
    .parse(await ask('GET', '/api/batches'));
  const key = z
    .object({ id: z.string(), secret: z.string() })
    .parse(await ask('POST', '/api/keys', { name: 'siege', site: 'yard', probe: 'p1', foreign: [], hears: 'own' }));
  return { installation, pagesUrl, mqttUrl, batchId: batches[0]?.id ?? '', key };
}
