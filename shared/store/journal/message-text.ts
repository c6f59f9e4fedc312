/** A message in a column of text. What was written there before messages had codes is said as it stands. */
import type { z } from 'zod';
import { type Message, messageSchema, verbatim } from '../../messages/message.ts';

type ReadJson = <T>(column: string, text: unknown, schema: z.ZodType<T>, standIn?: T) => T;

export const messageText = (said: Message): string => JSON.stringify(said);

/** No sentence of before began so. */
const isMessage = (text: string) => text.startsWith('{"code":');

export function readMessageText(json: ReadJson, column: string, text: string): Message {
  return isMessage(text) ? json(column, text, messageSchema, verbatim(text)) : verbatim(text);
}
