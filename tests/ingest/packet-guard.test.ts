import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cutLengthBytes } from '../../ingest/embedded-broker/cut-payload.ts';
import { type GuardLimits, PacketGuard } from '../../ingest/embedded-broker/packet-guard.ts';
import { longestPublishBytes } from '../../ingest/embedded-broker/packet-limits.ts';
import { hello, lengthBytes, packet, publish, subscribe, unsubscribe } from './raw-mqtt.ts';

const limits: GuardLimits = { payloadBytes: 300 };
const header = (first: number, length: number) => Buffer.from([first, ...lengthBytes(length)]);

/** What the parser gets of these bytes, given in chunks of these sizes by turns; undefined when the connection ends. */
function through(bytes: Buffer, sizes: readonly number[] = [bytes.length], given = limits): Buffer | undefined {
  const guard = new PacketGuard(given);
  const parts: Uint8Array[] = [];
  for (let at = 0, turn = 0; at < bytes.length; turn += 1) {
    const size = sizes[turn % sizes.length] ?? 1;
    const passed = guard.pass(bytes.subarray(at, at + size));
    if (!(passed instanceof Uint8Array)) return undefined;
    parts.push(passed);
    at += size;
  }
  return Buffer.concat(parts);
}

const begin = hello('c');

describe('a packet longer than its kind may be ends the connection at its fixed header', () => {
  const rows: [string, number, number, boolean][] = [
    // kind         first  remaining length       passes
    ['PUBLISH', 0x30, longestPublishBytes, true],
    ['PUBLISH', 0x30, longestPublishBytes + 1, false],
    ['SUBSCRIBE', 0x82, 32 * 1024, true],
    ['SUBSCRIBE', 0x82, 32 * 1024 + 1, false],
    ['UNSUBSCRIBE', 0xa2, 32 * 1024, true],
    ['UNSUBSCRIBE', 0xa2, 32 * 1024 + 1, false],
    ['PUBACK', 0x40, 2, true],
    ['PUBACK', 0x40, 3, false],
    ['PUBREL', 0x62, 2, true],
    ['PUBREL', 0x62, 3, false],
    ['PINGREQ', 0xc0, 0, true],
    ['PINGREQ', 0xc0, 1, false],
    ['DISCONNECT', 0xe0, 1, false],
    ['CONNECT again', 0x10, 16 * 1024 + 1, false],
    ['a kind that only servers send', 0x90, 3, false],
    ['a reserved kind', 0xf0, 2, false],
  ];
  for (const [kind, first, length, passes] of rows)
    test(`${kind} of ${length}: ${passes ? 'passes' : 'ends it'}`, () => {
      const passed = new PacketGuard(limits).pass(Buffer.concat([begin, header(first, length)]));
      if (passes) expect(passed).toBeInstanceOf(Uint8Array);
      else expect(passed).toEqual({ type: first >> 4, lengthBytes: length });
    });

  test('the first packet of a connection is held to a limit of its own', () => {
    expect(new PacketGuard(limits).pass(header(0x10, 16 * 1024 + 1))).toMatchObject({ type: 1 });
    expect(new PacketGuard(limits).pass(header(0x30, 16 * 1024 + 1))).toMatchObject({ type: 3 });
    expect(new PacketGuard(limits).pass(header(0x10, 16 * 1024))).toBeInstanceOf(Uint8Array);
  });
});

test('bytes with nothing to cut are handed on as they are, not copied', () => {
  const bytes = Buffer.concat([begin, publish('a/b', 'x'.repeat(200)), subscribe(1, ['#'])]);
  expect(new PacketGuard(limits).pass(bytes)).toBe(bytes);
});

describe('a PUBLISH whose payload is too long', () => {
  test('is handed on without it, with topic, flags and packet identifier as they were', () => {
    const long = publish('piles/s/p/reading', 'x'.repeat(301), 0x35, [0x12, 0x34]);
    const after = publish('a', 'b');
    const out = through(Buffer.concat([begin, long, after])) ?? Buffer.alloc(0);
    const cut = out.subarray(begin.length, out.length - after.length);
    const start = publish('piles/s/p/reading', '', 0x35, [0x12, 0x34]).subarray(2);
    expect([cut[0], cut[1]]).toEqual([0x35, start.length + 20]);
    expect(cut.subarray(2, 2 + start.length)).toEqual(start);
    expect(cutLengthBytes(cut.subarray(2 + start.length))).toBe(301);
    expect(out.subarray(out.length - after.length)).toEqual(after);
  });

  test('of just the length allowed is handed on whole, whatever its topic takes up', () => {
    const whole = Buffer.concat([begin, publish(`piles/${'y'.repeat(900)}`, 'x'.repeat(300), 0x32, [0, 1])]);
    expect(through(whole)).toEqual(whole);
  });

  test('with a topic that is long itself, or longer than its packet, ends the connection', () => {
    expect(through(Buffer.concat([begin, publish('y'.repeat(1_025), 'x'.repeat(301))]))).toBeUndefined();
    const lying = Buffer.concat([begin, header(0x30, 400), Buffer.from([0x01, 0x90]), Buffer.alloc(398)]);
    expect(through(lying)).toBeUndefined();
  });

  test('cannot be feigned by a payload of the same shape', () => {
    expect(cutLengthBytes(Buffer.alloc(20))).toBeUndefined();
  });
});

test('what is handed on does not depend on how the bytes were cut into chunks', () => {
  const one = fc.oneof(
    fc.integer({ min: 0, max: 700 }).map((length) => publish('s/p', Buffer.alloc(length, 0xff), 0x32, [0, 7])),
    fc.integer({ min: 0, max: 300 }).map((length) => publish('s/p', Buffer.alloc(length))),
    fc.constantFrom(packet(0xc0), subscribe(3, ['a', 'b/#']), unsubscribe(4, ['a']), packet(0x62, Buffer.from([0, 7]))),
  );
  const sizes = fc.array(fc.integer({ min: 1, max: 60 }), { minLength: 1, maxLength: 20 });
  fc.assert(
    fc.property(fc.array(one, { maxLength: 12 }), sizes, (packets, cuts) => {
      const bytes = Buffer.concat([begin, ...packets]);
      expect(through(bytes, cuts)).toEqual(through(bytes));
    }),
    { seed: 20310405, numRuns: 300 },
  );
});

test('a long packet counts for many short ones, and so do filters', () => {
  const costs = [
    publish('a', 'x'),
    publish('a', 'x'.repeat(8_192)),
    subscribe(1, ['x'.repeat(59), 'y'.repeat(61)]),
  ].map((bytes) => {
    const guard = new PacketGuard({ payloadBytes: 65_536 });
    guard.pass(begin);
    guard.spent();
    guard.pass(bytes);
    return guard.spent();
  });
  expect(costs).toEqual([1, 3, 9]);
});
