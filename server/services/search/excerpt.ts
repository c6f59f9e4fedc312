import { stretchesOf } from '../../../shared/find-words.ts';

const before = 60;
const longest = 240;

/** A long text from shortly before the first of the words, cut between words; a short one whole. */
export function excerptOf(text: string, words: readonly string[]): string {
  if (text.length <= longest) return text;
  const from = Math.max(0, (stretchesOf(text, words)[0]?.from ?? 0) - before);
  const start = from === 0 ? 0 : afterSpace(text, from);
  const end = start + longest >= text.length ? text.length : beforeSpace(text, start + longest);
  return `${start === 0 ? '' : '… '}${text.slice(start, end)}${end === text.length ? '' : ' …'}`;
}

/** In a script without spaces it is cut anywhere. */
function afterSpace(text: string, from: number): number {
  const space = text.indexOf(' ', from);
  return space >= 0 && space - from < before / 2 ? space + 1 : from;
}

function beforeSpace(text: string, to: number): number {
  const space = text.lastIndexOf(' ', to);
  return to - space < before / 2 ? space : to;
}
