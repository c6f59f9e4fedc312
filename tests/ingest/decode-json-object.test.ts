import { describe, expect, test } from 'vitest';
import { decodeReading } from '../../ingest/decode/decode-payload.ts';
import type { Arrival } from '../../ingest/decode/decoded.ts';
import type { RefusalReason } from '../../shared/errors.ts';
import { plainEnglish } from '../../shared/messages/render.ts';

const nowMs = Date.UTC(2031, 3, 5, 6, 7, 8);
const live: Arrival = { nowMs, retained: false };
const probe = { site: 'saltmere-yard', probe: 'p1' };

function decode(body: unknown, arrival = live) {
  const { readings, refusals } = decodeReading(typeof body === 'string' ? body : JSON.stringify(body), probe, arrival);
  return {
    kept: readings.map(({ quantity, value, atMs }) => [quantity, value, atMs]),
    reasons: refusals.map(({ reason }) => reason),
    messages: refusals.map(({ said }) => plainEnglish(said)),
  };
}

describe('decodeReading() of a JSON object', () => {
  test('gives one reading per known name, all of one time, for the probe of the topic', () => {
    const { readings } = decodeReading(
      '{"time":1933000000,"temperature":41.5,"humidity":98.25,"moisture":58,"co2":5400,"battery":3.61,"rssi":-71}',
      probe,
      live,
    );
    const atMs = 1_933_000_000_000;
    expect(readings).toEqual([
      { ...probe, quantity: 'temperature', value: 41.5, atMs },
      { ...probe, quantity: 'humidity', value: 98.25, atMs },
      { ...probe, quantity: 'moisture', value: 58, atMs },
      { ...probe, quantity: 'co2', value: 5400, atMs },
      { ...probe, quantity: 'battery', value: 3.61, atMs },
      { ...probe, quantity: 'rssi', value: -71, atMs },
    ]);
  });

  test('takes the time of arrival when there is none', () => {
    expect(decode({ temperature: 40 }).kept).toEqual([['temperature', 40, nowMs]]);
  });

  test('does not date a retained message by its arrival: missing-field', () => {
    expect(decode({ temperature: 40 }, { nowMs, retained: true }).reasons).toEqual(['missing-field']);
    expect(decode({ temperature: 40, time: nowMs }, { nowMs, retained: true }).kept).toHaveLength(1);
  });

  test('converts °F, the temperature only', () => {
    expect(decode({ temperature: 105.8, humidity: 90, unit: 'F' }).kept).toEqual([
      ['temperature', 41, nowMs],
      ['humidity', 90, nowMs],
    ]);
  });

  test('ignores names it does not know', () => {
    expect(decode({ temperature: 40, firmware: '1.2', seq: 9, __proto__x: {} }).kept).toHaveLength(1);
  });

  const wrongTimes: [unknown, RefusalReason][] = [
    ['2031-04-31T06:07:08Z', 'bad-time'], // April has 30 days
    ['2031-02-29T06:07:08Z', 'bad-time'], // 2031 is no leap year
    ['2031-13-01T06:07:08Z', 'bad-time'],
    ['2031-04-05T25:07:08Z', 'bad-time'],
    ['2031-04-05T06:61:08Z', 'bad-time'],
    ['2031-04-05T06:07:08', 'bad-time'], // no offset: whose hour?
    ['2031-04-05', 'bad-time'],
    ['05/04/2031 06:07', 'bad-time'],
    ['5 April 2031', 'bad-time'],
    ['yesterday', 'bad-time'],
    ['', 'bad-time'],
    ['NaN', 'bad-time'],
    ['0x7fffffff', 'bad-time'],
    ['1e400', 'bad-time'],
    [0, 'bad-time'],
    [-1, 'bad-time'],
    [null, 'bad-time'],
    [true, 'bad-time'],
    [{}, 'bad-time'],
    [[nowMs], 'bad-time'],
    [12, 'bad-time'], // seconds since the probe started
    [946_684_799, 'bad-time'], // 1999-12-31T23:59:59Z
    [nowMs + 300_001, 'future-time'],
    ['2031-04-05T06:12:09Z', 'future-time'],
    [9_999_999_999_999, 'future-time'],
    [Number.MAX_SAFE_INTEGER, 'bad-time'], // beyond what a date can say
  ];
  for (const [time, reason] of wrongTimes) {
    test(`refuses the time ${JSON.stringify(time)}: ${reason}`, () => {
      expect(decode({ temperature: 40, time })).toMatchObject({ kept: [], reasons: [reason] });
    });
  }

  const rightTimes: [unknown, number][] = [
    ['2031-04-05T06:07:08Z', nowMs],
    ['2031-04-05t06:07:08z', nowMs],
    ['2031-04-05T08:07:08+02:00', nowMs],
    ['2031-04-05T06:07:08.25Z', nowMs + 250],
    [nowMs / 1000, nowMs],
    [nowMs, nowMs],
    [String(nowMs), nowMs],
    [nowMs + 300_000, nowMs + 300_000], // five minutes ahead, and not a moment more
    [946_684_800, 946_684_800_000],
  ];
  for (const [time, atMs] of rightTimes) {
    test(`reads the time ${JSON.stringify(time)}`, () => {
      expect(decode({ temperature: 40, time }).kept).toEqual([['temperature', 40, atMs]]);
    });
  }

  const wrongValues: [string, RefusalReason][] = [
    ['"41"', 'wrong-type'],
    ['null', 'wrong-type'],
    ['true', 'wrong-type'],
    ['{}', 'wrong-type'],
    ['[41]', 'wrong-type'],
    ['1e999', 'wrong-type'], // JSON.parse makes Infinity of it
    ['-1e999', 'wrong-type'],
    ['125.1', 'out-of-range'],
    ['127.9375', 'out-of-range'],
    ['-127', 'out-of-range'],
    ['-55.1', 'out-of-range'],
    ['1e308', 'out-of-range'],
  ];
  for (const [value, reason] of wrongValues) {
    test(`refuses temperature ${value} alone and keeps the humidity beside it: ${reason}`, () => {
      const { kept, reasons, messages } = decode(`{"temperature":${value},"humidity":97}`);
      expect(kept).toEqual([['humidity', 97, nowMs]]);
      expect(reasons).toEqual([reason]);
      expect(messages[0]).toContain('/temperature');
    });
  }

  test('says which driver fault -127 and 127.9375 stand for', () => {
    expect(decode({ temperature: -127 }).messages[0]).toContain('disconnected');
    expect(decode({ temperature: 127.9375 }).messages[0]).toContain('conversion failed');
  });

  test('keeps the ends of each range', () => {
    expect(decode({ temperature: -55, humidity: -6, moisture: 0 }).kept).toHaveLength(3);
    expect(decode({ temperature: 125, humidity: 119, moisture: 100 }).kept).toHaveLength(3);
  });

  test('refuses only the temperature when its unit is unknown: unknown-unit', () => {
    for (const unit of ['K', 'c', 7, null]) {
      const { kept, reasons } = decode({ temperature: 40, humidity: 97, unit });
      expect([kept, reasons]).toEqual([[['humidity', 97, nowMs]], ['unknown-unit']]);
    }
  });

  test('refuses an object that holds none of our names: missing-field', () => {
    for (const body of [{}, { temp: 40 }, { n: 'temperature', v: 40 }]) {
      expect(decode(body)).toMatchObject({ kept: [], reasons: ['missing-field'] });
    }
  });

  test('counts each wrong field of one message', () => {
    expect(decode({ temperature: 'hot', humidity: 'wet', co2: 400 }).reasons).toEqual(['wrong-type', 'wrong-type']);
  });
});

