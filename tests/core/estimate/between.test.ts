/** What is known of the hours between two readings that lie hours apart. */
import { expect, test } from 'vitest';
import { bridgedMs, isAwaited, isSeldom, valueBetween } from '../../../core/estimate/between.ts';
import { followTrack, startTrack, type Track } from '../../../core/estimate/track.ts';
import { msPerHour } from '../../../shared/units.ts';
import { play, setupOf, through } from '../helpers.ts';

/** Reads 20, 26, 32 … °C every so many hours, from hour 0 on. */
function readEvery(everyH: number, count: number): Track {
  const track = startTrack(20, 0);
  for (let i = 1; i < count; i += 1) followTrack(track, 20 + 6 * i, i * everyH * msPerHour, 100);
  return track;
}

test.each([
  // every [h], waits for the core's next reading after [h], and no longer after
  [1 / 6, 0, 0],
  [1, 0, 0],
  [1.5, 1.6, 30],
  [6, 7, 30],
  [12, 13, 30],
])('isAwaited() of a core read every %d h', (everyH, waitsH, notAfterH) => {
  const track = readEvery(everyH, 40);
  expect(isSeldom(track)).toBe(waitsH > 0);
  expect(isAwaited(track, track.atMs + waitsH * msPerHour)).toBe(waitsH > 0);
  expect(isAwaited(track, track.atMs + notAfterH * msPerHour)).toBe(false);
});

test('isAwaited() of a core that has spoken once waits once it is late for an hourly one, for a day', () => {
  const track = startTrack(20, 0);
  expect([0.5, 1.3, 1.4, 25, 27].map((hour) => isAwaited(track, hour * msPerHour))).toEqual([
    false,
    false,
    true,
    true,
    false,
  ]);
});

test('valueBetween() lies on the straight line between two readings, in the middle of the hour', () => {
  const track = readEvery(6, 2);
  expect([1, 2, 6].map((endH) => valueBetween(track, endH * msPerHour, false))).toEqual([20.5, 21.5, 25.5]);
  expect(valueBetween(track, 8 * msPerHour, false)).toBeNull();
  expect(valueBetween(track, 8 * msPerHour, true)).toBe(26);
});

test('valueBetween() tells nothing of a gap in which more than one reading is missing', () => {
  const track = readEvery(6, 10);
  const lastMs = track.atMs;
  followTrack(track, 50, lastMs + 24 * msPerHour, 100);
  expect(bridgedMs(track)).toBeLessThan(24 * msPerHour);
  expect(valueBetween(track, lastMs + 12 * msPerHour, false)).toBeNull();
});

/** Warms to 44 °C in 40 h, holds, and cools to the air by 200 h. */
const hump = through([0, 22], [12, 24], [40, 44], [90, 44], [150, 30], [200, 21], [260, 21]);

for (const everyMin of [60, 90, 120, 180, 360]) {
  test(`a pile read every ${everyMin} min goes through its phases in turn, and is foretold at each reading`, () => {
    const played = play(setupOf(), 260, hump, () => 20, { everyMin });
    expect(played.phases).toEqual(['resting', 'warming', 'active', 'cooling', 'settled']);
    expect(played.raised().filter((raised) => !raised.startsWith('drying'))).toEqual([]);
    expect(played.last?.coreRiseKPerH).not.toBeNull();
  });
}

test('an outage of two hours while it cools does not count as warming again', () => {
  const played = play(setupOf(), 130, (hour) => (hour > 110 && hour < 112.2 ? null : hump(hour)));
  expect(played.phases).toEqual(['resting', 'warming', 'active', 'cooling']);
});
