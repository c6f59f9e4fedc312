/**
 * Leaving, and everything that must be forgotten then.
 *
 * It happens when a person signs out, and when the server says that their session has ended. Whatever else keeps
 * something of a person on this device hears the event `branhearth:signed-out` on `window`.
 */
import { NoAnswer } from './client.ts';
import { forgetThisDevice } from './forget-this-device.ts';
import { forgetAllHalfDone } from './half-done-key.ts';
import { me } from './me.ts';
import { owedSignOut, oweSignOut, settleSignOut } from './owed-sign-out.ts';
import { endThisSession } from './session-api.ts';

const signedOutEvent = 'branhearth:signed-out';

/** Forgets, however it came that nobody is signed in any more. */
export async function forgetPerson(): Promise<void> {
  me.set(null);
  window.dispatchEvent(new Event(signedOutEvent));
}

/** Out of reach it is remembered, and said at the next contact; on this device it counts at once. */
export async function signOut(): Promise<void> {
  try {
    await endThisSession();
  } catch (error) {
    if (!(error instanceof NoAnswer)) throw error;
    oweSignOut();
  }
  forgetAllHalfDone();
  await forgetPerson();
  await forgetThisDevice();
  // Out of reach no page could be fetched: the sign-in page stands here already.
  if (!owedSignOut.get()) location.assign('/');
}

/** Before anything else is asked. @throws {NoAnswer} while the server is out of reach. */
export async function sayOwedSignOut(): Promise<void> {
  if (!owedSignOut.get()) return;
  await endThisSession();
  settleSignOut();
}
