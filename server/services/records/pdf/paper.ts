import type { BatchRecordSheet } from '../../../../shared/contracts/records.ts';
import { type Message, message, type Say } from '../../../../shared/messages/message.ts';
import type { Sheet } from './sheet.ts';

/** One record being drawn, its sentences in the language of whoever reads it. */
export interface Paper {
  readonly sheet: Sheet;
  readonly say: Say;
  readonly record: BatchRecordSheet;
}

/** As exactly as it was written down. */
const exactly = (value: number) => ({ value, figures: 9 });

/** @returns Null where neither was written down. */
export function amountMessage(massKg: number | null | undefined, volumeL: number | null | undefined): Message | null {
  if (massKg != null && volumeL != null)
    return message('record.mass-and-volume', { massKg: exactly(massKg), volumeL: exactly(volumeL) });
  if (massKg != null) return message('record.mass', { massKg: exactly(massKg) });
  return volumeL == null ? null : message('record.volume', { volumeL: exactly(volumeL) });
}

export const noAmount = message('record.no-amount');

/** @param at An instant as the API gives it. @example whenMessage('2031-04-03T14:05:00Z') // => "3 Apr 2031, 14:05" */
export const whenMessage = (at: string): Message => message('record.when', { atWhenMs: Date.parse(at) });

export const dayMessage = (at: string): Message => message('record.day', { onDayMs: Date.parse(at) });
