/**
 * What is to be said, as data: the code of a message with its parameters in SI units and °C. `render` makes the sentence, in the
 * reader's language and units, at the edge.
 */
import { z } from 'zod';
import type { MessageParams } from './made/params.ts';
import type { NoParams } from './param-types.ts';

export type { MessageParams } from './made/params.ts';
export type { Difference, NoParams, Temperature } from './param-types.ts';

export type MessageCode = keyof MessageParams;

/**
 * One sentence of the catalogue; `message()` sees that code and parameters belong together. No union of a shape for each code: of a
 * thousand of them the compiler can make no list.
 */
interface Sentence {
  readonly code: MessageCode;
  readonly params: MessageParams[MessageCode];
}

/** Several sentences that are read one after the other. */
interface Paragraph {
  readonly code: 'paragraph';
  readonly params: { readonly parts: readonly Message[] };
}

/**
 * A text that is shown as it was written: by a person, by another program, or before messages had codes. Its temperatures, which are in
 * °C, are read out of it and put into the reader's unit: no other text is treated so.
 */
interface Verbatim {
  readonly code: 'verbatim';
  readonly params: { readonly text: string };
}

export type Message = Sentence | Paragraph | Verbatim;

/**
 * @example message('plain.nothing-to-do')
 * @example message('warnings.drying.seen.below', { moistureFrac: 0.41, needsFrac: 0.5 })
 */
export function message<Code extends MessageCode>(
  code: Code,
  ...params: NoParams extends MessageParams[Code] ? [] : [params: MessageParams[Code]]
): Message {
  return { code, params: params[0] ?? {} } as Message;
}

/** Makes a sentence for a reader who is settled. */
export type Say = (said: Message) => string;

/** Says the parts that there are one after the other; a part that is null is left out. */
export function paragraph(...parts: readonly (Message | null)[]): Message {
  const said = parts.filter((part) => part !== null);
  const [only] = said;
  return said.length === 1 && only !== undefined ? only : { code: 'paragraph', params: { parts: said } };
}

/** For logs and programmers: nothing that a person is to read. */
export function inCode({ code, params }: Message): string {
  return Object.keys(params).length === 0 ? code : `${code} ${JSON.stringify(params)}`;
}

export function verbatim(text: string): Message {
  return { code: 'verbatim', params: { text } };
}

/**
 * The form of a message in an answer or a row. Whether its code is known and its parameters are whole is found out where it is
 * rendered: a program of another version still reads the rest.
 */
export const messageSchema: z.ZodType<Message> = z.custom<Message>(
  (value) => messageForm.safeParse(value).success,
  'must be a message: {"code", "params"}',
);

/** Of a row: what was written there before messages had codes is said as it stands. */
export const keptMessageSchema: z.ZodType<Message> = z.union([messageSchema, z.string().transform(verbatim)]);

const messageForm = z.object({ code: z.string(), params: z.record(z.string(), z.unknown()) });
