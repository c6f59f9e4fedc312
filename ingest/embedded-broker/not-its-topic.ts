import { ReadingError } from '../../shared/errors.ts';
import { message } from '../../shared/messages/message.ts';
import type { Principal } from '../auth/auth-policy.ts';

/** Who wanted it, as sentences name them. */
export const whoIs = (principal: Principal | undefined) => ({
  hasKey: principal?.keyId != null,
  keyName: principal?.keyId ?? '',
});

export function notItsTopic(
  code: 'refusal.publish' | 'refusal.listen',
  principal: Principal | undefined,
  topicText: string,
): ReadingError {
  return new ReadingError('not-its-topic', message(code, { ...whoIs(principal), topicText }));
}
