import { inWords } from '../../../shared/messages/in-words.ts';
import { type Message, message } from '../../../shared/messages/message.ts';

/** What foretold the air gave no name. */
export const unnamedSource = '';

/** Who foretold the air: the name they gave, else in words. */
export function shownSource(source: string): { source: string; messages?: { source: Message } } {
  return source === unnamedSource ? inWords({ source: message('weather.own-source') }, 0) : { source };
}
