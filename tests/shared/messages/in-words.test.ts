import { expect, test } from 'vitest';
import { metric } from '../../../shared/messages/format.ts';
import { inWords, inWordsOf, worded } from '../../../shared/messages/in-words.ts';
import { message, verbatim } from '../../../shared/messages/message.ts';

const heat = message('phase.past-heat.hot', { position: 'core', actC: 50, actH: 9, peakC: 52 });
const messages = { says: heat, good: [verbatim('One.'), heat], none: null };

test('inWords() says one message, several, or none', () => {
  const says = 'The core lay at 50 °C or more for 9 hours, up to 52 °C.';
  expect(inWords(messages, 0)).toEqual({ says, good: ['One.', says], none: null, messages });
});

test('inWordsOf() puts what stands anywhere in an answer in the words of its reader', () => {
  const reader = { language: 'en', timeZone: 'UTC', nowMs: 0, units: { ...metric, temperature: 'F' as const } };
  const answer = { batch: { id: 'b', ...inWords(messages, 0) }, letters: [{ messages: [{ text: 'as it was' }] }] };
  const says = 'The core lay at 122 °F or more for 9 hours, up to 125.6 °F.';
  expect(inWordsOf(answer, reader)).toEqual({
    batch: { id: 'b', says, good: ['One.', says], none: null, messages },
    letters: [{ messages: [{ text: 'as it was' }] }],
  });
});

test('worded() says every message of what core answers with, in lists and records too', () => {
  const answer = worded({ alarms: [{ id: 'a', messages: { seen: heat, caution: null } }], tone: 'act' as const });
  expect(answer.alarms[0]?.seen).toBe('The core lay at 50 °C or more for 9 hours, up to 52 °C.');
  expect(answer).toMatchObject({ alarms: [{ id: 'a', caution: null, messages: { seen: heat } }], tone: 'act' });
});
