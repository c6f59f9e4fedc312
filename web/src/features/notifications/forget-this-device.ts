/**
 * The push subscription of this browser, when somebody signs out or in: it is given back, or goes with whoever sits here.
 */
import { deviceHereAnswerSchema } from '../../../../shared/contracts/notifications.ts';
import { ask } from '../../data/client.ts';
import { createStore } from '../../data/store.ts';

/** Whether messages to this device ended with an earlier sign-in of the same browser: said until they are wanted anew or not. */
export const pushEnded = createStore<boolean>(false);

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
  pushEnded.set(false);
  // Out of reach a browser may wait for its push service.
  await Promise.race([giveBack(), new Promise((resolve) => setTimeout(resolve, patienceMs))]);
}

/** Tells the server who sits at this browser now. A subscription that it no longer serves is given back, and that is said. */
export async function sayThisDevice(): Promise<void> {
  const standing = await subscription().catch(() => null);
  if (!standing) return;
  const body = { endpoint: standing.endpoint };
  const { isTold } = await ask(deviceHereAnswerSchema, '/api/notifications/devices/here', { method: 'POST', body });
  if (isTold) return;
  await giveBack();
  pushEnded.set(true);
}
