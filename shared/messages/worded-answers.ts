/**
 * The sentences of an answer beside the messages that they are made from, for programs that know no codes; by whatever renders them:
 * `in-words.ts` by that of the server.
 */
import { plainReader, type Reader } from './format.ts';
import type { Message } from './message.ts';
import { plainSpaces, type Render } from './renderer.ts';

/** A sentence, several, or none. */
type Said = Message | readonly Message[] | null;

type Words<Messages> = {
  -readonly [Name in keyof Messages]: Messages[Name] extends Message
    ? string
    : Messages[Name] extends readonly Message[]
      ? string[]
      : string | null;
};

/** What core answers with, and beside all that has `messages` the sentences of these. */
export type Worded<Answer> = Answer extends readonly (infer One)[]
  ? Worded<One>[]
  : Answer extends { readonly messages: infer Messages extends Readonly<Record<string, Said>> }
    ? WordedParts<Answer> & Words<Messages>
    : Answer extends object
      ? WordedParts<Answer>
      : Answer;

type WordedParts<Answer> = {
  [Name in keyof Answer]: Name extends 'messages' ? Answer[Name] : Worded<Answer[Name]>;
};

export interface WordedAnswers {
  /**
   * @param nowMs For moments, which are in UTC.
   * @returns Each message as a sentence, in °C and SI units, and `messages` themselves.
   */
  inWords<const Messages extends Readonly<Record<string, Said>>>(
    messages: Messages,
    nowMs: number,
  ): Words<Messages> & { readonly messages: Messages };
  /** @returns An answer of core with its sentences, in plain English, for programs that ask for nothing else. */
  worded<Answer>(answer: Answer): Worded<Answer>;
  /** @returns The same answer with all that has `messages` in the words of this reader. */
  inWordsOf(answer: unknown, reader: Reader): unknown;
}

export function wordedAnswers(render: Render): WordedAnswers {
  function wordsOf<Messages extends Readonly<Record<string, Said>>>(
    messages: Messages,
    reader: Reader,
  ): Words<Messages> {
    const say = (one: Message) => plainSpaces(render(one, reader));
    const said: Record<string, string | string[] | null> = {};
    for (const [name, one] of Object.entries(messages))
      said[name] = one === null ? null : isSeveral(one) ? one.map(say) : say(one);
    return said as Words<Messages>;
  }

  function inWordsOf(answer: unknown, reader: Reader): unknown {
    if (Array.isArray(answer)) return answer.map((one) => inWordsOf(one, reader));
    if (typeof answer !== 'object' || answer === null) return answer;
    const parts = Object.entries(answer).map(([name, value]) => [
      name,
      name === 'messages' ? value : inWordsOf(value, reader),
    ]);
    const copy = Object.fromEntries(parts) as Record<string, unknown>;
    return hasMessages(answer) ? { ...copy, ...wordsOf(answer.messages, reader) } : copy;
  }

  return {
    inWords: (messages, nowMs) => ({ ...wordsOf(messages, plainReader(nowMs)), messages }),
    worded: <Answer>(answer: Answer) => inWordsOf(answer, plainReader(0)) as Worded<Answer>,
    inWordsOf,
  };
}

const isSeveral = (one: Said): one is readonly Message[] => Array.isArray(one);

/** What people were notified of has `messages` too, which are letters. */
const hasMessages = (answer: object): answer is { readonly messages: Readonly<Record<string, Said>> } =>
  'messages' in answer &&
  typeof answer.messages === 'object' &&
  answer.messages !== null &&
  !Array.isArray(answer.messages);
