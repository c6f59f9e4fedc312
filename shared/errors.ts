/**
 * The few error classes that some caller catches.
 *
 * Sentence of each: what was attempted, what must hold, the value found; no final period.
 */
import { inCode, type Message } from './messages/message.ts';

/** Why a message from outside cannot be used; a counter and a person can act on each. */
export const refusalReasons = [
  'topic-shape',
  'not-its-topic',
  'too-many-filters',
  'too-many-unclaimed',
  'payload-too-large',
  'payload-empty',
  'not-json',
  'not-senml',
  'missing-field',
  'wrong-type',
  'unknown-quantity',
  'unknown-unit',
  'out-of-range',
  'power-on-value',
  'bad-time',
  'future-time',
  'no-such-pointer',
  'conflicting-value',
  'already-downsampled',
  'name-taken',
  'unknown-site',
  'unknown-template',
  'press-of-no-use',
] as const;
export type RefusalReason = (typeof refusalReasons)[number];

/** A message or reading that cannot be used, with the reason a person or a counter can act on. */
export class ReadingError extends Error {
  override readonly name = 'ReadingError';
  constructor(
    readonly reason: RefusalReason,
    /** What was attempted, what must hold, what was found; made a sentence where somebody reads it. */
    readonly said: Message,
    options?: ErrorOptions,
  ) {
    // It is what came of a message, not a fault to be traced, and a flood of bad messages makes a flood of these.
    const traced = Error as { stackTraceLimit?: number | undefined };
    const limit = traced.stackTraceLimit;
    traced.stackTraceLimit = 0;
    super(said.code, options);
    traced.stackTraceLimit = limit;
  }
}

/** Stored data contradict our own rules, or a store cannot be used. */
export class StoreError extends Error {
  override readonly name = 'StoreError';
  /** The store asked to be left alone for so long. */
  readonly retryAfterMs: number | undefined;
  constructor(message: string, options?: ErrorOptions & { readonly retryAfterMs?: number }) {
    super(message, options);
    this.retryAfterMs = options?.retryAfterMs;
  }
}

/** A database file is damaged as a whole: nothing here mends that, a backup does. */
export class DamagedFileError extends StoreError {}

/** How the program ends then, as EX_DATAERR of sysexits.h: starting it again is of no use. */
export const damagedFileExitCode = 65;

/** A site is watched by another process by now: what this one would write about it is refused. */
export class LostLeaseError extends Error {
  override readonly name = 'LostLeaseError';
}

/** The person's own rule was broken by a request (an id taken, a position occupied): HTTP 409. */
export class ConflictError extends Error {
  override readonly name = 'ConflictError';
  constructor(
    /** What must hold, what was found, and what to do. */
    readonly said: Message,
    /** JSON Pointer (RFC 6901) to the field at fault, e.g. "/position". */
    readonly pointer: string,
  ) {
    super(inCode(said));
  }
}

/** A configuration variable is wrong: the start stops with this one line. */
export class ConfigError extends Error {
  override readonly name = 'ConfigError';
}
