/** A sentence of an answer at this moment, for what is read aloud once and not drawn anew. */
import { type Message, verbatim } from '../../../shared/messages/message.ts';
import type { Render } from '../../../shared/messages/renderer.ts';
import { sentenceIn } from '../../../shared/messages/verbatim-text.ts';
import { otherLanguage } from './language.ts';
import { sayNow } from './say-now.ts';

/** As the server worded it, which is in English. */
export const inItsOwnWords: Render = (said, { units }) =>
  said.code === 'verbatim' ? sentenceIn(units.temperature, said.params.text) : said.code;

/** @param words The server's own, for whoever reads English and for what has no message. */
export function saidNow(words: string, said: Message | null | undefined): string {
  return sayNow(inItsOwnWords)(otherLanguage() === null ? verbatim(words) : (said ?? verbatim(words)));
}
