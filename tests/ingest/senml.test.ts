import { describe, expect, test } from 'vitest';
import { decodeReading } from '../../ingest/decode/decode-payload.ts';
import { type ResolvedRecord, resolveSenml } from '../../ingest/decode/senml-resolve.ts';
import { ReadingError, type RefusalReason } from '../../shared/errors.ts';
import { plainEnglish } from '../../shared/messages/render.ts';

const nowMs = Date.UTC(2031, 3, 5, 6, 7, 8);
const probe = { site: 'saltmere-yard', probe: 'p1' };

function resolve(pack: readonly unknown[], atMs = nowMs): ResolvedRecord[] {
  const records = resolveSenml(pack, atMs);
  if (records instanceof ReadingError) throw records;
  return records.map((record) => {
    if (record instanceof ReadingError) throw record;
    return record;
  });
}

function decode(pack: unknown, retained = false) {
  const { readings, refusals } = decodeReading(JSON.stringify(pack), probe, { nowMs, retained });
  return {
    kept: readings.map(({ quantity, value, atMs }) => [quantity, value, atMs]),
    reasons: refusals.map(({ reason }) => reason),
    messages: refusals.map(({ said }) => plainEnglish(said)),
  };
}

// Packs of RFC 8428 section 5.1, recalled and compared with the copies in test suites of SenML libraries.
describe('resolveSenml() of the examples of RFC 8428 section 5.1', () => {
  test('5.1.1: a single data point is measured now', () => {
    expect(resolve([{ n: 'urn:dev:ow:10e2073a01080063', u: 'Cel', v: 23.1 }])).toMatchObject([
      { name: 'urn:dev:ow:10e2073a01080063', unit: 'Cel', value: 23.1, atMs: nowMs, relative: true },
    ]);
  });

  test('5.1.2: base name, base time, base unit and version over seven records', () => {
    const pack = [
      { bn: 'urn:dev:ow:10e2073a0108006:', bt: 1.276020076001e9, bu: 'A', bver: 5, n: 'voltage', u: 'V', v: 120.1 },
      { n: 'current', t: -5, v: 1.2 },
      { n: 'current', t: -4, v: 1.3 },
      { n: 'current', t: -3, v: 1.4 },
      { n: 'current', t: -2, v: 1.5 },
      { n: 'current', t: -1, v: 1.6 },
      { n: 'current', v: 1.7 },
    ];
    const found = resolve(pack).map(({ name, unit, value, atMs }) => [name, unit, value, atMs]);
    const at = 1_276_020_076_001;
    const name = 'urn:dev:ow:10e2073a0108006:current';
    expect(found).toEqual([
      ['urn:dev:ow:10e2073a0108006:voltage', 'V', 120.1, at],
      [name, 'A', 1.2, at - 5_000],
      [name, 'A', 1.3, at - 4_000],
      [name, 'A', 1.4, at - 3_000],
      [name, 'A', 1.5, at - 2_000],
      [name, 'A', 1.6, at - 1_000],
      [name, 'A', 1.7, at],
    ]);
  });

  test('5.1.3: a base name alone is a whole name, and units differ by record', () => {
    const pack = [
      { bn: 'urn:dev:ow:10e2073a01080063', bt: 1.320067464e9, bu: '%RH', v: 20 },
      { u: 'lon', v: 24.30621 },
      { u: 'lat', v: 60.07965 },
      { t: 60, v: 20.3 },
    ];
    expect(resolve(pack).map(({ name, unit, value, atMs }) => [name, unit, value, atMs])).toEqual([
      ['urn:dev:ow:10e2073a01080063', '%RH', 20, 1_320_067_464_000],
      ['urn:dev:ow:10e2073a01080063', 'lon', 24.30621, 1_320_067_464_000],
      ['urn:dev:ow:10e2073a01080063', 'lat', 60.07965, 1_320_067_464_000],
      ['urn:dev:ow:10e2073a01080063', '%RH', 20.3, 1_320_067_524_000],
    ]);
  });

  test('5.1.5: values of other types keep their type', () => {
    const pack = [
      { bn: 'urn:dev:ow:10e2073a01080063:', n: 'temp', u: 'Cel', v: 23.1 },
      { n: 'label', vs: 'Machine Room' },
      { n: 'open', vb: false },
      { n: 'nfc-reader', vd: 'aGkgCg' },
    ];
    expect(resolve(pack).map(({ value }) => value)).toEqual([23.1, 'Machine Room', false, 'aGkgCg']);
  });

  test('5.1.6: a later base name replaces the earlier one', () => {
    const pack = [
      { bn: '2001:db8::2/', bt: 1.320078429e9, n: 'temperature', u: 'Cel', v: 27.2 },
      { n: 'humidity', u: '%RH', v: 80 },
      { bn: '2001:db8::1/', n: 'temperature', u: 'Cel', v: 12.3 },
      { n: 'humidity', u: '%RH', v: 67 },
    ];
    expect(resolve(pack).map(({ name }) => name)).toEqual([
      '2001:db8::2/temperature',
      '2001:db8::2/humidity',
      '2001:db8::1/temperature',
      '2001:db8::1/humidity',
    ]);
  });
});

