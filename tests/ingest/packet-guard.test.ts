import fc from 'fast-check';
import { expect, test } from 'vitest';
import { createPacketGuard } from '../../ingest/broker/packet-guard.ts';

/** A packet of this remaining length (MQTT 3.1.1 section 2.2.3). */
function packet(length: number): Buffer {
  const header = [0x30];
  let rest = length;
  do {
    header.push((rest & 0x7f) | (rest > 127 ? 0x80 : 0));
    rest >>= 7;
  } while (rest > 0);
  return Buffer.concat([Buffer.from(header), Buffer.alloc(length, 0xff)]);
}

test('lets packets up to the limit pass and tells the length of the first one above', () => {
  for (const length of [0, 1, 127, 128, 1_000]) expect(createPacketGuard(1_000).see(packet(length))).toBeUndefined();
  expect(createPacketGuard(1_000).see(packet(1_001))).toBe(1_001);
  expect(createPacketGuard(20_000).see(packet(16_384).subarray(0, 4))).toBeUndefined();
  expect(createPacketGuard(1_000).see(Buffer.from([0x30, 0xff, 0xff, 0xff, 0x7f]))).toBe(268_435_455);
});

test('finds the long packet however the bytes are cut into chunks', () => {
  const lengths = fc.array(fc.integer({ min: 0, max: 300 }), { maxLength: 12 });
  const cuts = fc.array(fc.integer({ min: 1, max: 40 }), { minLength: 1, maxLength: 20 });
  fc.assert(
    fc.property(lengths, cuts, (small, sizes) => {
      const guard = createPacketGuard(300);
      const bytes = Buffer.concat([...small.map(packet), packet(301)]);
      const found: number[] = [];
      for (let at = 0, turn = 0; at < bytes.length && found.length === 0; turn += 1) {
        const size = sizes[turn % sizes.length] ?? 1;
        const seen = guard.see(bytes.subarray(at, at + size));
        if (seen !== undefined) found.push(seen);
        at += size;
      }
      expect(found).toEqual([301]);
    }),
    { seed: 20310405, numRuns: 200 },
  );
});

test('holds the first packet of a connection to a limit of its own', () => {
  const guard = createPacketGuard(1_000, 100);
  expect(guard.see(packet(101))).toBe(101);
  const other = createPacketGuard(1_000, 100);
  expect([other.see(packet(100)), other.see(packet(1_000)), other.see(packet(1_001))]).toEqual([
    undefined,
    undefined,
    1_001,
  ]);
});

test('counts the packets that began, and knows how much of one is still to come', () => {
  const guard = createPacketGuard(1_000);
  guard.see(Buffer.concat([packet(0), packet(10), packet(300).subarray(0, 103)]));
  expect([guard.begun(), guard.toCome()]).toEqual([3, 200]);
  guard.see(Buffer.alloc(200));
  expect([guard.begun(), guard.toCome()]).toEqual([0, 0]);
});
