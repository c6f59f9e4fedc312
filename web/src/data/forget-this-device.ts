/**
 * The push subscription of this browser, when somebody signs out or in: it is given back, or goes with whoever sits here.
 */
import { deviceHereAnswerSchema } from '../../../shared/contracts/device-here.ts';
import { ask } from './client.ts';
import { createStore } from './store.ts';

/** Why messages to this device ended, if they did: said until they are wanted anew or not. */
export type PushEnded = 'earlier-sign-in' | 'other-keys';
export const pushEnded = createStore<PushEnded | null>(null);

async function subscription(): Promise<PushSubscription | null> {
  if (!('serviceWorker' in navigator) || !('PushManager' in window)) return null;
  const worker = await navigator.serviceWorker.getRegistration();
  return (await worker?.pushManager.getSubscription()) ?? null;
}

const patienceMs = 2_000;

async function giveBack(): Promise<void> {
  await (await subscription().catch(() => null))?.unsubscribe().catch(() => false);
}

/** Best effort: whatever this browser does, the server drops what was signed up by a session that ended. */
export async function forgetThisDevice(): Promise<void> {
  pushEnded.set(null);
  // Out of reach a browser may wait for its push service.
  await Promise.race([giveBack(), new Promise((resolve) => setTimeout(resolve, patienceMs))]);
}

/** Tells the server who sits at this browser now. A subscription that it no longer serves is given back, and that is said. */
export async function sayThisDevice(): Promise<void> {
  const standing = await subscription().catch(() => null);
  if (!standing) return;
  const body = { endpoint: standing.endpoint };
  const { isSubscribed, pushKey } = await ask(deviceHereAnswerSchema, '/api/notifications/devices/here', {
    method: 'POST',
    body,
  });
  if (isSubscribed) return;
  await giveBack();
  pushEnded.set(isSubscribedWith(standing, pushKey) ? 'earlier-sign-in' : 'other-keys');
}

/** @param pushKey base64url, as the server gives it. */
export function isSubscribedWith({ options }: PushSubscription, pushKey: string): boolean {
  const { applicationServerKey: used } = options;
  if (!used) return true; // a browser that does not say
  const letters = Array.from(new Uint8Array(used), (byte) => String.fromCharCode(byte)).join('');
  return btoa(letters).replaceAll('+', '-').replaceAll('/', '_').replaceAll('=', '') === pushKey.replaceAll('=', '');
}
