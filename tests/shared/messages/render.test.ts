import { expect, test } from 'vitest';
import { metric, type Reader } from '../../../shared/messages/format.ts';
import { type Message, messageSchema, paragraph, verbatim } from '../../../shared/messages/message.ts';
import { plainEnglish } from '../../../shared/messages/render.ts';
import { rendererOf } from '../../../shared/messages/renderer.ts';

const nowMs = Date.UTC(2031, 4, 2, 12);
const reader: Reader = { language: 'en', timeZone: 'UTC', nowMs, units: metric };
const american: Reader = { ...reader, units: { temperature: 'F', mass: 'lb', volume: 'gal', length: 'ft' } };
const say = (text: string, params: object, to = reader) =>
  rendererOf({ one: text })({ code: 'one', params } as unknown as Message, to).replace(/\u00a0/g, ' ');

/** Conversions by hand: 9/5 and 32 °F; 0.45359237 kg, 3.785411784 L, 0.3048 m (NIST SP 811, appendix B, from memory). */
test.each([
  ['a temperature', '{coreC}', { coreC: 52.34 }, '52.3 °C', '126.2 °F'],
  ['a temperature of whole degrees', '{coreC}', { coreC: { valueC: 52.34, decimals: 0 } }, '52 °C', '126 °F'],
  ['a temperature of tenths', '{coreC}', { coreC: { valueC: 52, decimals: 1 } }, '52.0 °C', '125.6 °F'],
  ['a temperature below zero', '{coreC}', { coreC: -4.04 }, '−4 °C', '24.7 °F'],
  ['a difference, which has no offset', '{aboveK}', { aboveK: 5 }, '5 °C', '9 °F'],
  ['a difference of whole degrees', '{aboveK}', { aboveK: { valueK: 21.6, decimals: 0 } }, '22 °C', '39 °F'],
  ['a share', '{moistureFrac}', { moistureFrac: 0.617 }, '62 %', '62 %'],
  ['minutes', '{sinceMs}', { sinceMs: 89 * 60e3 }, '89 minutes', '89 minutes'],
  ['one hour and a half', '{sinceMs}', { sinceMs: 90 * 60e3 }, '2 hours', '2 hours'],
  ['47 hours', '{sinceMs}', { sinceMs: 47 * 3600e3 }, '47 hours', '47 hours'],
  ['two days', '{sinceMs}', { sinceMs: 48 * 3600e3 }, '2 days', '2 days'],
  ['hours with a tenth', '{lossH}', { lossH: 9.34 }, '9.3 hours', '9.3 hours'],
  ['hours to a hundredth', '{longestHours}', { longestHours: 71.98 }, '71.98 h', '71.98 h'],
  ['room in GB', '{freeBytes}', { freeBytes: 1_234_000_000 }, '1.2 GB', '1.2 GB'],
  ['room in MB', '{freeBytes}', { freeBytes: 5_490_000 }, '5.4 MB', '5.4 MB'],
  ['room in MB, down', '{freeBytes}', { freeBytes: 999_900_000 }, '999 MB', '999 MB'],
  ['room in TB', '{freeBytes}', { freeBytes: 1_290_000_000_000 }, '1.2 TB', '1.2 TB'],
  ['room below a kB', '{freeBytes}', { freeBytes: 999 }, '< 1 kB', '< 1 kB'],
  ['no room', '{freeBytes}', { freeBytes: 0 }, '0 kB', '0 kB'],
  ['grams', '{wetG}', { wetG: 10.25 }, '10.25 g', '10.25 g'],
  ['a date that is read long after', '{untilDateMs}', { untilDateMs: nowMs }, '2 May 2031, 12:00', '2 May 2031, 12:00'],
  ['less than an hour', '{lossH}', { lossH: 0.5 }, '30 minutes', '30 minutes'],
  ['a mass', '{branKg}', { branKg: 12 }, '12 kg', '26.5 lb'],
  ['a volume', '{waterL}', { waterL: 7.984 }, '7.98 L', '2.11 US gal'],
  ['a volume of four figures', '{waterL}', { waterL: { value: 7.984, figures: 4 } }, '7.984 L', '2.109 US gal'],
  ['a share of three figures', '{airShare}', { airShare: 0.06364 }, '6.36 %', '6.36 %'],
  ['a ratio', '1:{wantedRatio}', { wantedRatio: 133.4 }, '1:133', '1:133'],
  ['a density', '{looseKgM3}', { looseKgM3: 200 }, '0.2 kg/L', '1.67 lb/US gal'],
  ['a depth', '{bedCm}', { bedCm: 30 }, '30 cm', '11.8 in'],
  ['a length', '{sideM}', { sideM: 0.532 }, '0.532 m', '1.75 ft'],
  ['an area', '{bedM2}', { bedM2: 4 }, '4 m²', '43.1 ft²'],
  ['a moment of today', '{raisedAtMs}', { raisedAtMs: nowMs - 3600e3 }, '11:00', '11:00'],
  [
    'a moment of another day',
    '{raisedAtMs}',
    { raisedAtMs: nowMs - 24 * 3600e3 },
    'Thu 1 May, 12:00',
    'Thu 1 May, 12:00',
  ],
  ['a name, as it is', '{pileName}', { pileName: 'Heap {1} <b>' }, 'Heap {1} <b>', 'Heap {1} <b>'],
  ['a count', '{dayCount, plural, one {# day} other {# days}}', { dayCount: 1 }, '1 day', '1 day'],
  ['a choice', '{isOld, select, true {was} other {is}}', { isOld: true }, 'was', 'was'],
  ['a list', '{placesList}', { placesList: ['core', 'top', 'base'] }, 'core, top and base', 'core, top and base'],
  ['a part that begins a sentence', '{whatCapitalPart}', { whatCapitalPart: verbatim('bran') }, 'Bran', 'Bran'],
  ['a part', '{causePart}', { causePart: verbatim('too dry') }, 'too dry', 'too dry'],
])('%s is shown with its unit', (_what, text, params, inSi, inAmerican) => {
  expect([say(text, params), say(text, params, american)]).toEqual([inSi, inAmerican]);
});

// Names of the unit by the Unicode CLDR, as Intl has them.
test.each([
  ['es', '9,34 h'],
  ['ja', '9.34 時間'],
  ['ko', '9.34시간'],
  ['th', '9.34 ชั่วโมง'],
])('hours to a hundredth stand in %s in its own letters', (language, said) => {
  expect(say('{spanHours}', { spanHours: 9.34 }, { ...reader, language })).toBe(said);
});

test('a paragraph says its parts one after the other, and leaves out what is not there', () => {
  expect(plainEnglish(paragraph(verbatim('One.'), null, verbatim('Two.')))).toBe('One. Two.');
  expect(paragraph(verbatim('One.'), null)).toEqual(verbatim('One.'));
});

test('a message of another version is shown by its code, and stops nothing', () => {
  expect(plainEnglish({ code: 'no.such', params: {} } as unknown as Message)).toBe('no.such');
  expect(say('{coreC} {missingText}', { coreC: 50 })).toBe('one');
});

test.each([
  ['a message', { code: 'plain.nothing-to-do', params: {} }, true],
  ['a text', 'Nothing.', false],
  ['a code without parameters', { code: 'plain.nothing-to-do' }, false],
])('%s is told from what is none', (_what, value, isMessage) => {
  expect(messageSchema.safeParse(value).success).toBe(isMessage);
});
