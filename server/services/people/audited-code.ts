/** What a row of the audit trail may say was done; the catalogue `audit.json` has the words. */

import type { Reader } from '../../../shared/messages/format.ts';
import { auditTexts } from '../../../shared/messages/made/en/audit.ts';
import { type Message, type MessageCode, message, verbatim } from '../../../shared/messages/message.ts';
import { plainSpaces, render } from '../../../shared/messages/render.ts';

/** Of a route: the rest of its row follows from the request. */
export type AuditedCode = Extract<MessageCode, `audit.did.${string}`>;

const isAudited = (code: string): code is AuditedCode => code.startsWith('audit.did.');
const all: readonly Message[] = [
  ...Object.keys(auditTexts)
    .filter(isAudited)
    .map((code) => message(code)),
  message('audit.refused-at-sign-in', { isKnown: false, isLast: true }),
  message('audit.failed', { didPart: verbatim(''), statusNumber: 500 }),
];

/** @returns The codes whose words, as this reader has them, hold these: rows keep codes, people search by words. */
export function codesSaying(words: string, reader: Reader): string[] {
  const wanted = words.toLocaleLowerCase(reader.language);
  const says = (one: Message) => plainSpaces(render(one, reader)).toLocaleLowerCase(reader.language).includes(wanted);
  return all.filter(says).map(({ code }) => code);
}
