import { expect, test } from 'vitest';
import { refusalMeanings } from '../../ingest/decode/refusal-meanings.ts';
import { createRefusals, excerpt } from '../../ingest/decode/refusals.ts';
import { refusalsAnswerSchema } from '../../shared/contracts/ingest.ts';
import { ReadingError, refusalReasons } from '../../shared/errors.ts';
import { metric, plainReader } from '../../shared/messages/format.ts';
import { message } from '../../shared/messages/message.ts';
import { plainEnglish, plainSpaces, render } from '../../shared/messages/render.ts';

const second = message('refusal.json', { problemText: 'second\u0007' });
const tooHot = message('refusal.range.temperature', {
  wherePart: message('refusal.where.payload'),
  lowestC: -55,
  highestC: 125,
  foundText: '500 F',
  sign: 'other',
});

const clock = { nowMs: () => Date.UTC(2031, 3, 5), speed: 1 };

test('answer() is empty before anything was refused, and as the API promises', () => {
  const answer = createRefusals(clock).answer();
  expect(refusalsAnswerSchema.parse(answer)).toEqual({ since: '2031-04-05T00:00:00.000Z', total: 0, refusals: [] });
});

test('answer() counts by reason and keeps the last example of each', () => {
  const refusals = createRefusals(clock);
  refusals.count(
    new ReadingError('not-json', message('refusal.json', { problemText: 'first' })),
    'piles/a/b/reading',
    Buffer.from('{'),
  );
  refusals.count(new ReadingError('not-json', second), 'piles/a/c/reading', Buffer.from('['));
  refusals.count(new ReadingError('out-of-range', tooHot), 'piles/a/b/reading', Buffer.from('{"temperature":500}'));
  const answer = refusalsAnswerSchema.parse(refusals.answer());
  expect(answer.total).toBe(3);
  expect(answer.refusals).toEqual([
    {
      reason: 'not-json',
      meaning: plainEnglish(refusalMeanings['not-json']),
      messages: { meaning: refusalMeanings['not-json'] },
      count: 2,
      last: {
        at: '2031-04-05T00:00:00.000Z',
        topic: 'piles/a/c/reading',
        payload: '[',
        message: 'Cannot read the payload as it must be JSON: second\\u0007',
        messages: { message: message('refusal.json', { problemText: 'second\\u0007' }) },
      },
    },
    expect.objectContaining({ reason: 'out-of-range', count: 1 }),
  ]);
  expect(refusals.counts()['not-json']).toBe(2);
});

test('a refusal is said in the unit of whoever reads it; what was sent stays as it was sent', () => {
  const inF = { ...plainReader(0), units: { ...metric, temperature: 'F' as const } };
  expect(plainSpaces(render(tooHot, inF))).toBe(
    'Cannot accept temperature at the payload as it must be within −67 °F to 257 °F: found 500 F',
  );
});

test('answer() shows at most 200 characters of a payload, also of bytes that are no text', () => {
  const refusals = createRefusals(clock);
  refusals.count(new ReadingError('not-json', second), 't'.repeat(5000), Buffer.alloc(65_536, 0xff));
  const last = refusals.answer().refusals[0]?.last;
  expect(last?.payload.length).toBe(200);
  expect(last?.topic.length).toBe(200);
});

test('excerpt() shows control characters and characters that turn or hide text as escapes', () => {
  expect(excerpt('a\u0000b\n\u001b[31m\u202ec\u200bd\ufeff')).toBe(
    'a\\u0000b\\u000a\\u001b[31m\\u202ec\\u200bd\\ufeff',
  );
  expect(excerpt('°C ok ✓')).toBe('°C ok ✓');
});

test('every reason has a meaning that says something', () => {
  for (const reason of refusalReasons) expect(plainEnglish(refusalMeanings[reason]).length).toBeGreaterThan(40);
});
