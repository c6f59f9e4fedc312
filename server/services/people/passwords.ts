/**
 * Passwords as argon2id.
 *
 * Parameters: 19 MiB of memory, 2 passes, 1 lane, the least that the OWASP Password Storage Cheat Sheet gives for
 * argon2id; salts of 16 random bytes are the library's own. It never tells by its time whether an account exists: for
 * an unknown one a password that nobody has is checked; or lets many at once take all memory and threads.
 */
import { hash, parseOptions, verify } from '@node-rs/argon2';
import { newSecret } from './secrets.ts';

const cost = { memoryCost: 19_456, timeCost: 2, parallelism: 1 } as const;

/** As many as may be worked out at once, and as many as may wait for it. */
const atOnce = 2;
const mostWaiting = 40;

/** Too many wait already. */
export class TooBusyError extends Error {
  override readonly name = 'TooBusyError';
}

let working = 0;
const waiting: (() => void)[] = [];

async function inTurn<T>(work: () => Promise<T>): Promise<T> {
  if (working >= atOnce) {
    if (waiting.length >= mostWaiting) throw new TooBusyError('Too many people sign in just now');
    await new Promise<void>((resolve) => waiting.push(resolve));
  } else working += 1;
  try {
    return await work();
  } finally {
    const next = waiting.shift();
    // The place is handed on, so that nobody slips in between.
    if (next) next();
    else working -= 1;
  }
}

const canonical = (password: string) => password.normalize('NFC');

export const hashPassword = (password: string): Promise<string> => inTurn(() => hash(canonical(password), cost));

let nobodys: Promise<string> | undefined;

/** @param kept What is kept of the password. For none, and for one that is damaged, the answer is always no. */
export async function isPassword(password: string, kept: string | undefined): Promise<boolean> {
  nobodys ??= hashPassword(newSecret());
  const isWhole = kept !== undefined && isHash(kept);
  const against = isWhole ? kept : await nobodys;
  const isRight = await inTurn(() => verify(against, canonical(password)));
  return isRight && isWhole;
}

export function isHash(kept: string): boolean {
  try {
    parseOptions(kept);
    return true;
  } catch {
    return false;
  }
}

/** Whether it was made at another cost than is asked for today. */
export function wantsNewHash(kept: string): boolean {
  const { memoryCost, timeCost, parallelism } = parseOptions(kept);
  return memoryCost !== cost.memoryCost || timeCost !== cost.timeCost || parallelism !== cost.parallelism;
}
