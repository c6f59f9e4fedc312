/** A message as a broker brought it. */

import { ReadingError } from '../../shared/errors.ts';
import { message } from '../../shared/messages/message.ts';

export const largestPayloadBytes = 64 * 1024;

export interface Inbound {
  readonly topic: string;
  readonly payload: Buffer;
  /** It lay in the broker as a retained message. */
  readonly retained: boolean;
  /** Whether this copy of it came by that filter; when absent there is one copy for all. */
  cameBy?(filter: string): boolean;
  /** Of the key that its sender has. */
  readonly site?: string | undefined;
  /** Where its key does not reach the topic: what a mapping reads of it counts for this site alone. */
  readonly confinedTo?: string | undefined;
}

export function textOf({ payload }: Inbound): string {
  return payload.toString('utf8');
}

/** What is wrong with a message that is empty or too long to hold a reading. */
export function sizeProblem({ payload }: Inbound): ReadingError | undefined {
  if (payload.length > largestPayloadBytes) {
    return new ReadingError(
      'payload-too-large',
      message('refusal.too-large', { mostCount: largestPayloadBytes, foundCount: payload.length }),
    );
  }
  if (payload.length > 0) return undefined;
  return new ReadingError('payload-empty', message('refusal.empty'));
}
