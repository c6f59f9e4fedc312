/** A sentence of an answer at this moment, for what is read aloud once and not drawn anew. */
import { type Message, verbatim } from '../../../shared/messages/message.ts';
import type { Render } from '../../../shared/messages/renderer.ts';
import { sentenceIn } from '../../../shared/messages/verbatim-text.ts';
import { sayNow } from './say-now.ts';

/** As the server worded it: in the language that it was asked in, but for live changes, which are in English. */
export const inItsOwnWords: Render = (said, { units }) =>
  said.code === 'verbatim' ? sentenceIn(units.temperature, said.params.text) : said.code;

/** @param words The server's own, for what has no message, and while there is nothing to render it. */
export function saidNow(words: string, said?: Message | null, render?: Render): string {
  return sayNow(render ?? inItsOwnWords)((render && said) ?? verbatim(words));
}
