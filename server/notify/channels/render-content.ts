/** What a person is notified of, in words: in their unit and by the clock of their zone. */
import type { NoticeContent } from '../../../core/notify/notice-content.ts';
import { metric, type Reader } from '../../../shared/messages/format.ts';
import type { Message } from '../../../shared/messages/message.ts';
import { render } from '../../../shared/messages/render.ts';
import { plainSpaces } from '../../../shared/messages/renderer.ts';

export interface MessageReader {
  readonly timeZone: string;
  readonly unit: 'C' | 'F';
  /** BCP 47. */
  readonly language: string;
  /** Hours with am and pm; not when absent. */
  readonly hour12?: boolean;
}

export interface MessageContent {
  /** At most 60 characters. */
  readonly title: string;
  /** Which pile, what, what to do, by when. */
  readonly sentence: string;
  readonly parts: readonly { readonly label: string; readonly text: string }[];
}

export function renderContent(
  { title, sentence, parts }: NoticeContent,
  to: MessageReader,
  nowMs: number,
): MessageContent {
  const words = (said: Message) => plainSpaces(render(said, readerOf(to, nowMs)));
  return {
    title: shortTitle(title.name, words(title.what)),
    sentence: words(sentence),
    parts: parts.map(({ label, text }) => ({ label: words(label), text: words(text) })),
  };
}

/** Sentence and parts, a line each. */
export const contentLines = ({ sentence, parts }: MessageContent): string =>
  [sentence, ...parts.map(({ label, text }) => `${label}: ${text}`)].join('\n');

export function readerOf({ timeZone, unit, language, hour12 = false }: MessageReader, nowMs: number): Reader {
  return { language, timeZone, nowMs, units: { ...metric, temperature: unit }, hour12 };
}

const longestTitle = 60;

/** The name gives way, not what is wrong. */
export function shortTitle(name: string, what: string): string {
  const room = Math.max(8, longestTitle - what.length - 2);
  const shown = name.length > room ? `${name.slice(0, room - 1)}…` : name;
  return `${shown}: ${what}`.slice(0, longestTitle);
}
