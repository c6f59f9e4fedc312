import { expect, test } from 'vitest';
import { formatQuantity, plainReader } from '../../shared/messages/format.ts';
import { pageHomeTexts } from '../../shared/messages/made/en/page-home.ts';
import { pageRetentionTexts } from '../../shared/messages/made/en/page-retention.ts';
import { keyOf } from '../../web/src/data/last-answers.ts';
import { pageWords } from '../../web/src/data/live/page-texts.ts';
import { openingSentence } from '../../web/src/features/home/opening-sentence.ts';
import { takenUp, wouldFreeWords } from '../../web/src/features/retention/retention-words.ts';
import { oldestShownMs } from '../../web/src/ui/parts/offline-line.tsx';

const retention = pageWords(pageRetentionTexts, plainReader(0), formatQuantity);

test('an age in whole years is said so', () =>
  expect(
    [365, 730, 90, 1000].map((days) => retention.text('page-retention.keep.days', { keptDayCount: days })),
  ).toEqual(['A year', 'Two years', '90 days', '1,000 days']));

test('takenUp() says what is kept now and what another year takes up, and what of it stays', () => {
  const year = { rows: 4_205_000, bytes: 123_000_000, downsampledBytes: 23_800_000 };
  expect(takenUp({ rows: 2, bytes: 5_000, year }, retention).replaceAll('\u00a0', ' ')).toBe(
    '2 readings are kept as they came, 5 kB on disk with all averages. At the rate of the last seven days another year takes up 123 MB, of which 23 MB stay once it is reduced.',
  );
  const fewYear = { rows: 4, bytes: 123, downsampledBytes: 0 };
  expect(takenUp({ rows: 2, bytes: 999, year: fewYear }, retention).replaceAll('\u00a0', ' ')).toBe(
    '2 readings are kept as they came, < 1 kB on disk with all averages. At the rate of the last seven days another year takes up < 1 kB, of which nothing stays once it is reduced.',
  );
  expect(takenUp({ rows: 0, bytes: 5_000, year: { rows: 0, bytes: 0, downsampledBytes: null } }, retention)).toMatch(
    /^No single reading is kept as it came.* None came in the last seven days\.$/,
  );
});

test('wouldFreeWords() says when nothing is old enough', () => {
  expect(wouldFreeWords({ rows: 0, bytes: 0 }, retention)).toBe('Nothing is that old yet.');
  expect(wouldFreeWords({ rows: 84_720, bytes: 2_000_000 }, retention)).toBe(
    '84,720 readings are older, about 2\u00a0MB.',
  );
});

const paths: [path: string, key: string | undefined][] = [
  ['/api/piles', '/api/piles'],
  ['/api/piles/bed', '/api/piles/bed?'],
  ['/api/piles/bed/entries?limit=20', '/api/piles/bed/entries?limit=20'],
  [
    '/api/piles/bed/series?from=2031-03-01T00:00:00.000Z&to=2031-03-02T00:00:20.000Z&points=500',
    '/api/piles/bed/series?hours=24',
  ],
  ['/api/live', undefined],
  ['/api/session', undefined],
  ['/api/people', undefined],
  ['/api/photos/p1', undefined],
  ['/api/batches/b1/record', undefined],
  ['/api/export/all.json', undefined],
];
for (const [path, key] of paths) {
  test(`keyOf() ${path}: ${key ?? 'not kept'}`, () => expect(keyOf(path)).toBe(key));
}

test('oldestShownMs() tells the oldest of what a page shows, and leaves other piles out', () => {
  const shown = new Map([
    ['/api/piles', 50],
    ['/api/piles/bed?', 30],
    ['/api/piles/heap?', 10],
  ]);
  expect(oldestShownMs(shown, '/piles/bed/journal')).toBe(30);
  expect(oldestShownMs(shown, '/')).toBe(50);
  expect(oldestShownMs(new Map(), '/')).toBeUndefined();
});

test('out of reach the opening sentence says nothing of now', () => {
  const words = pageWords(pageHomeTexts, plainReader(0));
  const act = { what: 'act', share: 'other', someCount: 2, pileCount: 4 } as const;
  expect(openingSentence(act, words, true)).toBe('When last heard: two of four piles need you.');
  const calm = { what: 'calm', share: 'only', someCount: 1, pileCount: 1 } as const;
  expect(openingSentence(calm, words, true)).toBe('When last heard: nothing needs doing at your pile.');
});
