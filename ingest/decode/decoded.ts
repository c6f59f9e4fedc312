/**
 * What every decoder takes and gives. It never throws: what cannot be used is given back as a ReadingError beside what
 * can.
 */
import type { ReadingError } from '../../shared/errors.ts';
import type { Reading } from '../../shared/reading.ts';

export interface ProbeRef {
  readonly site: string;
  readonly probe: string;
}

/** When and how a message came in. */
export interface Arrival {
  readonly nowMs: number;
  /** It lay in the broker for an unknown time, so its arrival says nothing about when it was measured. */
  readonly retained: boolean;
}

export interface Decoded {
  readonly readings: readonly Reading[];
  readonly refusals: readonly ReadingError[];
}

/** Shared by the many messages in which nothing is refused, so that they cost no array. */
export const noRefusals: readonly ReadingError[] = [];
export const noReadings: readonly Reading[] = [];

export function refused(...refusals: ReadingError[]): Decoded {
  return { readings: noReadings, refusals };
}

/** A value as it stood in the payload, short enough for a sentence; safe for any depth of nesting. */
export function shown(value: unknown): string {
  if (value === undefined) return 'nothing';
  if (typeof value === 'string') return JSON.stringify(cut(value));
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (typeof value === 'object' && value !== null) {
    const names = Object.keys(value);
    return names.length === 0 ? 'an empty object' : `an object with ${cut(names.slice(0, 8).join(', '))}`;
  }
  return String(value);
}

function cut(text: string): string {
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}
