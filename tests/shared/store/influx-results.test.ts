import { expect, test } from 'vitest';
import { readResults } from '../../../shared/store/influx/influx-results.ts';

const piece = (statement: number, values: number[], series = false, result = false): string =>
  JSON.stringify({
    results: [
      {
        statement_id: statement,
        series: [
          {
            name: 't',
            tags: { site: 's' },
            columns: ['time', 'value'],
            values: values.map((v) => [v, v]),
            ...(series && { partial: true }),
          },
        ],
        ...(result && { partial: true }),
      },
    ],
  });

test('readResults() joins what comes in pieces', () => {
  const [first, second] = readResults([piece(0, [1, 2], true, true), piece(0, [3]), piece(1, [9])].join('\n'), 2);
  expect(first?.map(({ values }) => values)).toEqual([
    [
      [1, 1],
      [2, 2],
      [3, 3],
    ],
  ]);
  expect(second?.[0]?.values).toEqual([[9, 9]]);
});

const refused: [what: string, text: string, reason: RegExp][] = [
  ['an answer that was cut short', piece(0, [1], true, true), /only a part of the answer to question 1 of 1/],
  ['an answer to fewer questions', '{"results":[]}', /only a part/],
  ['an answer to more questions', `${piece(0, [1])}\n${piece(1, [1])}`, /nobody asked/],
  ['what is no JSON', '<html>', /no answer to a query: <html>/],
  ['an error of all', '{"error":"unable to parse"}', /unable to parse/],
  [
    'an error of one statement',
    '{"results":[{"statement_id":0,"error":"database not found: x"}]}',
    /database not found/,
  ],
  ['half a line', piece(0, [1]).slice(0, 40), /no answer to a query/],
];
for (const [what, text, reason] of refused) {
  test(`readResults() refuses ${what}`, () => {
    expect(() => readResults(text, 1)).toThrow(reason);
  });
}
