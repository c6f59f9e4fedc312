import { expect, test } from 'vitest';
import { isStuck } from '../../../core/estimate/stuck.ts';
import {
  followsOn,
  followTrack,
  isSilent,
  silentAfterMs,
  spikesNow,
  startTrack,
  stepOf,
  throwsWild,
} from '../../../core/estimate/track.ts';

const min = 60_000;
const hour = 60 * min;

function trackEvery(intervalMs: number, count: number): ReturnType<typeof startTrack> {
  const track = startTrack(30, 0);
  for (let step = 1; step < count; step += 1) followTrack(track, 30 + step / 100, step * intervalMs, 8);
  return track;
}

const rows: [string, number, number, boolean][] = [
  // rhythm    interval    quiet for    silent
  ['hourly', hour, 1 * hour, false],
  ['hourly', hour, 3 * hour, false],
  ['hourly', hour, 3.3 * hour, true],
  ['each minute', min, 29 * min, false],
  ['each minute', min, 30 * min, false],
  ['each minute', min, 31 * min, true],
  ['each quarter hour', 15 * min, 47 * min, false],
  ['each quarter hour', 15 * min, 49 * min, true],
];
for (const [rhythm, intervalMs, quietMs, silent] of rows) {
  test(`isSilent() of a probe that speaks ${rhythm}, quiet for ${quietMs / min} min: ${silent}`, () => {
    const track = trackEvery(intervalMs, 120);
    expect(isSilent(track, track.heardAtMs + quietMs)).toBe(silent);
  });
}

test('silentAfterMs() allows a day after the first word: it may come from a notebook that is filled in once a day', () => {
  expect(silentAfterMs(startTrack(30, 0))).toBe(26 * hour);
});

test.each([
  [1 / 60, 5],
  [1, 5],
  [6, 19],
  [12, 38],
])(
  'silentAfterMs() after two words %d h apart allows %d h at least, and ten times as long at most',
  (apartH, leastH) => {
    const silentAfterH = silentAfterMs(trackEvery(apartH * hour, 2)) / hour;
    expect(silentAfterH).toBeGreaterThanOrEqual(leastH);
    expect(silentAfterH).toBeLessThanOrEqual(Math.max(5, 10 * apartH));
  },
);

/** Days of a probe that speaks every ten minutes, seeded; how often it was called silent between two of its words. */
function wronglySilent(days: number, isLost: (random: () => number, wasLost: boolean) => boolean) {
  let seed = 20261;
  const random = () => {
    seed = (seed * 48_271) % 2_147_483_647;
    return seed / 2_147_483_647;
  };
  const track = startTrack(30, 0);
  let called = 0;
  let wasLost = false;
  for (let step = 1; step < days * 144; step += 1) {
    wasLost = isLost(random, wasLost);
    if (wasLost) continue;
    if (isSilent(track, step * 10 * min)) called += 1;
    followTrack(track, 30 + (step % 7) / 100, step * 10 * min, 8);
  }
  return { called, silentAfterH: silentAfterMs(track) / hour };
}

test.each<[string, (random: () => number, wasLost: boolean) => boolean, number]>([
  ['one in ten, one by one', (random) => random() < 0.1, 1.7],
  ['two in five, one by one', (random) => random() < 0.4, 4],
  // As long as that a burst lasts once in some 800.
  ['three in ten, in bursts of five', (random, wasLost) => random() < (wasLost ? 0.8 : 0.086), 6],
])(
  'a probe of which are lost %s is hardly called silent in four weeks, and is before six hours of silence',
  (_, isLost, mostH) => {
    const { called, silentAfterH } = wronglySilent(28, isLost);
    expect(called).toBeLessThanOrEqual(2);
    expect(silentAfterH).toBeLessThanOrEqual(mostH);
  },
);

test('silentAfterMs() learns nothing of one long outage: the next silence is seen as soon as before', () => {
  const track = trackEvery(10 * min, 120);
  const before = silentAfterMs(track);
  let atMs = track.heardAtMs + 5 * hour;
  followTrack(track, 30.5, atMs, 8);
  for (let step = 0; step < 6; step += 1) {
    atMs += 10 * min;
    followTrack(track, 30.5 + step / 100, atMs, 8);
  }
  expect(silentAfterMs(track) / before).toBeLessThan(2);
});

test('silentAfterMs() of a probe that speaks every six hours takes two losses in a row for chance, and for no burst', () => {
  const sixHourly = trackEvery(6 * hour, 40);
  const oneByOne = silentAfterMs({ ...sixHourly, missed: 0.125, gaps: 0.125 });
  expect(silentAfterMs({ ...sixHourly, missed: 0.125, gaps: 0.0625 })).toBe(oneByOne);
});

