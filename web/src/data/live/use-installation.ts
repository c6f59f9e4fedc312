/** The server as a part of the page follows it. */
import { createContext } from 'preact';
import { useContext, useEffect, useState } from 'preact/hooks';
import type { Reader } from '../../ui/format/local-time.ts';
import { language } from '../language.ts';
import { readerOf, usePrefs } from '../prefs.ts';
import { partOf, useStore } from '../store.ts';
import { type Installation, installation } from './installation.ts';
import { retellEveryMs, serverNowMs } from './server-clock.ts';

/** Time for what is shown below it, where that is not the time of the server: practice runs by a clock of its own. */
export const OwnTime = createContext<{ readonly nowMs: number; readonly reader: Reader } | null>(null);

export function useInstallation<Part>(choose: (installation: Installation) => Part): Part {
  return useStore(installation, choose);
}

const clock = partOf(installation, (known) => known.clock);
const sites = partOf(installation, (known) => known.sites);
const yearNow = partOf(clock, (known) => (known ? new Date(known.serverMs).getUTCFullYear() : undefined));

function nowMs(): number {
  const known = clock.get();
  return known ? serverNowMs(known, performance.now()) : Date.now();
}

/** One timer for whatever shows the time. */
const retold = new Set<(nowMs: number) => void>();
let timer: ReturnType<typeof setInterval> | undefined;

function retell(): void {
  const now = nowMs();
  for (const hear of [...retold]) hear(now);
}

function startTelling(): void {
  clearInterval(timer);
  const known = clock.get();
  timer = retold.size === 0 ? undefined : setInterval(retell, known ? retellEveryMs(known) : 1_000);
}

clock.follow(() => {
  retell();
  startTelling();
});

function followTime(hear: (nowMs: number) => void): () => void {
  retold.add(hear);
  if (timer === undefined) startTelling();
  return () => {
    retold.delete(hear);
    if (retold.size === 0) startTelling();
  };
}

/** The time of the server, asked anew every so often so that ages on the page stay true. */
export function useServerNow(): number {
  const own = useContext(OwnTime);
  const [now, setNow] = useState(nowMs);
  useEffect(() => {
    setNow(nowMs());
    return followTime(setNow);
  }, []);
  return own?.nowMs ?? now;
}

/** In whose language, clock and zone times are shown, for a site or for the whole page. */
export function useReader(siteId?: string): Reader {
  const own = useContext(OwnTime);
  const { zone } = usePrefs();
  const site = useStore(sites, (known) => known.find((one) => one.id === siteId));
  const year = useStore(yearNow, (known) => known);
  return { ...(own?.reader ?? readerOf(zone, site?.timeZone, year)), language };
}
