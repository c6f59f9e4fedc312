import { expect, test } from 'vitest';
import { refusalMeanings } from '../../ingest/decode/refusal-meanings.ts';
import { createRefusals, excerpt } from '../../ingest/decode/refusals.ts';
import { refusalsAnswerSchema } from '../../shared/contracts/ingest.ts';
import { ReadingError, refusalReasons } from '../../shared/errors.ts';

const clock = { nowMs: () => Date.UTC(2031, 3, 5), speed: 1 };

test('answer() is empty before anything was refused, and as the API promises', () => {
  const answer = createRefusals(clock).answer();
  expect(refusalsAnswerSchema.parse(answer)).toEqual({ since: '2031-04-05T00:00:00.000Z', total: 0, refusals: [] });
});

test('answer() counts by reason and keeps the last example of each', () => {
  const refusals = createRefusals(clock);
  refusals.count(new ReadingError('not-json', 'first'), 'piles/a/b/reading', Buffer.from('{'));
  refusals.count(new ReadingError('not-json', 'second'), 'piles/a/c/reading', Buffer.from('['));
  refusals.count(new ReadingError('out-of-range', 'third'), 'piles/a/b/reading', Buffer.from('{"temperature":500}'));
  const answer = refusalsAnswerSchema.parse(refusals.answer());
  expect(answer.total).toBe(3);
  expect(answer.refusals).toEqual([
    {
      reason: 'not-json',
      meaning: refusalMeanings['not-json'],
      count: 2,
      last: { at: '2031-04-05T00:00:00.000Z', topic: 'piles/a/c/reading', payload: '[', message: 'second' },
    },
    expect.objectContaining({ reason: 'out-of-range', count: 1 }),
  ]);
  expect(refusals.counts()['not-json']).toBe(2);
});

test('answer() shows at most 200 characters of a payload, also of bytes that are no text', () => {
  const refusals = createRefusals(clock);
  refusals.count(new ReadingError('not-json', 'm'), 't'.repeat(5000), Buffer.alloc(65_536, 0xff));
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
  for (const reason of refusalReasons) expect(refusalMeanings[reason].length).toBeGreaterThan(40);
});
