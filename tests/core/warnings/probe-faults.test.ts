import { expect, test } from 'vitest';
import { msPerHour } from '../../../shared/units.ts';
import { inWords, Played, play, setupOf, startMs, through } from '../helpers.ts';

const works = through([0, 22], [30, 42], [200, 40]);
const day = (hour: number): number => 20 + 5 * Math.cos((2 * Math.PI * (hour - 7)) / 24);

/** A core whose value stands still from an hour on; beside it the air moves. */
function standsStill(fromH: number, hours: number): Played {
  const all = new Played(setupOf());
  for (let minute = 0; minute <= hours * 60; minute += 20) {
    const hour = minute / 60;
    const atMs = startMs + minute * 60_000;
    all.feed('air', day(hour), atMs);
    all.feed('core', hour < fromH ? works(hour) + 0.05 * Math.sin(minute) : 41.5, atMs);
    all.lookUntil(atMs);
  }
  return all;
}

test('one value for thirteen hours is honest: a real ground probe repeated one for twelve (litter heap, T10)', () => {
  expect(standsStill(40, 53).raised()).toEqual([]);
});

test('one value for fifteen hours is a stuck probe, and the core is then not known', () => {
  const all = standsStill(40, 55);
  expect(all.raised()).toEqual(['probe-stuck/core']);
  expect([all.finding('stalling').evidence, all.finding('stalling').explainedBy]).toEqual(['missing', 'probe-stuck']);
  expect(all.say().condition).toBe(
    'The core probe says the same number over and over, so nobody can say how the pile is.',
  );
});

test('three wild values in a day are a failing probe, and none of them is believed', () => {
  const all = play(setupOf(), 48, (hour) => ([40, 43, 46].includes(hour) ? 85 : works(hour)), day);
  expect(all.raised()).toEqual(['probe-out/core']);
  expect(inWords(all.finding('probe-out', 'core')).seen).toContain('wild');
  expect(all.say()).toMatchObject({ tone: 'watch', next: expect.stringContaining('Look at the core probe') });
});

test('a core that falls to the air within an hour and stays there was pulled out, not turned', () => {
  const all = play(setupOf(), 60, (hour) => (hour < 45 ? works(hour) : day(hour)), day);
  expect(all.raised()).toEqual(['probe-out/core']);
  expect(all.finding('stalling').explainedBy).toBe('probe-out');
  expect(all.last?.detectedInterventions).toEqual([]);
  expect(all.say().condition).toBe(
    'The core probe seems to have come out of the pile, so nobody can say how the pile is.',
  );
});

test('a core that is put back is believed again', () => {
  const all = play(setupOf(), 60, (hour) => (hour < 45 || hour > 50 ? works(hour) : day(hour)), day);
  expect(all.stateOf('probe-out', 'core')).toBe('returned-unacknowledged');
  expect(all.finding('overheating').evidence).toBe('absent');
});

test('a turn that takes half of the warmth is no pulled probe', () => {
  const all = play(setupOf(), 60, through([0, 22], [30, 42], [40, 42], [40.3, 31], [60, 40]), day);
  expect(all.raised()).toEqual([]);
});

// T13 of the litter heap: sun and night on a skin, real steps of up to 10.8 °C in an hour.
test('a skin that swings with sun and night, down to the air, is no fault', () => {
  const all = new Played(setupOf());
  for (let hour = 0; hour <= 120; hour += 1) {
    const atMs = startMs + hour * msPerHour;
    const sunK = Math.max(0, 22 * Math.sin((2 * Math.PI * (hour - 2)) / 24));
    all.feed('air', day(hour) + 0.03 * (hour % 3), atMs);
    all.feed('core', works(hour) + 0.03 * (hour % 5), atMs);
    all.feed('top', day(hour) + sunK + 0.5, atMs);
    all.lookUntil(atMs + 50 * 60_000);
  }
  expect(all.raised()).toEqual([]);
});

test('a core pulled out while too hot leaves the alarm standing and says that nobody knows', () => {
  const hot = through([0, 22], [30, 52], [60, 53]);
  const all = play(setupOf(), 60, (hour) => (hour < 45 ? hot(hour) : day(hour)), day);
  expect(all.stateOf('overheating')).toBe('unacknowledged');
  expect(all.say().condition).toBe('It was too hot before its core probe went wrong, and nobody knows how it is now.');
});

