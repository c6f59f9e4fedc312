/**
 * Keeps the page in step with the server. It never gives up: when the stream stops it fetches the lists and tries
 * again, sooner first, later at most every 15 s.
 */
import type { z } from 'zod';
import { healthSchema } from '../../../../shared/contracts/health.ts';
import { type LiveEventName, liveEventSchemas } from '../../../../shared/contracts/live.ts';
import { type PileSummary, pilesAnswerSchema } from '../../../../shared/contracts/piles.ts';
import { probesAnswerSchema } from '../../../../shared/contracts/probes.ts';
import { sitesAnswerSchema } from '../../../../shared/contracts/sites.ts';
import { requestHeaders, whenUnauthorised } from '../client.ts';
import { sayThisDevice } from '../forget-this-device.ts';
import {
  answersOf,
  dropOldAnswers,
  forgetAnswers,
  keepAnswer,
  recallAnswer,
  recalled,
  whoAsks,
} from '../last-answers.ts';
import { me } from '../me.ts';
import { owedSignOut, whenSignOutOwed } from '../owed-sign-out.ts';
import { fewProbesPath, getHealth, getPiles, getProbes, getSites } from '../routes.ts';
import { getSession } from '../session-api.ts';
import { forgetPerson, sayOwedSignOut } from '../sign-out.ts';
import {
  changeInstallation,
  type Installation,
  installation,
  newWarnings,
  setLink,
  withPile,
  withProbe,
} from './installation.ts';
import { lookForNewer } from './installed.ts';
import { type StreamEvent, startSseParser } from './sse-parser.ts';

/** Beats come every 15 s; after two and a half of them the line counts as dead. */
const silenceMs = 40_000;
const retryAfterMs = [500, 1_000, 2_000, 4_000, 8_000, 15_000];

let running: AbortController | undefined;

/** Starts, or starts afresh (after a token was given). */
export function connect(): void {
  running?.abort();
  running = new AbortController();
  void run(running.signal);
  void dropOldAnswers();
}

/** While nobody is signed in there is nothing to retry until somebody does. */
function lock(): void {
  running?.abort();
  const wasIn = me.get()?.person != null;
  recalled.set(new Map());
  void forgetAnswers();
  setLink('locked', Date.now());
  if (!wasIn) return;
  // The session ended, here or elsewhere: what the page knows goes with it.
  changeInstallation({
    sites: [],
    piles: null,
    probes: [],
    probeCounts: { all: 0, unclaimed: 0, isFull: false },
    announcement: '',
  });
  void forgetPerson().then(askWhoIsThere);
}

/** Who sits here, and which ways in there are; given to the sign-in page too. */
async function askWhoIsThere(): Promise<boolean> {
  try {
    const session = await getSession();
    await answersOf(session.person?.id ?? '');
    me.set(session);
    return session.person !== null;
  } catch {
    return true; // Out of reach, or a server that does not know of people: what comes next says so.
  }
}
whenUnauthorised(lock);
whenSignOutOwed(() => {
  lock();
  connect();
});

async function run(stop: AbortSignal): Promise<void> {
  let wasLost = false;
  for (let failures = 0; !stop.aborted; failures++) {
    try {
      await sayOwedSignOut();
      if (!(await askWhoIsThere())) return lock();
      await fetchAll();
      if (me.get()?.person?.via === 'session') void sayThisDevice().catch(() => undefined);
      if (stop.aborted) return;
      await readStream(stop, () => {
        failures = 0;
        setLink('live', Date.now());
        recalled.set(new Map());
        if (wasLost) lookForNewer();
        wasLost = false;
      });
    } catch {
      // Said on the page by the mark; tried again below.
      await showLast();
    }
    if (stop.aborted) return;
    wasLost = true;
    // Whoever signed out sees nothing more here, though the server has not heard of it yet.
    setLink(owedSignOut.get() ? 'locked' : 'lost', Date.now());
    await pause(retryAfterMs[Math.min(failures, retryAfterMs.length - 1)] ?? 15_000, stop);
  }
}

/** Fetches everything the pages share; also called after a person changed something. */
export async function fetchAll(): Promise<void> {
  const [health, { sites }, { piles }, { probes, counts }] = await Promise.all([
    getHealth(),
    getSites(),
    getPiles(),
    getProbes(),
  ]);
  installation.together(() => {
    setClock(health.now, health.speed);
    changeInstallation({ health, sites, ...heardProbes(probes, counts) });
    takePiles(piles);
  });
}

/** What the server last said, when this page never heard it; ages go on from then. */
async function showLast(): Promise<void> {
  if (installation.get().piles !== null || installation.get().link === 'locked') return;
  const asker = whoAsks();
  const [health, piles, sites, probes] = await Promise.all(
    ['/api/health', '/api/piles', '/api/sites', fewProbesPath].map(recallAnswer),
  );
  if (!health || !piles || asker !== whoAsks()) return;
  const said = healthSchema.safeParse(health.answer);
  const listed = pilesAnswerSchema.safeParse(piles.answer);
  if (!said.success || !listed.success) return;
  const heard = probesAnswerSchema.safeParse(probes?.answer);
  const { now, speed } = said.data;
  const serverMs = Date.parse(now) + (Date.now() - health.saidMs) * speed;
  changeInstallation({
    health: said.data,
    piles: listed.data.piles,
    sites: sitesAnswerSchema.safeParse(sites?.answer).data?.sites ?? [],
    ...(heard.success ? heardProbes(heard.data.probes, heard.data.counts) : {}),
    clock: { serverMs, steadyMs: performance.now(), speed },
  });
}

