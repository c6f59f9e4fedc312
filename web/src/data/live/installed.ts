/**
 * The pages as an app on this device: kept for opening out of reach, brought to a new version, and shown in another language. It never
 * changes version under an open page: parts of two versions would meet.
 */
import { language } from '../language.ts';
import { languageKey, remember } from '../remembered.ts';
import { createStore } from '../store.ts';

export interface Installed {
  /** no: this browser cannot, or the address is neither https nor this machine. */
  readonly opensOffline: 'no' | 'not-yet' | 'yes';
  readonly newer: boolean;
  /** Asks the person whether to put the app among their others; undefined while the browser does not offer it. */
  readonly install: (() => Promise<void>) | undefined;
}

export const installed = createStore<Installed>({ opensOffline: 'no', newer: false, install: undefined });

const change = (part: Partial<Installed>) => installed.set({ ...installed.get(), ...part });

/** Chromium's own event; others have none, and their menu instead. */
interface InstallOffer extends Event {
  prompt(): Promise<unknown>;
}

let registration: ServiceWorkerRegistration | undefined;

/** Called once, when the page is up: the first visit shall not wait for the copy. */
export async function keepPages(): Promise<void> {
  addEventListener('beforeinstallprompt', (event) => {
    event.preventDefault();
    const offer = event as InstallOffer;
    change({
      install: async () => {
        change({ install: undefined });
        await offer.prompt();
      },
    });
  });
  if (!import.meta.env.PROD || !('serviceWorker' in navigator)) return;
  const workers = navigator.serviceWorker;
  change({ opensOffline: workers.controller ? 'yes' : 'not-yet' });
  const wasControlled = workers.controller !== null;
  workers.addEventListener('controllerchange', () => {
    change({ opensOffline: 'yes', newer: wasControlled && !takingUp });
    if (takingUp) location.reload();
  });
  try {
    registration = await register(language);
  } catch (error) {
    console.warn('The pages cannot be kept for opening out of reach', error);
    return;
  }
  watch(registration);
  registration.addEventListener('updatefound', () => registration && watch(registration));
}

/** The worker of a language keeps the pages in it. */
const register = (of: string) =>
  navigator.serviceWorker.register(`/sw.js?language=${encodeURIComponent(of)}`, { updateViaCache: 'none' });

/**
 * Shows the pages in another language in place of these, and on a device that keeps them keeps those, whole, before that.
 * @throws where they cannot be had now: these stay.
 */
export async function showIn(wanted: string): Promise<void> {
  const wasTakingUp = takingUp;
  takingUp = true;
  try {
    const kept = registration && (await register(wanted));
    const worker = kept?.installing ?? kept?.waiting;
    if (worker) await isKept(worker);
    else if (!(await fetch('/begin.js', { cache: 'no-cache' })).ok) throw new Error('The pages cannot be had now');
    if (!remember(languageKey, wanted)) return;
    if (kept?.waiting) kept.waiting.postMessage('take-up');
    else location.reload();
  } catch (error) {
    takingUp = wasTakingUp;
    throw error;
  }
}

function isKept(worker: ServiceWorker): Promise<void> {
  return new Promise((resolve, reject) => {
    const look = () => {
      if (['installed', 'activating', 'activated'].includes(worker.state)) resolve();
      if (worker.state === 'redundant') reject(new Error('The pages were not kept whole'));
    };
    worker.addEventListener('statechange', look);
    look();
  });
}

function watch({ waiting, installing }: ServiceWorkerRegistration): void {
  if (waiting && navigator.serviceWorker.controller) change({ newer: true });
  installing?.addEventListener('statechange', () => {
    if (installing.state === 'installed' && !takingUp && navigator.serviceWorker.controller) change({ newer: true });
  });
}

/** Whether the server has newer pages: asked when it answers again, as it may have been replaced meanwhile. */
export function lookForNewer(): void {
  registration?.update().catch(() => undefined);
}

let takingUp = false;

/** Loads the newer version in place of this one. */
export function takeUpNewer(): void {
  const waiting = registration?.waiting;
  // Taken up by another page already: this one has only to load.
  if (!waiting) location.reload();
  takingUp = true;
  waiting?.postMessage('take-up');
}
