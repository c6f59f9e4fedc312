/**
 * Guessing is slowed down, and nobody is locked out by it.
 *
 * After the device cookies of OWASP ("Slow Down Online Guessing Attacks with Device Cookies"): a browser in which the
 * person has signed in before carries a sealed cookie and is counted by itself, so a stranger who guesses cannot keep
 * the person out. All others are counted by account and address together, and by address over all accounts. Nothing
 * ever blocks an account as such: while many strangers try one account, each address only has fewer tries.
 */
import { normalizeIP } from '@fastify/rate-limit';
import type { AttemptCount } from '../../../shared/store/people-journal.ts';
import { digestOf } from './secrets.ts';

const second = 1000;

export const slowDown = {
  /** Tries before the first wait. */
  freeForDevice: 10,
  freeForPair: 5,
  freeForPairUnderAttack: 1,
  freeForAddress: 20,
  /** Failures of strangers within an hour from which an account counts as under attack. */
  attackedFrom: 50,
  firstWaitMs: 5 * second,
  longestWaitMs: 900 * second,
  /** After so long without a failure all is forgotten. */
  quietMs: 3_600 * second,
} as const;

/** @returns The wait after the `failures`th failure in a row: none while it is free, then doubling. */
export function waitAfterMs(failures: number, free: number): number {
  const { firstWaitMs, longestWaitMs } = slowDown;
  return failures < free ? 0 : Math.min(longestWaitMs, firstWaitMs * 2 ** Math.min(30, failures - free));
}

export interface Attempt {
  /** What was typed as name, as it is compared. */
  readonly nameKey: string;
  readonly address: string;
  /** Of the sealed cookie, when there is one for this account. */
  readonly device: string | undefined;
}

export interface CountedAttempt {
  readonly counts: readonly AttemptCount[];
  /** Called when it was a success. */
  readonly forget: readonly string[];
  readonly giveBack: readonly string[];
}

export function countAttempt({ nameKey, address, device }: Attempt): CountedAttempt {
  // Digests, as people type passwords where the name belongs.
  const key = (...parts: string[]) => digestOf(JSON.stringify(parts));
  if (device !== undefined) {
    const ofDevice = key('device', nameKey, device);
    return {
      counts: [{ key: ofDevice, delayMs: (failures) => waitAfterMs(failures, slowDown.freeForDevice) }],
      forget: [ofDevice],
      giveBack: [],
    };
  }
  // Whoever has one IPv6 address has the other 2^64 of its network too (RFC 4291, section 2.5.4).
  const network = normalizeIP(address, 64);
  const [account, pair, ofAddress] = [key('account', nameKey), key('pair', nameKey, network), key('address', network)];
  const { attackedFrom, freeForPair, freeForPairUnderAttack, freeForAddress } = slowDown;
  return {
    counts: [
      { key: account, delayMs: () => 0 },
      {
        key: pair,
        delayMs: (failures, counted) =>
          waitAfterMs(failures, (counted.get(account) ?? 0) > attackedFrom ? freeForPairUnderAttack : freeForPair),
      },
      { key: ofAddress, delayMs: (failures) => waitAfterMs(failures, freeForAddress) },
    ],
    forget: [pair],
    giveBack: [account, ofAddress],
  };
}
