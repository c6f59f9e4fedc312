/**
 * The pages as an app on this device: kept for opening out of reach, and brought to a new version. It never changes
 * version under an open page: parts of two versions would meet.
 */
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
    registration = await workers.register('/sw.js', { updateViaCache: 'none' });
  } catch (error) {
    console.warn('The pages cannot be kept for opening out of reach', error);
    return;
  }
  watch(registration);
  registration.addEventListener('updatefound', () => registration && watch(registration));
}

function watch({ waiting, installing }: ServiceWorkerRegistration): void {
  if (waiting && navigator.serviceWorker.controller) change({ newer: true });
  installing?.addEventListener('statechange', () => {
    if (installing.state === 'installed' && navigator.serviceWorker.controller) change({ newer: true });
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
