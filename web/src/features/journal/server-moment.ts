/** The time by the server's clock at this very moment; by the device's own while it was never heard. */
import { installation } from '../../data/live/installation.ts';
import { serverNowMs } from '../../data/live/server-clock.ts';

export function serverMomentMs(): number {
  const { clock } = installation.get();
  return Math.round(clock ? serverNowMs(clock, performance.now()) : Date.now());
}
