/**
 * Piles that are measured seldom: a true rise between two readings is believed, and what is doubted is shown as it was measured.
 */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { msPerDay, msPerHour, msPerMinute } from '../../../shared/units.ts';
import { Played, setupOf, startMs } from '../helpers.ts';

/** Feeds a core by [hour, °C] and looks on each time, and every ten minutes between. */
function playCore(
  readings: readonly (readonly [number, number])[],
  untilH: number,
  played = new Played(setupOf()),
): Played {
  for (const [hour, tempC] of readings) {
    const atMs = startMs + hour * msPerHour;
    played.lookUntil(atMs - 1);
    played.feed('core', tempC, atMs);
  }
  played.lookUntil(startMs + untilH * msPerHour);
  return played;
}

test('a pile read once a day in whole degrees is called too hot at the first reading over the limit', () => {
  const daily = [22, 38, 46, 70].map((tempC, day) => [24 * day, tempC] as const);
  const played = playCore(daily, 72);
  const raised = played.events.filter(({ arrow }) => arrow === 'raised').map(({ hour, kind }) => [hour, kind]);
  expect(raised).toContainEqual([72, 'overheating']);
  expect(raised).toContainEqual([72, 'self-heating']);
  expect(played.say().condition).toContain('70 °C');
  expect(played.say().condition).not.toContain('46');
  expect(played.last?.positions.core).toMatchObject({ temperatureC: 70, doubted: null });
});

test('a core just over its limit at a daily reading is called too hot within half an hour of it', () => {
  const played = playCore(
    [22, 38, 43, 51].map((tempC, day) => [24 * day, tempC] as const),
    73,
  );
  const raised = played.events.find(({ kind, arrow }) => kind === 'overheating' && arrow === 'raised');
  expect(raised?.hour).toBeGreaterThanOrEqual(72);
  expect(raised?.hour).toBeLessThanOrEqual(72.5);
});

const hourly = (last: number): [number, number][] => [
  ...[30, 34, 38, 42, 46].map((c, h): [number, number] => [h, c]),
  [5, last],
];

test('a doubted reading over the limit is spoken as measured and doubted, and nothing is called clear of heat meanwhile', () => {
  const played = playCore(hourly(70), 5.5);
  expect(played.last?.positions.core).toMatchObject({
    temperatureC: 46,
    temperatureAtMs: startMs + 4 * msPerHour,
    doubted: { temperatureC: 70, atMs: startMs + 5 * msPerHour },
  });
  expect(played.say()).toEqual({
    condition: 'The core probe reads 70 °C, a jump from 46 °C: the next reading decides.',
    next: 'Look again when the next reading has come; if you are beside it, measure it with a long-stem thermometer.',
    tone: 'watch',
  });
  expect(played.finding('overheating').evidence).toBe('missing');
  expect(played.finding('self-heating').evidence).toBe('missing');
});

test('a doubted reading over the limit asks a person to check once the next one is late', () => {
  const played = playCore(hourly(70), 6.2);
  expect(played.raised()).not.toContain('heat-doubted/null');
  played.lookUntil(startMs + 6.5 * msPerHour);
  expect(played.raised()).toContain('heat-doubted/null');
  expect(played.say()).toMatchObject({
    next: expect.stringContaining('Measure the core with a long-stem thermometer now'),
    tone: 'act',
  });
});

test('the reading after a doubted one decides: borne out it is too hot at once, taken back nothing stands', () => {
  const borneOut = playCore([...hourly(70), [6, 71]], 6);
  expect(borneOut.stateOf('overheating')).toBe('unacknowledged');
  expect(borneOut.stateOf('self-heating')).toBe('unacknowledged');
  expect(borneOut.say().condition).toContain('71 °C');
  const takenBack = playCore([...hourly(70), [6, 47]], 6);
  expect(takenBack.raised()).not.toContain('overheating/null');
  expect(takenBack.say().condition).toContain('47 °C');
});

test('a doubted reading that is the last before a silence stays said', () => {
  const { condition, tone } = playCore(hourly(70), 15).say();
  expect(condition).toBe(
    'The core probe reads 70 °C, a jump from 46 °C, and has been silent since: nothing has borne it out.',
  );
  expect(tone).toBe('act');
});

