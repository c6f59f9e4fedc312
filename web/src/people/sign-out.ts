/**
 * web/people/sign-out.ts: leaving, and everything that must be forgotten then.
 *
 * Whoever keeps something of a person on this device registers here; it is called when they sign out, and when the house says
 * that their session has ended. Code that cannot import this hears the event `branhearth:signed-out` on `window`.
 */
import { me } from './me.ts';
import { endThisSession } from './people-api.ts';

type Forget = () => void | Promise<void>;

export const signedOutEvent = 'branhearth:signed-out';
const forgetting = new Set<Forget>();

/** @returns How to stop. */
export function whenSignedOut(forget: Forget): () => void {
  forgetting.add(forget);
  return () => forgetting.delete(forget);
}

/** Forgets, however it came that nobody is signed in any more. */
export async function forgetPerson(): Promise<void> {
  me.set(null);
  window.dispatchEvent(new Event(signedOutEvent));
  // One that fails must not keep the others from forgetting.
  await Promise.allSettled([...forgetting].map(async (forget) => forget()));
}

export async function signOut(): Promise<void> {
  await endThisSession();
  await forgetPerson();
  location.assign('/');
}
