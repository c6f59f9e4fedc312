import { type Message, verbatim } from '../../shared/messages/message.ts';

/** Of what still comes in words. */
export const asMessage = (said: string | Message): Message => (typeof said === 'string' ? verbatim(said) : said);
