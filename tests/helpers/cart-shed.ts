/** A server with one bran pile at Saltmere Yard, the Cart shed, a probe in its core and one beside it. */
import type { LightMyRequestResponse } from 'fastify';
import { toInstant } from '../../shared/contracts/time.ts';
import { commitReadings } from './commit-readings.ts';
import { openNewTestInstallation, type TestInstallation } from './open-test-server.ts';

export interface CartShed {
  readonly one: TestInstallation;
  post(url: string, payload: object): Promise<LightMyRequestResponse>;
  /** What both probes say at that time, committed and known to the pile's watch. */
  measure(atMs: number, coreC: number, airC: number): Promise<void>;
  /** From when the pile was laid. */
  claimProbes(): Promise<void>;
}

export async function openCartShed(laidMs: number, nowMs: () => number, recipe?: object): Promise<CartShed> {
  const one = await openNewTestInstallation({}, { nowMs, speed: 1 });
  const post: CartShed['post'] = (url, payload) => one.app.inject({ method: 'POST', url, payload });
  await post('/api/sites', { name: 'Saltmere Yard' });
  await post('/api/piles', {
    site: 'saltmere-yard',
    id: 'cart-shed',
    name: 'Cart shed',
    stage: 'bran',
    startedAt: toInstant(laidMs),
    ...(recipe && { recipe }),
  });
  return {
    one,
    post,
    measure: async (atMs, coreC, airC) => {
      const said = { site: 'saltmere-yard', quantity: 'temperature' as const, atMs };
      await commitReadings(one.installation, [
        { ...said, probe: 'core', value: coreC },
        { ...said, probe: 'beside', value: airC },
      ]);
    },
    claimProbes: async () => {
      for (const [probe, position] of [
        ['core', 'core'],
        ['beside', 'air'],
      ]) {
        const claimed = await post(`/api/probes/saltmere-yard/${probe}/claim`, {
          pileId: 'cart-shed',
          position,
          from: toInstant(laidMs),
        });
        if (claimed.statusCode >= 300) throw new Error(claimed.body);
      }
    },
  };
}
