/**
 * How much a person may have sent by hand: tests, and codes to addresses that may be a stranger's. Counted in the journal, so
 * that neither a restart nor a second process gives more.
 */

import { message } from '../../shared/messages/message.ts';
import type { Journal } from '../../shared/store/journal.ts';
import { msPerHour, msPerMinute } from '../../shared/units.ts';
import { Refusal } from '../refusal.ts';

/** `atOnce` in a row, then one every `thenEveryMs`; all anew after `quietMs` without one. */
interface Bound {
  readonly atOnce: number;
  readonly thenEveryMs: number;
}

export const sendingBounds = {
  test: {
    person: { atOnce: 5, thenEveryMs: 10 * msPerMinute },
    server: { atOnce: 20, thenEveryMs: 2 * msPerMinute },
    quietMs: msPerHour,
  },
  code: {
    person: { atOnce: 4, thenEveryMs: 30 * msPerMinute },
    server: { atOnce: 20, thenEveryMs: 5 * msPerMinute },
    /** Whoever asks: a stranger gets this many messages and no more. */
    address: { atOnce: 3, thenEveryMs: 6 * msPerHour },
    quietMs: 24 * msPerHour,
  },
} as const;

const counted = (key: string, { atOnce, thenEveryMs }: Bound) => ({
  key,
  delayMs: (count: number) => (count < atOnce ? 0 : thenEveryMs),
});

/** @throws {Refusal} 429 with when the next one is possible; then nothing was counted. */
export async function countTest(attempts: Journal['attempts'], personId: string, nowMs: number): Promise<void> {
  const { person, server, quietMs } = sendingBounds.test;
  const counts = [counted(`send-test/${personId}`, person), counted('send-test', server)];
  refuseFor(await attempts.take(counts, nowMs, quietMs), 'problem.tests-sent');
}

export async function countCode(
  attempts: Journal['attempts'],
  personId: string,
  address: string,
  nowMs: number,
): Promise<void> {
  const { person, server, address: ofAddress, quietMs } = sendingBounds.code;
  const counts = [
    counted(`send-code/${personId}`, person),
    counted(`send-code-to/${address.toLowerCase()}`, ofAddress),
    counted('send-code', server),
  ];
  refuseFor(await attempts.take(counts, nowMs, quietMs), 'problem.codes-sent');
}

function refuseFor(waitMs: number, code: 'problem.tests-sent' | 'problem.codes-sent'): void {
  if (waitMs <= 0) return;
  const waitS = Math.ceil(waitMs / 1000);
  const minutes = Math.ceil(waitS / 60);
  const waitPart =
    minutes < 90
      ? message('problem.wait-minutes', { minutesCount: minutes })
      : message('problem.wait-hours', { hoursCount: Math.ceil(minutes / 60) });
  throw new Refusal(429, message(code, { waitPart }), { retryAfterS: waitS });
}
