/** What the fault bench asks of the pages, as their own scripts would. */
import { until } from '../../helpers/until.ts';
import type { NotifiedAlarm } from './examine.ts';
import type { TruePile, TrueProbe } from './truth.ts';

export function pagesOf(url: () => string) {
  const ask = async <T>(method: string, path: string, body?: object): Promise<T> => {
    const answer = await fetch(`${url()}${path}`, {
      method,
      signal: AbortSignal.timeout(5_000),
      ...(body && { body: JSON.stringify(body), headers: { 'content-type': 'application/json' } }),
    });
    const text = await answer.text();
    if (!answer.ok) throw new Error(`${method} ${path}: ${answer.status} ${text}`);
    return JSON.parse(text) as T;
  };
  const lasts = async () => {
    const { probes } = await ask<{ probes: { site: string; probe: string; lastAt: string | null }[] }>(
      'GET',
      '/api/probes',
    );
    return new Map(probes.map(({ site, probe, lastAt }) => [`${site}/${probe}`, Date.parse(lastAt ?? '1970-01-01')]));
  };
  return {
    ask,
    lasts,
    health: () => ask<{ parts: { broker: { state: string } } }>('GET', '/api/health'),
    piles: () => ask<object>('GET', '/api/piles'),
    alarms: async (pileId: string) =>
      (await ask<{ alarms: NotifiedAlarm[] }>('GET', `/api/piles/${pileId}/alarms`)).alarms,
    async addSites(piles: readonly TruePile[]) {
      for (const id of new Set(piles.map(({ site }) => site))) await ask('POST', '/api/sites', { id, name: id });
    },
  };
}

/** Piles laid some time ago, each with its probes claimed as soon as they are heard of. */
export async function layPiles(
  { ask, lasts }: ReturnType<typeof pagesOf>,
  probes: readonly TrueProbe[],
  laidMs: number,
): Promise<void> {
  const startedAt = new Date(laidMs).toISOString();
  for (const { id, site } of new Set(probes.map(({ pile }) => pile))) {
    await ask('POST', '/api/piles', { id, site, name: id, stage: 'bran', startedAt });
  }
  await until(
    'every probe to be heard of',
    async () => ((await lasts()).size >= probes.length ? true : undefined),
    60_000,
  );
  for (const { pile, probe, position } of probes) {
    await ask('POST', `/api/probes/${pile.site}/${probe}/claim`, { pileId: pile.id, position, from: startedAt });
  }
}
