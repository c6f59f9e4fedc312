import fc from 'fast-check';
import { expect, test } from 'vitest';
import { BitsIn, BitsOut } from '../../../core/expect/bits.ts';
import { expectedBand } from '../../../core/expect/expected-band.ts';
import { openMembers, packMembers } from '../../../core/expect/packed-members.ts';
import { msPerHour } from '../../../shared/units.ts';
import { setupOf, startMs } from '../helpers.ts';

test('BitsIn gives back what BitsOut was given, whatever the widths', () => {
  const one = fc.integer({ min: 0, max: 24 }).chain((width) => fc.tuple(fc.nat(2 ** width - 1), fc.constant(width)));
  fc.assert(
    fc.property(fc.array(one, { maxLength: 3_000 }), (numbers) => {
      const out = new BitsOut();
      for (const [value, width] of numbers) out.put(value, width);
      const bits = new BitsIn(out.bytes());
      for (const [value, width] of numbers) expect(bits.take(width)).toBe(value);
    }),
  );
});

test('BitsIn counts zeros and passes over the one behind them', () => {
  fc.assert(
    fc.property(fc.array(fc.nat(23), { maxLength: 200 }), (counts) => {
      const out = new BitsOut();
      for (const zeros of counts) out.put(2 ** zeros, zeros + 1);
      const bits = new BitsIn(out.bytes());
      expect(counts.map(() => bits.zeros())).toEqual(counts);
    }),
  );
});

test('openMembers() gives back every digit of what packMembers() took, wild curves included', () => {
  const wild = fc.integer({ min: -32_768, max: 32_767 });
  const calm = fc.integer({ min: 2_000, max: 2_100 });
  const shape = fc.tuple(fc.nat(4), fc.nat(30)).chain(([count, steps]) => {
    const values = fc.array(fc.oneof(wild, calm), { minLength: count * steps, maxLength: count * steps });
    return fc.tuple(fc.constant(count), fc.constant(steps), values);
  });
  fc.assert(
    fc.property(shape, ([count, steps, values]) => {
      const packed = packMembers({ count, steps, firstHour: 7, coreCentiC: Int16Array.from(values) });
      const opened = openMembers(packed);
      expect([opened.count, opened.steps, opened.firstHour]).toEqual([count, steps, 7]);
      expect([...opened.coreCentiC.subarray(0, count * steps)]).toEqual(values);
    }),
    { numRuns: 300 },
  );
});

test('openMembers() of several piles in turn mixes none of them up', () => {
  const ofPile = (steps: number) => ({
    count: 3,
    steps,
    firstHour: 0,
    coreCentiC: new Int16Array(3 * steps).fill(steps),
  });
  const [one, other] = [packMembers(ofPile(20)), packMembers(ofPile(9))];
  for (const { steps, packed } of [one, other, one, one, other]) {
    const { coreCentiC } = openMembers({ count: 3, steps, firstHour: 0, packed });
    expect([...coreCentiC.subarray(0, 3 * steps)]).toEqual(new Array(3 * steps).fill(steps));
  }
});

test('packMembers() needs a quarter of the room for a bed a week old, two fifths while it warms up', () => {
  const steps = 103; // as kept of each pile
  const { members } = expectedBand(setupOf(), [], startMs + 217 * msPerHour);
  if (!members) throw new Error('no members');
  const share = (firstHour: number) => {
    const coreCentiC = new Int16Array(members.count * steps);
    for (let member = 0; member < members.count; member += 1) {
      const from = member * members.steps + firstHour;
      coreCentiC.set(members.coreCentiC.subarray(from, from + steps), member * steps);
    }
    return packMembers({ count: members.count, steps, firstHour, coreCentiC }).packed.length / coreCentiC.byteLength;
  };
  expect(share(114)).toBeLessThan(0.25);
  expect(share(0)).toBeLessThan(0.4);
});
