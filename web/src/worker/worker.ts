/**
 * The service worker: the pages open when the server cannot be reached, always of one version and in one language.
 *
 * Push messages have a file of their own beside this one: push.ts. Their handlers go there, and only there. It never
 * touches /api/ or the live stream: what the server said is kept by the page, for its person.
 */
import { listenForPush } from './push.ts';

declare const self: ServiceWorkerGlobalScope;
/** Addresses of all built files, "/" for the document, by the language that they are of; '' for what is of none. */
declare const builtFiles: Readonly<Record<string, readonly string[]>>;
declare const builtDigest: string;

/** Another language is another worker (`data/live/installed.ts`). */
const language = new URL(self.location.href).searchParams.get('language') ?? '';
const ownFiles = [...(builtFiles[''] ?? []), ...(builtFiles[language] ?? builtFiles.en ?? [])];
const prefix = 'branhearth-files-';
const cacheName = `${prefix}${builtDigest}-${language}`;
const documentAddress = '/';
/** A network that swallows everything must not leave the page white. */
const patienceMs = 4_000;

self.addEventListener('install', (event) => event.waitUntil(keepFiles()));
self.addEventListener('activate', (event) => event.waitUntil(dropOldFiles().then(() => self.clients.claim())));
self.addEventListener('fetch', (event) => {
  const answer = answerTo(event.request);
  if (answer) event.respondWith(answer);
});
self.addEventListener('message', (event) => {
  if (event.data === 'take-up') void self.skipWaiting();
});
listenForPush(self);

/** All of it or nothing; what the version before had under the same name, which carries a digest, is not fetched again. */
async function keepFiles(): Promise<void> {
  const cache = await caches.open(cacheName);
  const left = [...ownFiles];
  const keepNext = async () => {
    for (let address = left.pop(); address !== undefined; address = left.pop()) await keepFile(cache, address);
  };
  // A browser opens six lines to a server, and the open page needs them more than its copy does.
  await Promise.all([keepNext(), keepNext()]);
}

async function keepFile(cache: Cache, address: string): Promise<void> {
  const known = isLasting(address) ? await caches.match(address) : undefined;
  const response = known ?? (await fetch(new Request(address, { cache: isLasting(address) ? 'default' : 'no-cache' })));
  if (!response.ok) throw new Error(`Cannot keep ${address}: the server answered ${response.status}`);
  await cache.put(address, response);
}

/** The version before stays: a page of it may still be open somewhere and ask for its parts. */
async function dropOldFiles(): Promise<void> {
  const others = (await caches.keys()).filter((name) => name.startsWith(prefix) && name !== cacheName);
  await Promise.all(others.slice(0, -1).map((name) => caches.delete(name)));
}

function answerTo(request: Request): Promise<Response> | undefined {
  const { origin, pathname } = new URL(request.url);
  if (request.method !== 'GET' || origin !== self.location.origin) return undefined;
  if (request.mode === 'navigate')
    return isOfInstallation(pathname) ? undefined : fromInstallationOr(request, documentAddress);
  if (!ownFiles.includes(pathname) && !isLasting(pathname)) return undefined;
  return isLasting(pathname) ? fromDevice(request) : fromInstallationOr(request, pathname);
}

/** Answers, files and exports of the server, not pages. */
function isOfInstallation(pathname: string): boolean {
  return /^\/(api|metrics|acknowledge|told)(\/|$)/.test(pathname);
}

/** Its name carries a digest of what is in it. */
function isLasting(pathname: string): boolean {
  return pathname.startsWith('/assets/');
}

async function fromDevice(request: Request): Promise<Response> {
  return (await caches.match(request)) ?? fetch(request);
}

/** A gateway whose server is away counts as no answer. */
async function fromInstallationOr(request: Request, kept: string): Promise<Response> {
  const patience = new AbortController();
  const timer = setTimeout(() => patience.abort(), patienceMs);
  try {
    const response = await fetch(request, { signal: patience.signal });
    if (response.status < 502 || response.status > 504) return response;
  } catch {
    // Out of reach.
  } finally {
    clearTimeout(timer);
  }
  const cache = await caches.open(cacheName);
  return (await cache.match(kept)) ?? Response.error();
}
