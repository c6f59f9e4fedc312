import { ReadingError } from '../../shared/errors.ts';
import type { Principal } from '../auth/auth-policy.ts';

export const whoIs = (principal: Principal | undefined): string =>
  principal?.keyId == null ? 'a program without a key' : `the key ${principal.keyId}`;

/** @param what It wanted to do there, as in "publish on". */
export function notItsTopic(principal: Principal | undefined, what: string, topic: string): ReadingError {
  return new ReadingError(
    'not-its-topic',
    `Cannot let ${whoIs(principal)} ${what} a topic it does not reach: found ${topic}`,
  );
}
