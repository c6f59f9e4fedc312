/** The server as a part of the page follows it. */
import { createContext } from 'preact';
import { useContext, useEffect, useState } from 'preact/hooks';
import type { Reader } from '../../ui/format/local-time.ts';
import { language } from '../language.ts';
import { readerOf, usePrefs } from '../prefs.ts';
import { useStore } from '../store.ts';
import { type Installation, installation } from './installation.ts';
import { retellEveryMs, serverNowMs } from './server-clock.ts';

/** Time for what is shown below it, where that is not the time of the server: practice runs by a clock of its own. */
export const OwnTime = createContext<{ readonly nowMs: number; readonly reader: Reader } | null>(null);

export function useInstallation<Part>(choose: (installation: Installation) => Part): Part {
  return useStore(installation, choose);
}

function nowMs(): number {
  const { clock } = installation.get();
  return clock ? serverNowMs(clock, performance.now()) : Date.now();
}

/** The time of the server, asked anew every so often so that ages on the page stay true. */
export function useServerNow(): number {
  const own = useContext(OwnTime);
  const clock = useInstallation((known) => known.clock);
  const [now, setNow] = useState(nowMs);
  useEffect(() => {
    setNow(nowMs());
    const timer = setInterval(() => setNow(nowMs()), clock ? retellEveryMs(clock) : 1_000);
    return () => clearInterval(timer);
  }, [clock]);
  return own?.nowMs ?? now;
}

/** In whose language, clock and zone times are shown, for a site or for the whole page. */
export function useReader(siteId?: string): Reader {
  const own = useContext(OwnTime);
  const { zone } = usePrefs();
  const site = useInstallation((known) => known.sites.find((one) => one.id === siteId));
  const yearNow = useInstallation(({ clock }) => (clock ? new Date(clock.serverMs).getUTCFullYear() : undefined));
  return { ...(own?.reader ?? readerOf(zone, site?.timeZone, yearNow)), language };
}