const spikes: [number, boolean][] = [
  // minutes between readings, whether one wild value asks a person to check
  [1, false],
  [10, false],
  [30, false],
  [60, false],
  [75, true],
  [120, true],
];
for (const [everyMin, asks] of spikes) {
  test(`one wild value of a probe that speaks every ${everyMin} min ${asks ? 'asks a person to check' : 'raises nothing'}, and is never called heat`, () => {
    const readings = Array.from({ length: 24 }, (_, i) => [(i * everyMin) / 60, 40 + 0.1 * i] as const);
    const wild = readings.map(([hour, tempC], i) => [hour, i === 20 ? 72 : tempC] as const);
    const played = playCore(wild, (23 * everyMin) / 60);
    expect(played.raised()).toEqual(
      asks ? (everyMin === 120 ? ['heat-doubted/null', 'probe-out/core'] : ['heat-doubted/null']) : [],
    );
    expect(played.finding('overheating').evidence).toBe('absent');
  });
}

test('a probe that speaks every few minutes and stops at a doubted reading over the limit asks for a person after half an hour', () => {
  const readings: [number, number][] = [
    ...Array.from({ length: 24 }, (_, i): [number, number] => [i / 6, 40]),
    [4, 72],
  ];
  const played = playCore(readings, 4 + 29 / 60);
  expect(played.raised()).not.toContain('heat-doubted/null');
  played.lookUntil(startMs + 4.6 * msPerHour);
  expect(played.raised()).toContain('heat-doubted/null');
});

const ages: [string, number, number, string][] = [
  // rhythm       every [h]  age [h]  said
  ['ten minutes', 1 / 6, 0.5, 'the core is at 41 °C'],
  ['an hour', 1, 1.4, 'the core is at 41 °C'],
  ['an hour', 1, 1.6, 'the core was at 41 °C 1 hour ago'],
  ['three hours', 3, 0.2, 'the core was at 41 °C 12 minutes ago'],
  ['a day', 24, 2.9, 'the core was at 41 °C 2 hours ago'],
  ['a day', 24, 3.2, 'the core was at 41 °C 3 hours ago'],
  ['a day', 24, 20, 'the core was at 41 °C 20 hours ago'],
];
for (const [rhythm, everyH, ageH, said] of ages) {
  test(`a pile read every ${rhythm} says after ${Math.round(60 * ageH)} min: ${said}`, () => {
    const readings = [38, 39, 40, 41].map((tempC, i) => [i * everyH, tempC] as const);
    const played = playCore(readings, 3 * everyH);
    played.evaluate(startMs + (3 * everyH + ageH) * msPerHour);
    expect(played.say().condition).toContain(said);
  });
}

test('what a core probe said last is always what is spoken of it, believed or doubted, whatever comes when', () => {
  const reading = fc.record({
    gapMs: fc.oneof(
      fc.integer({ min: msPerMinute, max: 4 * msPerHour }),
      fc.integer({ min: msPerHour, max: 2 * msPerDay }),
    ),
    tempC: fc.integer({ min: -5, max: 80 }),
  });
  fc.assert(
    fc.property(fc.array(reading, { minLength: 1, maxLength: 30 }), (readings) => {
      const played = new Played(setupOf());
      let atMs = startMs;
      let before = startMs;
      for (const { gapMs, tempC } of readings) {
        atMs += gapMs;
        played.feed('core', tempC, atMs);
        played.evaluate(atMs);
        const core = played.last?.positions.core;
        expect(core?.doubted?.temperatureC ?? core?.temperatureC).toBe(tempC);
        // What is doubted is further off than a pile comes in the time, or of a probe that threw in a wild value.
        const sinceH = (atMs - (core?.temperatureAtMs ?? 0)) / msPerHour;
        const stepK = Math.abs(tempC - (core?.temperatureC ?? 0));
        if (core?.doubted != null) expect(stepK).toBeGreaterThan(8);
        if (core?.doubted != null && played.state.positions.core?.temperature?.spikes === 0)
          expect(stepK).toBeGreaterThan(8 + 3.5 * Math.max(0, sinceH - 1));
        before = atMs;
      }
      expect(before).toBe(atMs);
    }),
  );
});

const rows = readFileSync(new URL('../../data/litter-heap-2023-hourly.csv', import.meta.url), 'utf8')
  .trim()
  .split('\n')
  .slice(1)
  .map((line) => line.split(','));
