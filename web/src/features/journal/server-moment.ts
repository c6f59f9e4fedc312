/**
 * web/journal/house-moment.ts: the time by the house's clock at this very moment; by the device's own while it was never heard.
 */
import { house } from '../../data/live/installation.ts';
import { houseNowMs } from '../../data/live/server-clock.ts';

export function houseMomentMs(): number {
  const { clock } = house.get();
  return Math.round(clock ? houseNowMs(clock, performance.now()) : Date.now());
}