describe('resolveSenml()', () => {
  test('joins bn and n, and adds bt and t: 1764000000 and -600 give 1763999400', () => {
    const pack = [
      { bn: 'pile7:', bt: 1764000000, n: 'core-t', u: 'Cel', v: 47.5 },
      { n: 'core-rh', u: '%RH', v: 98.6 },
      { n: 'core-t', u: 'Cel', t: -600, v: 46.9 },
    ];
    expect(resolve(pack)[2]).toMatchObject({ name: 'pile7:core-t', atMs: 1_763_999_400_000, relative: false });
  });

  test('adds the base value and the base sum', () => {
    const pack = [
      { bn: 'x:', bv: 20, bs: 100, n: 'temperature', v: 3.5 },
      { n: 'energy', v: -2, s: 7 },
    ];
    expect(resolve(pack)).toMatchObject([
      { value: 23.5, sum: undefined },
      { value: 18, sum: 107 },
    ]);
  });

  test('takes a time below 2^28 relative to now, and from there on as absolute', () => {
    const [below, from] = resolve([
      { n: 'a', t: 2 ** 28 - 1, v: 1 },
      { n: 'a', t: 2 ** 28, v: 1 },
    ]);
    expect(below).toMatchObject({ atMs: nowMs + (2 ** 28 - 1) * 1000, relative: true });
    expect(from).toMatchObject({ atMs: 2 ** 28 * 1000, relative: false });
  });

  test('takes a base time that is relative itself', () => {
    expect(resolve([{ n: 'a', bt: -60, t: -5, v: 1 }])[0]).toMatchObject({ atMs: nowMs - 65_000 });
  });

  test('keeps the update time', () => {
    expect(resolve([{ n: 'a', v: 1, ut: 300 }])[0]).toMatchObject({ updateS: 300 });
  });

  test('ignores fields it does not know', () => {
    expect(resolve([{ n: 'a', v: 1, ct: '60', more: [] }])).toHaveLength(1);
  });

  const brokenPacks: [string, unknown[]][] = [
    ['no record', []],
    ['a record that is none', [{ n: 'temperature', v: 1 }, 7]],
    ['a list in place of a record', [[{ n: 'temperature', v: 1 }]]],
    ['null in place of a record', [null]],
    ['a later version', [{ bver: 11, n: 'temperature', v: 1 }]],
    [
      'two versions',
      [
        { bver: 5, n: 'temperature', v: 1 },
        { bver: 6, n: 'temperature', v: 1 },
      ],
    ],
    ['a field that must be understood', [{ n: 'temperature', v: 1, hint_: 1 }]],
    ['a base time that is a string', [{ bt: '1764000000', n: 'temperature', v: 1 }]],
    ['a base name that is a number', [{ bn: 7, n: 'temperature', v: 1 }]],
  ];
  for (const [what, pack] of brokenPacks) {
    test(`refuses the whole pack with ${what}: not-senml`, () => {
      expect(decode(pack)).toMatchObject({ kept: [], reasons: ['not-senml'] });
    });
  }

  const brokenRecords: [string, object, RefusalReason][] = [
    ['a value that is a string', { n: 'temperature', v: '41' }, 'not-senml'],
    ['two values', { n: 'temperature', v: 41, vb: true }, 'not-senml'],
    ['no value', { n: 'temperature', u: 'Cel' }, 'missing-field'],
    ['a sum alone', { n: 'temperature', s: 41 }, 'missing-field'],
    ['no name', { v: 41 }, 'not-senml'],
    ['a name with a space', { n: 'a temperature', v: 41 }, 'not-senml'],
    ['a name that begins with a mark', { n: '-temperature', v: 41 }, 'not-senml'],
    ['a name we do not know', { n: 'pressure', u: 'Pa', v: 101_300 }, 'unknown-quantity'],
    ['a name that only contains ours', { n: 'core-temperature', v: 41 }, 'unknown-quantity'],
    ['a string for a number', { n: 'temperature', vs: '41' }, 'wrong-type'],
    ['a boolean for a number', { n: 'temperature', vb: true }, 'wrong-type'],
    ['data for a number', { n: 'temperature', vd: 'aGkgCg' }, 'wrong-type'],
    ['a unit of another quantity', { n: 'temperature', u: '%RH', v: 41 }, 'unknown-unit'],
    ['a unit named like a thing every object has', { n: 'temperature', u: 'constructor', v: 41 }, 'unknown-unit'],
    ['a value outside the range', { n: 'temperature', u: 'Cel', v: 500 }, 'out-of-range'],
    ['a time too far ahead', { n: 'temperature', t: 301, v: 41 }, 'future-time'],
    ['a time before the year 2000', { n: 'temperature', t: 2 ** 28, v: 41 }, 'bad-time'],
    ['a time that is a string', { n: 'temperature', t: 'now', v: 41 }, 'not-senml'],
  ];
  for (const [what, record, reason] of brokenRecords) {
    test(`refuses only the record with ${what}: ${reason}`, () => {
      const { kept, reasons } = decode([{ n: 'humidity', u: '%RH', v: 90 }, record, { n: 'co2', u: 'ppm', v: 800 }]);
      expect(kept.map(([quantity]) => quantity)).toEqual(['humidity', 'co2']);
      expect(reasons).toEqual([reason]);
    });
  }

  test('says where in the pack by JSON Pointer', () => {
    expect(
      decode([
        { n: 'humidity', v: 90 },
        { n: 'temperature', u: 'Cel', v: 500 },
      ]).messages[0],
    ).toContain('/1/v');
  });
});

