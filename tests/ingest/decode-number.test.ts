import { expect, test } from 'vitest';
import { decodeNumber } from '../../ingest/decode/decode-payload.ts';

const nowMs = Date.UTC(2031, 3, 5);
const probe = { site: 'saltmere-yard', probe: 'p1' };

const numbers: [string, number][] = [
  ['41', 41],
  ['41.5', 41.5],
  ['-3.25', -3.25],
  ['+7', 7],
  ['.5', 0.5],
  ['5.', 5],
  ['4.15e1', 41.5],
  ['415E-1', 41.5],
  [' 41.5\r\n', 41.5],
];
for (const [text, value] of numbers) {
  test(`decodeNumber() reads ${JSON.stringify(text)} in the unit we keep, at the time of arrival`, () => {
    const { readings } = decodeNumber(text, probe, 'temperature', { nowMs, retained: false });
    expect(readings).toEqual([{ ...probe, quantity: 'temperature', value, atMs: nowMs }]);
  });
}

const notNumbers = [
  'NaN',
  'nan',
  'Infinity',
  '-inf',
  '0x29',
  '0b1',
  '1_000',
  '1,5',
  '41 C',
  '41.5.1',
  '--4',
  'e5',
  '{"v":41}',
  '"41"',
  '٤١',
  '1'.repeat(60),
];
for (const text of notNumbers) {
  test(`decodeNumber() refuses ${JSON.stringify(text)}: wrong-type`, () => {
    const { readings, refusals } = decodeNumber(text, probe, 'temperature', { nowMs, retained: false });
    expect([readings, refusals.map(({ reason }) => reason)]).toEqual([[], ['wrong-type']]);
  });
}

test('decodeNumber() refuses what no probe can mean: out-of-range', () => {
  for (const text of ['1e300', '9'.repeat(30), '126']) {
    const { refusals } = decodeNumber(text, probe, 'temperature', { nowMs, retained: false });
    expect(refusals.map(({ reason }) => reason)).toEqual(['out-of-range']);
  }
});

test('decodeNumber() does not date a retained number: missing-field', () => {
  const { refusals } = decodeNumber('41', probe, 'temperature', { nowMs, retained: true });
  expect(refusals.map(({ reason }) => reason)).toEqual(['missing-field']);
});