const stepRows: [string, number[], number][] = [
  // how it shows, values, step
  ['sixteenths', [20, 21, 21.5625, 22], 1 / 16],
  ['tenths', [20.1, 20.4, 21.4, 21.5], 0.1],
  ['halves', [20, 20.5, 22, 21], 0.5],
  ['whole degrees', [20, 23, 31, 30], 1],
  ['whole degrees, put right by 0.3', [20.3, 23.3, 31.3, 30.3], 1],
  ['whole °F', [68, 70, 75, 74].map((f) => (f - 32) / 1.8), 5 / 9],
  ['whole °F, kept to a hundredth', [20, 21.11, 23.89, 23.33], 5 / 9],
];
test.each(stepRows)('stepOf() of a probe that shows %s', (_, values, step) => {
  const track = startTrack(values[0] ?? 0, 0);
  for (const [i, value] of values.entries()) followTrack(track, value, i * hour, 8);
  expect(stepOf(track)).toBe(step);
});

test('followTrack() keeps the rhythm through a lost fifth of the messages', () => {
  const track = startTrack(30, 0);
  for (let step = 1; step < 500; step += 1) if (step % 5 !== 0) followTrack(track, 30, step * 10 * min, 8);
  expect(track.intervalMs / min).toBeGreaterThan(8);
  expect(track.intervalMs / min).toBeLessThan(16);
});

test('followTrack() throws out a lonely spike and counts it', () => {
  const track = startTrack(40, 0);
  expect(followTrack(track, 85, min, 8)).toBe(false);
  expect(followTrack(track, 40.1, 2 * min, 8)).toBe(true);
  expect([track.value, spikesNow(track, 2 * min)]).toEqual([40.1, 1]);
  expect(spikesNow(track, 2 * min + 24 * hour)).toBe(0.5);
});

test('followTrack() believes a fall that the next reading bears out', () => {
  const track = startTrack(48, 0);
  expect(followTrack(track, 33, min, 8)).toBe(false);
  expect(followTrack(track, 32.5, 2 * min, 8)).toBe(true);
  expect([track.value, spikesNow(track, 2 * min)]).toEqual([32.5, 0]);
});

const afterDoubt: [string, number, number][] = [
  // what comes next                                            value   spikes counted
  ['back to within a third of how far it was', 40 + 45 / 3 - 8, 1],
  ['a turned bed on its way back to its warmth', 33, 0],
];
for (const [what, value, spikes] of afterDoubt) {
  test(`followTrack() counts ${spikes} spikes when a doubted reading is followed by ${what}`, () => {
    const track = startTrack(40, 0);
    // 85 °C out of 40 for the first row; a hot bed opened to 20 for the second.
    followTrack(track, spikes === 1 ? 85 : 20, min, 8);
    expect(followTrack(track, value, 2 * min, 8)).toBe(true);
    expect(spikesNow(track, 2 * min)).toBe(spikes);
  });
}

test('followTrack() counts all of several wild readings in a row once the old value is back, and none that are borne out', () => {
  const back = startTrack(40, 0);
  for (const [step, value] of [80, 12, 40.2].entries()) followTrack(back, value, (step + 1) * min, 8);
  expect(spikesNow(back, 3 * min)).toBe(2);
  const turned = startTrack(45, 0);
  for (const [step, value] of [28, 33, 39, 42].entries()) followTrack(turned, value, (step + 1) * min, 8);
  expect([turned.value, spikesNow(turned, 4 * min)]).toEqual([42, 0]);
});

test('followTrack() takes a step of exactly the allowed jump at once', () => {
  const track = startTrack(40, 0);
  expect(followTrack(track, 48, min, 8)).toBe(true);
});

test('followTrack() changes nothing for an older reading or the same one again', () => {
  const track = startTrack(40, 10 * min);
  const before = { ...track };
  expect(followTrack(track, 50, 10 * min, 8)).toBe(false);
  expect(followTrack(track, 50, 9 * min, 8)).toBe(false);
  expect(track).toEqual(before);
});

