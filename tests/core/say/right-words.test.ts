/** Sentences that were said of piles of which they were not true. */
import { expect, test } from 'vitest';
import { msPerHour } from '../../../shared/units.ts';
import { inWords, Played, play, setupOf, startMs, through } from '../helpers.ts';

test('a pile that keeps its highest excess and makes no heat is not said to have lost half of it', () => {
  const all = play(setupOf(), 90, through([0, 22], [24, 28], [36, 28], [90, 27.5]), () => 20);
  expect(all.raised()).toEqual(['stalling/null']);
  expect(inWords(all.finding('stalling')).seen).toContain('hardly makes heat any more before its work was done');
});

test('a pile that has lost more than half of its heat says so', () => {
  const all = play(setupOf(), 70, through([0, 22], [24, 38], [36, 38], [60, 23], [70, 22]), () => 20);
  expect(inWords(all.finding('stalling')).seen).toContain('lost more than half of its heat');
});

test('a pile that never warmed is not said to have stopped warming', () => {
  const all = play(
    setupOf(),
    60,
    () => 22,
    () => 20,
  );
  expect(all.raised()).toEqual(['stalling/null']);
  expect(all.say().condition).toBe('It has not warmed as it should: the core is at 22 °C.');
});

test('a pile too cold to work says that, and not that it has stalled', () => {
  const all = play(
    setupOf(),
    60,
    () => 8,
    () => 7,
  );
  expect(all.raised().sort()).toEqual(['chilled/null', 'stalling/null']);
  expect(all.say().condition).toBe('It is too cold to work: the core is at 8 °C.');
});

test('a bed laid as warm as it works, which cools and makes no heat, is not said to have had its heat', () => {
  const all = play(setupOf(), 30, through([0, 36], [8, 34], [30, 24]), () => 22);
  expect(all.phases).toContain('settled');
  expect(all.say().condition).not.toContain('come and gone');
});

test('a pile that had its heat says that it has come and gone', () => {
  const all = play(setupOf(), 190, through([0, 22], [30, 43], [110, 43], [140, 31], [160, 23], [190, 22]), () => 20);
  expect(all.say().condition).toContain('Its heat has come and gone');
});

test('a stall ends two days after the stage’s least length, of a pile that had its hump: then it is the end of the batch', () => {
  const fell = through([0, 22], [24, 40], [34, 40], [60, 24], [300, 23]);
  const all = new Played(setupOf());
  const stands = new Map<number, boolean>();
  for (let hour = 0; hour <= 220; hour += 1) {
    const atMs = startMs + hour * msPerHour;
    all.feed('core', fell(hour) + 0.07 * Math.sin(7 * hour), atMs);
    all.feed('air', 20, atMs);
    all.lookUntil(atMs);
    stands.set(hour, all.stateOf('stalling') === 'unacknowledged');
  }
  expect(stands.get(110)).toBe(true);
  expect(stands.get(160)).toBe(true);
  expect(stands.get(210)).toBe(false);
});
