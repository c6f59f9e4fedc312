/**
 * web/live/use-house.ts: the house as a part of the page follows it.
 */
import { createContext } from 'preact';
import { useContext, useEffect, useState } from 'preact/hooks';
import type { Reader } from '../../ui/format/local-time.ts';
import { readerOf, usePrefs } from '../prefs.ts';
import { useStore } from '../store.ts';
import { type House, house } from './installation.ts';
import { houseNowMs, retellEveryMs } from './server-clock.ts';

/** Time for what is shown below it, where that is not the time of the house: practice runs by a clock of its own. */
export const OwnTime = createContext<{ readonly nowMs: number; readonly reader: Reader } | null>(null);

export function useHouse<Part>(choose: (house: House) => Part): Part {
  return useStore(house, choose);
}

function nowMs(): number {
  const { clock } = house.get();
  return clock ? houseNowMs(clock, performance.now()) : Date.now();
}

/** The time of the house, told anew every so often so that ages on the page stay true. */
export function useHouseNow(): number {
  const own = useContext(OwnTime);
  const clock = useHouse((known) => known.clock);
  const [now, setNow] = useState(nowMs);
  useEffect(() => {
    setNow(nowMs());
    const timer = setInterval(() => setNow(nowMs()), clock ? retellEveryMs(clock) : 1_000);
    return () => clearInterval(timer);
  }, [clock]);
  return own?.nowMs ?? now;
}

/** Whose clock and zone times are told in, for a site or for the whole page. */
export function useReader(siteId?: string): Reader {
  const own = useContext(OwnTime);
  const { zone } = usePrefs();
  const site = useHouse((known) => known.sites.find((one) => one.id === siteId));
  const yearNow = useHouse(({ clock }) => (clock ? new Date(clock.houseMs).getUTCFullYear() : undefined));
  return own?.reader ?? readerOf(zone, site?.timeZone, yearNow);
}
