/**
 * Counts what was refused, with the last example of each reason. It never keeps more than a short piece of what
 * strangers send, and shows no control characters of it.
 */

import type { Clock } from '../../shared/clock.ts';
import type { RefusalsAnswer } from '../../shared/contracts/ingest.ts';
import { toInstant } from '../../shared/contracts/time.ts';
import { type ReadingError, type RefusalReason, refusalReasons } from '../../shared/errors.ts';
import { inWords } from '../../shared/messages/in-words.ts';
import type { Message } from '../../shared/messages/message.ts';
import { refusalMeanings } from './refusal-meanings.ts';

const shownCharacters = 200;

interface Counted {
  count: number;
  atMs: number;
  topic: string;
  payload: Buffer;
  said: Message;
}

export interface Refusals {
  count(error: ReadingError, topic: string, payload: Uint8Array | string): void;
  answer(): RefusalsAnswer;
  counts(): Record<RefusalReason, number>;
}

export function createRefusals(clock: Clock): Refusals {
  const sinceMs = clock.nowMs();
  const counted = new Map<RefusalReason, Counted>();

  return {
    count(error, topic, payload) {
      const before = counted.get(error.reason)?.count ?? 0;
      // A copy of its beginning, so that a whole socket buffer is not kept alive by one example.
      const start =
        typeof payload === 'string' ? payload.slice(0, shownCharacters) : payload.subarray(0, 4 * shownCharacters);
      counted.set(error.reason, {
        count: before + 1,
        atMs: clock.nowMs(),
        topic: topic.slice(0, shownCharacters),
        payload: Buffer.from(start),
        said: error.said,
      });
    },
    answer() {
      const refusals = refusalReasons.flatMap((reason) => {
        const found = counted.get(reason);
        if (found === undefined) return [];
        const last = {
          at: toInstant(found.atMs),
          topic: excerpt(found.topic),
          payload: excerpt(found.payload.toString('utf8')),
          ...inWords({ message: withoutControls(found.said) }, found.atMs),
        };
        return [{ reason, ...inWords({ meaning: refusalMeanings[reason] }, found.atMs), count: found.count, last }];
      });
      const total = refusals.reduce((sum, { count }) => sum + count, 0);
      return { since: toInstant(sinceMs), total, refusals };
    },
    counts() {
      return Object.fromEntries(refusalReasons.map((reason) => [reason, counted.get(reason)?.count ?? 0])) as Record<
        RefusalReason,
        number
      >;
    },
  };
}

/** At most 200 characters, control and invisible characters shown as escapes. */
export function excerpt(text: string): string {
  return escapeControls(text.slice(0, shownCharacters)).slice(0, shownCharacters);
}

/** Also the ones that turn the direction of writing or hide: they could make an example read as something else. */
function escapeControls(text: string): string {
  return text.replace(/[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/gu, (character) => {
    const code = character.codePointAt(0) ?? 0;
    return code > 0xffff ? `\\u{${code.toString(16)}}` : `\\u${code.toString(16).padStart(4, '0')}`;
  });
}

/** What came from outside stands in the parameters of a message. */
function withoutControls<Value>(value: Value): Value {
  if (typeof value === 'string') return escapeControls(value) as Value;
  if (typeof value !== 'object' || value === null) return value;
  const entries = Object.entries(value).map(([name, part]) => [name, withoutControls(part)]);
  return Object.fromEntries(entries) as Value;
}