describe('decodeReading() of something else', () => {
  for (const text of [
    '',
    ' ',
    'nope',
    '{"temperature":41',
    '{"temperature":NaN}',
    "{'temperature':41}",
    '\u0000',
    '{"a":1}x',
  ]) {
    test(`refuses ${JSON.stringify(text)}: not-json`, () => {
      expect(decode(text)).toMatchObject({ kept: [], reasons: ['not-json'] });
    });
  }

  for (const text of ['41.5', '"41.5"', 'null', 'true']) {
    test(`refuses ${text}: wrong-type`, () => {
      expect(decode(text)).toMatchObject({ kept: [], reasons: ['wrong-type'] });
    });
  }

  test('refuses every truncation of a good payload, and throws over none', () => {
    const whole = '{"time":1933000000,"temperature":41.5}';
    for (let length = 0; length < whole.length; length += 1) {
      expect(decode(whole.slice(0, length))).toMatchObject({ kept: [], reasons: ['not-json'] });
    }
  });

  test('survives nesting as deep as 64 KiB allow', () => {
    const deep = '['.repeat(32_000) + ']'.repeat(32_000);
    expect(decode(deep).kept).toEqual([]);
    expect(decode(`{"temperature":${deep}}`).reasons).toEqual(['wrong-type']);
  });
});
