/**
 * A sign-out that the server has not heard of yet: kept on this device, and said before anything else is asked. Until then
 * this browser's cookie would still open everything, so nothing else is sent with it.
 */
import { forget, recall, remember } from './remembered.ts';
import { createStore } from './store.ts';

const owedKey = 'branhearth.sign-out-owed';

const isOwed = (): boolean => recall(owedKey) !== null;

/** Whether one is owed. */
export const owedSignOut = createStore<boolean>(isOwed());

export function oweSignOut(): void {
  // Where nothing may be kept it is remembered by this page alone.
  remember(owedKey, new Date().toISOString());
  owedSignOut.set(true);
}

export function settleSignOut(): void {
  forget(owedKey);
  owedSignOut.set(false);
}

/** @param act Called when one is owed from now on, by this page or by another one of this browser. */
export function whenSignOutOwed(act: () => void): void {
  owedSignOut.follow(() => owedSignOut.get() && act());
  addEventListener('storage', (event) => {
    if (event.key === owedKey) owedSignOut.set(isOwed());
  });
}

/** What may be sent while one is owed: the sign-out itself, and what begins another session in its place. */
export function isHeldUp(method: string, path: string): boolean {
  if (!owedSignOut.get()) return false;
  const begins = method === 'POST' && /^\/api\/(session|links\/(use|look))$/.test(path);
  return !begins && !(method === 'DELETE' && path === '/api/session');
}
