/**
 * Who was refused, and how long the next wrong one has to wait. It never sees a password, and never
 * keeps more than a few hundred lines however many try.
 */

import { BoundedMap } from '../../shared/bounded-map.ts';
import type { Clock } from '../../shared/clock.ts';
import { type RefusedReason, refusedReasonSchema } from '../../shared/contracts/keys.ts';
import { excerpt } from '../decode/refusals.ts';

export type { RefusedReason };

const refusedReasons = refusedReasonSchema.options;

/** Those that a guesser of secrets would cause. */
const guesses: ReadonlySet<RefusedReason> = new Set(['unknown-key', 'wrong-secret', 'revoked-key']);

interface ConnectionAttempt {
  readonly address: string;
  readonly clientId: string;
  /** The key that was named, where there is or was such a one. */
  readonly keyId: string | null;
  readonly reason: RefusedReason;
}

interface AttemptLine extends ConnectionAttempt {
  readonly count: number;
  readonly lastAtMs: number;
}

export interface ConnectionAttempts {
  count(attempt: ConnectionAttempt): void;
  /** Newest first. */
  lines(): readonly AttemptLine[];
  totals(): Readonly<Record<RefusedReason, number>>;
  /** How long the answer to a wrong credential from this address is held back [ms]. */
  waitMs(address: string): number;
}

const mostLines = 200;
const mostAddresses = 2_000;
/** So many may be wrong, as when a key was changed and a probe not yet changed, before an address is slowed. */
const freeTries = 5;
const firstWaitMs = 250;
const longestWaitMs = 10_000;
/** Wrong tries are forgotten after so long without one. */
const forgetAfterMs = 10 * 60_000;

export function createConnectionAttempts(clock: Clock): ConnectionAttempts {
  const lines = new BoundedMap<AttemptLine>(mostLines);
  const wrong = new BoundedMap<{ tries: number; lastAtMs: number }>(mostAddresses);
  const totals = Object.fromEntries(refusedReasons.map((reason) => [reason, 0])) as Record<RefusedReason, number>;

  function countGuess(address: string): void {
    const nowMs = performance.now(); // the machine's own time: a clock set back must not lock anybody out
    const before = wrong.get(address);
    const tries = before !== undefined && nowMs - before.lastAtMs < forgetAfterMs ? before.tries + 1 : 1;
    wrong.set(address, { tries, lastAtMs: nowMs });
  }

  return {
    count(attempt) {
      totals[attempt.reason] += 1;
      if (guesses.has(attempt.reason)) countGuess(attempt.address);
      const shown = { ...attempt, address: excerpt(attempt.address), clientId: excerpt(attempt.clientId) };
      const name = JSON.stringify([shown.reason, shown.address, shown.clientId, shown.keyId]);
      const count = (lines.get(name)?.count ?? 0) + 1;
      lines.set(name, { ...shown, count, lastAtMs: clock.nowMs() });
    },
    lines: () => [...lines.values()].reverse(),
    totals: () => ({ ...totals }),
    waitMs(address) {
      const seen = wrong.peek(address);
      if (seen === undefined || seen.tries <= freeTries || performance.now() - seen.lastAtMs >= forgetAfterMs) return 0;
      return Math.min(firstWaitMs * 2 ** Math.min(seen.tries - freeTries - 1, 10), longestWaitMs);
    },
  };
}
