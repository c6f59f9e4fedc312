import { expect, test } from 'vitest';
import { pointerProblem, valueAt } from '../../ingest/mapping/json-pointer.ts';

// The document and results of RFC 6901 section 5, recalled.
const document = {
  foo: ['bar', 'baz'],
  '': 0,
  'a/b': 1,
  'c%d': 2,
  'e^f': 3,
  'g|h': 4,
  'i\\j': 5,
  'k"l': 6,
  ' ': 7,
  'm~n': 8,
};
const rows: [string, unknown][] = [
  ['', document],
  ['/foo', ['bar', 'baz']],
  ['/foo/0', 'bar'],
  ['/', 0],
  ['/a~1b', 1],
  ['/c%d', 2],
  ['/e^f', 3],
  ['/g|h', 4],
  ['/i\\j', 5],
  ['/k"l', 6],
  ['/ ', 7],
  ['/m~0n', 8],
];
for (const [pointer, value] of rows) {
  test(`valueAt() of ${JSON.stringify(pointer)} as in RFC 6901`, () => {
    expect(pointerProblem(pointer)).toBeUndefined();
    expect(valueAt(document, pointer)).toEqual(value);
  });
}

test('valueAt() reads ~01 as ~1, not as a slash', () => {
  expect(valueAt({ '~1': 'right', '/': 'wrong' }, '/~01')).toBe('right');
});

for (const pointer of [
  '/foo/2',
  '/foo/-',
  '/foo/00',
  '/foo/1e0',
  '/foo/bar',
  '/foo/0/x',
  '/nothing',
  '/toString',
  '/__proto__',
  '/foo/length',
]) {
  test(`valueAt() finds nothing at ${pointer}`, () => {
    expect(valueAt(document, pointer)).toBeUndefined();
  });
}

test('pointerProblem() names a pointer without its slash, and a lone tilde', () => {
  for (const pointer of ['foo', 'a/b', '/a~', '/a~2'])
    expect(pointerProblem(pointer)?.code).toMatch(/^field\.pointer\./);
});
