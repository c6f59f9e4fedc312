/** What is found in piles that are read seldom: each a way in which they were misjudged. */
import { expect, test } from 'vitest';
import { stepJudge } from '../../../core/session/judge.ts';
import { msPerHour } from '../../../shared/units.ts';
import { inWords, Played, setupOf, startMs, through } from '../helpers.ts';

const day = (hour: number): number => 20 + 5 * Math.cos((2 * Math.PI * (hour - 15)) / 24);

/** Core and air read every so many hours, the core first, and looked at every ten minutes. */
function readEvery(everyH: number, hours: number, core: (hour: number) => number, air = day, isByHand = false): Played {
  const all = new Played(setupOf());
  for (let hour = 0; hour <= hours; hour += everyH) {
    const atMs = startMs + hour * msPerHour;
    all.lookUntil(atMs - 1);
    const value = core(hour) + 0.07 * Math.sin(7 * hour);
    stepJudge(all.state, all.setup, null, { position: 'core', quantity: 'temperature', value, atMs, byHand: isByHand });
    if (!isByHand) all.feed('air', air(hour), atMs);
    all.evaluate(atMs);
  }
  all.lookUntil(startMs + hours * msPerHour);
  return all;
}

test('a value thirty kelvins up within three hours is never called heat, and a person is asked once', () => {
  const warm = through([0, 22], [30, 42], [200, 40]);
  const all = readEvery(3, 96, (hour) => ([60, 81].includes(hour) ? 72 : warm(hour)));
  const raised = all.events.filter(({ arrow }) => arrow.startsWith('raised')).map(({ kind }) => kind);
  expect(raised).toEqual(['heat-doubted', 'probe-out']);
  expect(inWords(all.finding('probe-out', 'core')).seen).toContain('wild');
});

for (const everyH of [3, 6]) {
  test(`a probe pulled out of a pile that is read every ${everyH} h is found within a day`, () => {
    const warm = through([0, 22], [30, 42], [200, 40]);
    const all = readEvery(everyH, 72, (hour) => (hour < 48 ? warm(hour) : day(hour)));
    expect(all.raised()).toEqual(['probe-out/core']);
  });

  test(`a turn between two readings of a pile that is read every ${everyH} h is seen, and is no stall`, () => {
    const all = readEvery(everyH, 84, through([0, 22], [30, 42], [46, 43], [47, 30], [84, 31]));
    expect(all.last?.detectedInterventions.map(({ kind }) => kind)).toEqual(['turned']);
    expect(all.events.find(({ kind }) => kind === 'stalling')?.hour ?? 100).toBeGreaterThan(64);
  });
}

test('one fall between two readings is no stall until the next reading bears it out', () => {
  const fell = through([0, 22], [24, 34], [36, 34], [48, 27], [60, 22], [96, 16]);
  const all = readEvery(12, 96, fell, () => 12);
  const stalledAtH = all.events.find(({ kind }) => kind === 'stalling')?.hour;
  expect(stalledAtH).toBeGreaterThanOrEqual(60);
  expect(stalledAtH).toBeLessThan(80);
});

test('a core measured by hand is said with its age from the first minute on, so that its words do not change', () => {
  const all = readEvery(12, 24, through([0, 22], [24, 41]), day, true);
  const first = all.say().condition;
  expect(first).toContain('was at 41');
  all.evaluate(startMs + 25 * msPerHour);
  expect(all.say().condition.replace('1 hour ago', 'just now')).toBe(first);
});

const known: [number, string, string][] = [
  [12, 'stalling', 'Its core is read about every 12 hours, so a stall shows after about 24 hours.'],
  [3, 'stalling', 'Its core is read about every 3 hours, so a stall shows after about 10 hours.'],
  [
    6,
    'overheating',
    'Its core is read about every 6 hours: that it has passed 50 °C in between is known at the next reading',
  ],
  [6, 'drying', 'Its core is read about every 6 hours: what it loses in between is reckoned on a straight line'],
];
for (const [everyH, kind, says] of known) {
  test(`what can be known of a pile read every ${everyH} h is said beside the rule of ${kind}, once`, () => {
    const all = readEvery(everyH, 48, through([0, 22], [30, 40], [48, 42]));
    expect(inWords(all.finding(kind as 'stalling')).why.split(says)).toHaveLength(2);
  });
}

test('nothing of its rhythm is said of a pile that is read every hour', () => {
  const all = readEvery(1, 24, through([0, 22], [24, 36]));
  for (const kind of ['stalling', 'drying', 'overheating'] as const)
    expect(inWords(all.finding(kind)).why).not.toContain('is read about every');
});

test('a bed that is as warm as the air at three readings six hours apart is not taken for a probe beside it', () => {
  // Warm by day and cool by night, it comes by the air now and then.
  const bed = through([0, 22], [24, 30], [48, 24], [54, 20.2], [60, 16.3], [66, 20.1], [72, 25], [84, 22]);
  const air = through([0, 12], [48, 14], [54, 20], [60, 16], [66, 20], [72, 14], [84, 12]);
  expect(readEvery(6, 84, bed, air).raised()).not.toContain('probe-out/core');
});