test('a core that suddenly reads like the air is not believed from the first reading on', () => {
  const all = play(setupOf(), 46, (hour) => (hour < 45 ? works(hour) : day(hour)), day);
  expect(all.finding('overheating').evidence).toBe('missing');
  expect(all.say().condition).toBe('The core probe suddenly reads like the air, so nobody can say how the pile is.');
});

test('warm air that comes up to a cool core has pulled nothing out', () => {
  const core = through([0, 22], [30, 40], [80, 30], [140, 27]);
  const air = (hour: number): number => (hour < 100 ? 18 + 2 * Math.sin(hour) : 18 + Math.min(9, hour - 100));
  const all = play(setupOf(), 120, core, air);
  expect(all.raised().filter((name) => name.startsWith('probe'))).toEqual([]);
});

const falls: [string, number, boolean][] = [
  // share of its warmth that it loses of itself, while the air rises to meet it
  ['half', 0.5, false],
  ['seven tenths', 0.7, true],
];
for (const [words, share, out] of falls) {
  test(`a core that loses ${words} of its warmth and then lies with the air ${out ? 'was pulled out' : 'was not pulled out'}`, () => {
    const metC = 42 - 22 * share;
    const all = play(
      setupOf(),
      56,
      (hour) => (hour < 45 ? works(hour) : metC + 0.1 * Math.sin(hour)),
      (hour) => (hour < 45 ? 20 : metC),
    );
    expect(all.raised().includes('probe-out/core')).toBe(out);
  });
}

test('a heat that one reading shows is not believed until the next bears it out', () => {
  const hot = (from: number, to: number) => (hour: number) => (hour >= from && hour <= to ? 58 : 43);
  const one = play(setupOf(), 40, hot(30, 30.1), () => 20, { everyMin: 30 });
  expect(one.raised()).not.toContain('overheating/null');
  const real = play(setupOf(), 40, hot(30, 40), () => 20, { everyMin: 30 });
  expect(real.raised()).toContain('overheating/null');
});

const following: ['core' | 'base' | 'top', number, number, boolean][] = [
  // place, swing of the air from night to day [K], hours beside it, known as out
  ['core', 3.4, 22, true],
  ['core', 3.4, 16, false],
  ['core', 2.6, 48, false],
  ['base', 3.4, 22, true],
  ['top', 3.4, 48, false],
  ['top', 4.4, 30, true],
];
for (const [position, swingK, hours, out] of following) {
  test(`a ${position} as cold as the air that follows it for ${hours} h through ${swingK} K is ${out ? '' : 'not yet '}out of the pile`, () => {
    const all = new Played(setupOf());
    const air = (hour: number): number => 6 + (swingK / 2) * Math.cos((2 * Math.PI * hour) / 24);
    for (let minute = 0; minute <= (60 + hours) * 60; minute += 20) {
      const hour = minute / 60;
      const atMs = startMs + minute * 60_000;
      const wobbleK = 0.1 * Math.sin(minute);
      all.feed('air', air(hour) - wobbleK, atMs);
      for (const place of ['core', 'top', 'base'] as const)
        all.feed(place, (place === position && hour >= 60 ? air(hour) + 0.2 : 5 + hour / 100) + wobbleK, atMs);
      all.lookUntil(atMs);
    }
    expect(all.raised().filter((name) => name.startsWith('probe'))).toEqual(out ? [`probe-out/${position}`] : []);
  });
}

test('one wild value of a core that speaks once an hour, with messages lost, is a hand on the cable and no failing probe', () => {
  const all = new Played(setupOf());
  const lost = [31, 33, 38, 40];
  for (let hour = 0; hour <= 60; hour += 1) {
    const atMs = startMs + hour * msPerHour;
    all.feed('air', day(hour), atMs);
    if (!lost.includes(hour)) all.feed('core', hour === 28 ? 20 : works(hour) + 0.1 * Math.sin(hour), atMs);
    all.lookUntil(atMs + 50 * 60_000);
  }
  expect(all.raised().filter((one) => one.startsWith('probe-out'))).toEqual([]);
});