describe('decodeReading() of a SenML pack', () => {
  const units: [string, string, number, number][] = [
    ['temperature', 'Cel', 41.5, 41.5],
    ['temperature', 'K', 314.65, 41.5],
    ['humidity', '%RH', 98.6, 98.6],
    ['moisture', '%', 58, 58],
    ['moisture', '/', 0.58, 58],
    ['co2', 'ppm', 5400, 5400],
    ['battery', 'V', 3.61, 3.61],
    ['battery', 'mV', 3610, 3.61],
    ['charge', '%EL', 80, 80], // RFC 8428 section 12.1: remaining battery energy level in per cent
    ['rssi', 'dBm', -71, -71],
    ['rssi', 'dBW', -101, -71],
  ];
  for (const [quantity, u, v, value] of units) {
    test(`reads ${quantity} in ${u}`, () => {
      expect(decode([{ n: quantity, u, v }]).kept).toEqual([[quantity, value, nowMs]]);
    });
  }

  test('takes the last part of the name after : / or .', () => {
    for (const bn of ['', 'urn:dev:ow:10e2073a01080063:', '2001:db8::2/', 'yard.pile7.']) {
      expect(decode([{ bn, n: 'temperature', v: 41 }]).kept).toHaveLength(1);
    }
  });

  test('reads a backlog: several times in one pack', () => {
    const pack = Array.from({ length: 12 }, (_, index) => ({
      n: 'temperature',
      u: 'Cel',
      t: -300 * index,
      v: 40 + index,
    }));
    expect(decode(pack).kept).toEqual(pack.map(({ v, t }) => ['temperature', v, nowMs + t * 1000]));
  });

  test('does not date records of a retained pack relative to its arrival: missing-field', () => {
    const pack = [
      { n: 'temperature', t: -5, v: 41 },
      { n: 'temperature', t: nowMs / 1000, v: 42 },
    ];
    expect(decode(pack, true)).toMatchObject({ kept: [['temperature', 42, nowMs]], reasons: ['missing-field'] });
  });
});
