import { describe, expect, test } from 'vitest';
import { ConfigError } from '../../../shared/errors.ts';
import { fieldsOf, instantOf } from '../../../simulator/replay/csv.ts';
import { readReplay } from '../../../simulator/replay/replay-csv.ts';

const path = 'tests/data/litter-heap-2023-hourly.csv';
const startMs = Date.UTC(2031, 0, 1);
const takes = [
  { column: 'T12_C', probe: 'litter-core', quantity: 'temperature' },
  { column: 'air_temp_C', probe: 'litter-air', quantity: 'temperature' },
  { column: 'rel_humidity_pct', probe: 'litter-air', quantity: 'humidity' },
] as const;

describe('readReplay()', () => {
  const messages = readReplay({ path, timeColumn: 'time_local', takes, site: 'saltmere-yard', startMs });
  test('readReplay() puts the first row on the chosen instant and keeps the distances', () => {
    expect(messages[0]?.sendAtMs).toBe(startMs);
    expect(new Set(messages.map(({ sendAtMs }) => sendAtMs)).size).toBe(1057);
    expect(messages.at(-1)?.sendAtMs).toBe(startMs + 1056 * 3_600_000);
  });
  test('readReplay() puts columns of one probe into one reading', () => {
    expect(messages[0]).toMatchObject({ probe: 'litter-core', values: { temperature: 25.094 } });
    expect(messages[1]).toMatchObject({ probe: 'litter-air', values: { temperature: 15.5, humidity: 81.6 } });
  });
  test('readReplay() says nothing where the middle probe died, and does not make it up', () => {
    const core = messages.filter((message) => message.kind === 'reading' && message.probe === 'litter-core');
    expect(core.length).toBeLessThan(1057);
  });
  test('readReplay() turns °F into °C when told so', () => {
    const [first] = readReplay({
      path,
      timeColumn: 'time_local',
      takes: [takes[0]],
      site: 's',
      startMs,
      fahrenheit: true,
    });
    expect(first).toMatchObject({ values: { temperature: Number(((25.094 - 32) / 1.8).toFixed(3)) } });
  });
  test('readReplay() names a column that is not there, and a time column without times', () => {
    const wrong = [{ column: 'T99', probe: 'p', quantity: 'temperature' }] as const;
    expect(() => readReplay({ path, timeColumn: 'time_local', takes: wrong, site: 's', startMs })).toThrow(
      /no column "T99"/,
    );
    expect(() => readReplay({ path, timeColumn: 'T10_C', takes, site: 's', startMs })).toThrow(ConfigError);
  });
});

describe('instantOf()', () => {
  const rows: [text: string, atMs: number][] = [
    ['2023-08-29T10:00:00', Date.UTC(2023, 7, 29, 10)],
    ['2014-04-01 00:05:00', Date.UTC(2014, 3, 1, 0, 5)],
    ['2023-08-29T10:00:00+02:00', Date.UTC(2023, 7, 29, 8)],
    ['2023-08-29', Date.UTC(2023, 7, 29)],
    ['1764000000', 1_764_000_000_000],
    ['1764000000123', 1_764_000_000_123],
    ['yesterday', Number.NaN],
    ['', Number.NaN],
  ];
  for (const [text, atMs] of rows) {
    test(`instantOf() of "${text}" is ${atMs}`, () => {
      expect(instantOf(text)).toBe(atMs);
    });
  }
});

test('fieldsOf() minds quotes and doubled quotes (RFC 4180)', () => {
  expect(fieldsOf('a,"b,c","say ""x""",')).toEqual(['a', 'b,c', 'say "x"', '']);
});