const firstMs = Date.parse(`${rows[0]?.[0]}Z`);

for (const everyH of [1, 3, 6, 12]) {
  test(`the real litter heap, read every ${everyH} h, is called too hot at its first reading within a probe’s half degree of 50 °C, and none is doubted`, () => {
    const played = new Played(
      setupOf('bran', {
        startedAtMs: firstMs,
        recipe: { material: 'other', depthM: 1.8, moistureFrac: 0.488, cover: 'open' },
      }),
    );
    let firstOverH: number | null = null;
    for (const [i, cells] of rows.entries()) {
      if (i % everyH !== 0 || !cells[4]) continue;
      const atMs = Date.parse(`${cells[0]}Z`);
      const coreC = Number(cells[4]);
      played.lookUntil(atMs - 1);
      played.feed('core', coreC, atMs);
      played.evaluate(atMs);
      if (coreC > 49.5) firstOverH ??= (atMs - firstMs) / msPerHour;
      expect(played.last?.positions.core).toMatchObject({ temperatureC: coreC, doubted: null });
    }
    const raised = played.events.find(({ kind, arrow }) => kind === 'overheating' && arrow === 'raised');
    expect(firstOverH).not.toBeNull();
    // What lies within the probe's own error is said after half an hour, or ten minutes later, when it is looked at again.
    expect((raised?.hour ?? Number.POSITIVE_INFINITY) - (firstOverH ?? 0)).toBeLessThanOrEqual(2 / 3);
  });
}

const opened: [string, number, string][] = [
  [
    'opened',
    25,
    'It was too hot and may have cooled: the core probe reads 25 °C, a jump from 55 °C, and the next reading decides.',
  ],
  [
    'hotter by far',
    79,
    'It is too hot and may be hotter still: the core probe reads 79 °C, a jump from 55 °C, and the next reading decides.',
  ],
];
for (const [what, lastC, said] of opened) {
  test(`a pile that is too hot and then ${what} says what was read last, and that the next reading decides`, () => {
    const hot: [number, number][] = [30, 38, 46, 53, 55].map((tempC, hour) => [hour, tempC]);
    expect(playCore([...hot, [5, lastC]], 5).say().condition).toBe(said);
  });
}

test('a pile that was too hot, cooled, and jumps up again before that is sure, is never said to be coming down', () => {
  const hot: [number, number][] = [30, 38, 46, 53, 48, 70].map((tempC, hour) => [hour / 2, tempC]);
  const { condition } = playCore(hot, 2.5 + 31 / 60).say();
  expect(condition).toContain('The core probe reads 70 °C, a jump from 48 °C');
});

test('a probe known to throw in wild values asks nobody to check each of them', () => {
  const readings = Array.from({ length: 48 }, (_, hour): [number, number] => [2 * hour, hour % 4 === 1 ? 75 : 40]);
  const played = playCore(readings, 94);
  const asked = played.events.filter(({ kind, arrow }) => kind === 'heat-doubted' && arrow.startsWith('raised'));
  // The first, before it is known; eleven come after.
  expect(asked.length).toBe(1);
  expect(played.raised()).toContain('probe-out/core');
});

test('two wild values minutes apart are not called heat, a third that bears them out is', () => {
  const readings = Array.from({ length: 24 }, (_, i): [number, number] => [i / 6, 40]);
  const two = playCore([...readings, [4, 70], [4 + 1 / 6, 71], [4 + 2 / 6, 40]], 4.4);
  expect(two.raised()).not.toContain('overheating/null');
  const three = playCore([...readings, [4, 70], [4 + 1 / 6, 71], [4 + 2 / 6, 71]], 4.4);
  expect(three.raised()).toContain('overheating/null');
});

test('a pile whose last reading is old speaks of it as past, and asks for a measurement where it may be near its limit', () => {
  const played = playCore(
    [22, 38, 46].map((tempC, day): [number, number] => [24 * day, tempC]),
    68,
  );
  const { condition, next } = played.say();
  expect(condition).toBe('It was working hard: the core was at 46 °C 20 hours ago, near the 50 °C at which to act.');
  expect(next).toBe('Measure the core with a long-stem thermometer now, and be ready to turn it or spread it thinner.');
});