const jumps: [string, number, number, boolean][] = [
  // gap       jump up   jump [K]   believed at once
  ['a minute', min, 8, true],
  ['a minute', min, 8.1, false],
  ['half an hour', hour / 2, 8, true],
  ['half an hour', hour / 2, 8.1, false],
  ['an hour', hour, 8, true],
  ['an hour', hour, 8.1, false],
  ['two hours', 2 * hour, 11.5, true],
  ['two hours', 2 * hour, 11.6, false],
  ['three hours', 3 * hour, 15, true],
  ['three hours', 3 * hour, 15.1, false],
  ['six hours', 6 * hour, 25.5, true],
  ['six hours', 6 * hour, 25.6, false],
  ['a day', 24 * hour, 60, true],
];
for (const [gap, gapMs, jumpK, believed] of jumps) {
  for (const sign of [1, -1]) {
    test(`followTrack() ${believed ? 'believes' : 'doubts'} a step of ${sign * jumpK} K after ${gap}`, () => {
      const track = startTrack(46, 0);
      expect(followTrack(track, 46 + sign * jumpK, gapMs, 8)).toBe(believed);
      expect(track.value).toBe(believed ? 46 + sign * jumpK : 46);
      expect(track.doubted).toBe(believed ? null : 46 + sign * jumpK);
    });
  }
}

test('followTrack() believes the fourth value that a pile cannot have come to, whatever it is', () => {
  const track = startTrack(46, 0);
  for (const [place, wildC] of [90, 5, 85].entries())
    expect(followTrack(track, wildC, 3 * (place + 1) * hour, 8)).toBe(false);
  expect(followTrack(track, 10, 12 * hour, 8)).toBe(true);
});

test('followTrack() allows no time to a jump of a probe that has just thrown in a wild value', () => {
  const track = startTrack(40, 0);
  for (const [place, readC] of [72, 40, 54].entries()) followTrack(track, readC, 3 * (place + 1) * hour, 8);
  expect(track).toMatchObject({ value: 40, doubted: 54 });
});

test('a lonely spike of a probe that is read every three hours counts for two days, of one read every ten minutes for one', () => {
  for (const [everyMs, ageMs, counts] of [
    [3 * hour, 47 * hour, true],
    [3 * hour, 49 * hour, false],
    [10 * min, 23 * hour, true],
    [10 * min, 25 * hour, false],
  ] as const) {
    const track = startTrack(40, 0);
    for (const [place, readC] of [40, 72, 40].entries()) followTrack(track, readC, (place + 1) * everyMs, 8);
    expect(track.spikes).toBe(1);
    expect(throwsWild(track, track.spikeAtMs + ageMs)).toBe(counts);
  }
});

const follows: [string, (track: ReturnType<typeof startTrack>) => void, boolean][] = [
  ['the first reading of all', () => undefined, true],
  ['a small step', (track) => followTrack(track, 42, min, 8), true],
  [
    'a jump that the reading after it bore out',
    (track) => [70, 69].map((v, i) => followTrack(track, v, (i + 1) * hour, 8)),
    true,
  ],
  ['a great step after a day', (track) => followTrack(track, 70, 24 * hour, 8), true],
  [
    'the fourth of wild readings of which none is like another',
    (track) => [80, 12, 60, 5].map((v, i) => followTrack(track, v, (i + 1) * min, 8)),
    false,
  ],
];
for (const [what, feed, does] of follows) {
  test(`followsOn() says of ${what}: ${does}`, () => {
    const track = startTrack(40, 0);
    feed(track);
    expect(track.doubted).toBe(null);
    expect(followsOn(track, 8)).toBe(does);
  });
}

/** Read every so many hours: moves by so much to and fro, then says the same so many times. */
function standsStill(everyH: number, movesK: number, repeats: number) {
  const track = startTrack(30, 0);
  let atMs = 0;
  for (let step = 1; step <= 12; step += 1) {
    atMs += everyH * hour;
    followTrack(track, 30 + (step % 2) * movesK, atMs, 20);
  }
  for (let step = 1; step < repeats; step += 1) {
    atMs += everyH * hour;
    followTrack(track, track.value, atMs, 20);
  }
  return track;
}

test.each([
  // every [h], moves [K], says the same so often: stuck?
  ['a core that moved by kelvins', 6, 2.0625, 4, false],
  ['a core that moved by kelvins', 6, 2.0625, 5, true],
  ['a core that hardly moved', 6, 1 / 16, 7, false],
  ['a core that hardly moved', 6, 1 / 16, 8, true],
  ['a core that moved by kelvins, for 18 h', 3, 2.0625, 7, false],
  ['a core that moved by kelvins, for 21 h', 3, 2.0625, 8, true],
])(
  'isStuck() of %s, read every %d h, that moves by %d K and then says the same %d times: %s',
  (_, everyH, movesK, repeats, stuck) => {
    expect(isStuck(standsStill(everyH, movesK, repeats), 'core')).toBe(stuck);
  },
);
