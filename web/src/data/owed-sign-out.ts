/**
 * A sign-out that the server has not heard of yet: kept on this device, and said before anything else is asked. Until then
 * this browser's cookie would still open everything, so nothing else is sent with it.
 */
import { createStore } from './store.ts';

const owedKey = 'branhearth.sign-out-owed';

function read(): boolean {
  try {
    return localStorage.getItem(owedKey) !== null;
  } catch {
    return false;
  }
}

/** Whether one is owed. */
export const owedSignOut = createStore<boolean>(read());

export function oweSignOut(): void {
  try {
    localStorage.setItem(owedKey, new Date().toISOString());
  } catch {
    // Remembered by this page alone, then.
  }
  owedSignOut.set(true);
}

export function settleSignOut(): void {
  try {
    localStorage.removeItem(owedKey);
  } catch {
    // Nothing was kept.
  }
  owedSignOut.set(false);
}

/** @param act Called when one is owed from now on, by this page or by another one of this browser. */
export function whenSignOutOwed(act: () => void): void {
  owedSignOut.follow(() => owedSignOut.get() && act());
  addEventListener('storage', (event) => {
    if (event.key === owedKey) owedSignOut.set(read());
  });
}

/** What may be sent while one is owed: the sign-out itself, and what begins another session in its place. */
export function isHeldUp(method: string, path: string): boolean {
  if (!owedSignOut.get()) return false;
  const begins = method === 'POST' && /^\/api\/(session|links\/(use|look))$/.test(path);
  return !begins && !(method === 'DELETE' && path === '/api/session');
}