/** What live events brought since it was fetched. */
function keepLast(now: string): void {
  const { health, piles, probes, probeCounts: counts } = installation.get();
  const asker = whoAsks();
  if (!health || !piles) return;
  void keepAnswer('/api/health', { ...health, now }, asker);
  void keepAnswer('/api/piles', { piles }, asker);
  void keepAnswer(fewProbesPath, { probes, total: counts.all, offset: 0, counts }, asker);
}

function heardProbes(
  probes: Installation['probes'],
  probeCounts = installation.get().probeCounts,
): Partial<Installation> {
  return { probes, probeCounts, probeNews: installation.get().probeNews + 1 };
}

function takePiles(piles: readonly PileSummary[]): void {
  const before = installation.get().piles;
  changeInstallation({ piles });
  void announce(before, piles);
}

/** Live changes are worded in English beside their messages; what is read aloud is in the language of the page. */
async function announce(before: readonly PileSummary[] | null, piles: readonly PileSummary[]): Promise<void> {
  if (newWarnings(before, piles).length === 0) return;
  const { renderPile } = await import('../../ui/format/render-pile.ts').catch(() => ({ renderPile: undefined }));
  changeInstallation({ announcement: newWarnings(before, piles, renderPile).join(' ') });
}

function setClock(now: string, speed: number): void {
  changeInstallation({ clock: { serverMs: Date.parse(now), steadyMs: performance.now(), speed } });
}

async function readStream(stop: AbortSignal, onOpen: () => void): Promise<void> {
  const line = new AbortController();
  const end = () => line.abort();
  stop.addEventListener('abort', end);
  let watch = setTimeout(end, silenceMs);
  try {
    const response = await fetch('/api/live', {
      headers: requestHeaders({ accept: 'text/event-stream' }),
      signal: line.signal,
    });
    if (response.status === 401) lock();
    if (!response.ok || !response.body) return;
    const parse = startSseParser();
    const reader = response.body.pipeThrough(new TextDecoderStream()).getReader();
    for (;;) {
      const { done, value } = await reader.read();
      if (done) return;
      clearTimeout(watch);
      watch = setTimeout(end, silenceMs);
      installation.together(() => {
        for (const event of parse(value)) {
          if (event.event === 'hello') onOpen();
          takeEvent(event);
        }
      });
    }
  } finally {
    clearTimeout(watch);
    stop.removeEventListener('abort', end);
    line.abort();
  }
}

/** An event of a name or shape we do not know is passed over: a newer server may say more. */
function takeEvent({ event, data }: StreamEvent): void {
  const { piles, probes, clock } = installation.get();
  switch (event) {
    case 'hello': {
      const said = checked('hello', data);
      if (said) setClock(said.now, said.speed);
      return;
    }
    case 'beat': {
      const said = checked('beat', data);
      if (!said) return;
      setClock(said.now, clock?.speed ?? 1);
      keepLast(said.now);
      return;
    }
    case 'pile': {
      const said = checked('pile', data);
      if (!said) return;
      const was = piles?.filter(({ id }) => id === said.id) ?? null;
      changeInstallation({ piles: withPile(piles ?? [], said) });
      void announce(was, [said]);
      if (!installation.get().sites.some((site) => site.id === said.site)) void refreshSites();
      return;
    }
    case 'pile-gone': {
      const said = checked('pile-gone', data);
      if (said) changeInstallation({ piles: (piles ?? []).filter((pile) => pile.id !== said.id) });
      return;
    }
    case 'probe': {
      const said = checked('probe', data);
      if (said) changeInstallation(heardProbes(withProbe(probes, said)));
      return;
    }
    case 'probes': {
      const counts = checked('probes', data);
      if (counts) changeInstallation(heardProbes(probes, counts));
      return;
    }
  }
}

function checked<Name extends LiveEventName>(
  name: Name,
  data: string,
): z.output<(typeof liveEventSchemas)[Name]> | undefined {
  try {
    return liveEventSchemas[name].parse(JSON.parse(data)) as z.output<(typeof liveEventSchemas)[Name]>;
  } catch (error) {
    console.warn(`Passed over a live "${name}" that cannot be read`, error);
    return undefined;
  }
}

async function refreshSites(): Promise<void> {
  try {
    changeInstallation({ sites: (await getSites()).sites });
  } catch {
    // The site's own name stands until the next fetch.
  }
}

function pause(lengthMs: number, stop: AbortSignal): Promise<void> {
  return new Promise((resolve) => {
    const end = new AbortController();
    const done = () => {
      clearTimeout(timer);
      end.abort();
      resolve();
    };
    const timer = setTimeout(done, lengthMs);
    const { signal } = end;
    stop.addEventListener('abort', done, { signal });
    // A network that came back, or a person who looks again, is worth a try at once.
    addEventListener('online', done, { signal });
    document.addEventListener('visibilitychange', () => document.visibilityState === 'visible' && done(), { signal });
  });
}
