import { expect, test } from 'vitest';
import { plainReader } from '../../../shared/messages/format.ts';
import { languageFor, languagesAccepted } from '../../../shared/messages/language.ts';
import type { Message } from '../../../shared/messages/message.ts';
import { plainSpaces, rendererIn, type Texts } from '../../../shared/messages/renderer.ts';

/** RFC 9110, sections 12.4.2 and 12.5.4. */
test.each([
  ['da, en-GB;q=0.8, en;q=0.7', ['da', 'en-GB', 'en']],
  ['fr;q=0.3, de-AT, *;q=0.1', ['de-AT', 'fr']],
  ['de;q=0, fr', ['fr']],
  ['en;q=1.5, 12, ;;, fr', ['fr']],
  ['*', []],
  ['', []],
  [undefined, []],
])('languagesAccepted() of %j', (header, languages) => expect(languagesAccepted(header)).toEqual(languages));

test('languagesAccepted() of a header without end takes a moment', () => {
  expect(languagesAccepted(`en-${'a-'.repeat(1_000_000)}`)).toEqual([]);
});

/** Lookup: RFC 4647, section 3.4, with its example of the order of ranges. */
test.each([
  [['zh-Hant-CN-x-private1-private2'], ['en', 'zh', 'zh-Hant'], 'zh-Hant'],
  [['de-AT'], ['en', 'de'], 'de'],
  [['DE'], ['en', 'de'], 'de'],
  [['de'], ['en', 'de-AT'], 'en'],
  [['ga', 'fr-CA'], ['en', 'de', 'fr'], 'fr'],
  [[], ['en', 'de'], 'en'],
])('languageFor(%j, %j) is %s', (wanted, known, found) => expect(languageFor(wanted, known)).toBe(found));

const catalogues: Readonly<Record<string, Texts>> = {
  en: { one: '{waterL} of {restPart}', rest: 'water', only: 'Only {waterL}' },
  de: { one: '{waterL} {restPart}', rest: 'Wasser' },
};
const read: string[] = [];
const render = rendererIn(Object.keys(catalogues), (language) => {
  read.push(language);
  return catalogues[language] ?? {};
});
const say = (code: string, language: string) => {
  const said = { code, params: { waterL: 1.5, restPart: { code: 'rest', params: {} } } } as unknown as Message;
  return plainSpaces(render(said, { ...plainReader(0), language }));
};

test('rendererIn() asks for the texts of a language when somebody first reads it, and once', () => {
  say('one', 'de');
  expect(read).toEqual(['de']);
  say('one', 'de-CH');
  expect(read).toEqual(['de']);
  say('only', 'de');
  expect(read).toEqual(['de', 'en']);
});

test('rendererIn() says a message in the language of its reader, numbers and parts too', () => {
  expect([say('one', 'de'), say('one', 'de-CH'), say('one', 'en')]).toEqual([
    '1,5 L Wasser',
    '1,5 L Wasser',
    '1.5 L of water',
  ]);
});

test('rendererIn() says in English what a language does not have, and all in one that is not there', () => {
  expect([say('only', 'de'), say('one', 'pt-BR'), say('none', 'de')]).toEqual(['Only 1.5 L', '1.5 L of water', 'none']);
});
