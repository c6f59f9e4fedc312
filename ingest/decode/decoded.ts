/**
 * What every decoder takes and gives. It never throws: what cannot be used is given back as a ReadingError beside what
 * can.
 */
import type { ReadingError } from '../../shared/errors.ts';
import { type Message, message } from '../../shared/messages/message.ts';
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
export function foundSaid(value: unknown): Message {
  if (value === undefined) return message('refusal.found.nothing');
  if (Array.isArray(value)) return message('refusal.found.list', { lengthCount: value.length });
  if (typeof value === 'object' && value !== null) {
    const names = Object.keys(value);
    if (names.length === 0) return message('refusal.found.empty-object');
    return message('refusal.found.object', { namesText: cut(names.slice(0, 8).join(', ')) });
  }
  return message('refusal.found.text', { foundText: typeof value === 'string' ? quoted(value) : String(value) });
}

/** A text that came from outside, short enough for a sentence. */
export function quoted(text: string): string {
  return JSON.stringify(cut(text));
}

/** Where a value or a time was looked for: a JSON Pointer or a name as the message has it, or one of these places. */
export type Where =
  | string
  | { readonly place: 'payload' | 'mapping-time' | 'report-time' | 'row-time' | 'object-time' };

export function whereSaid(where: Where): Message {
  if (typeof where !== 'string') return message(`refusal.where.${where.place}`);
  return message('refusal.where.pointer', { pointerText: where });
}

function cut(text: string): string {
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}
