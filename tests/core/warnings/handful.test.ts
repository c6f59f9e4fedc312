import { describe, expect, test } from 'vitest';
import { msPerHour } from '../../../shared/units.ts';
import { findingGallery } from '../../helpers/finding-gallery.ts';
import { inWords, Played, setupOf, startMs } from '../helpers.ts';

const asking = findingGallery().filter((finding) => /handful/i.test(inWords(finding).todo));

describe('whatever asks for a handful', () => {
  test('there are such findings', () => {
    expect(asking.map(({ kind }) => kind)).toEqual(
      expect.arrayContaining(['hand-dry', 'hand-wet', 'waterlogged', 'stalling']),
    );
  });
  for (const finding of asking) {
    const { todo, caution } = inWords(finding);
    test(`${finding.kind} (${todo.slice(0, 40)}…): gloves and the cool side go with it`, () => {
      expect(caution).toMatch(/gloves/);
      expect(caution).toMatch(/from the cool side/);
    });
  }
});

/** Crumbled by hand, with a core at so many °C; null: nothing measured. */
function crumbledAt(coreC: number | null) {
  const noted = [{ atMs: startMs + msPerHour, by: 'Ana', what: { kind: 'squeeze', feel: 'crumbles' } as const }];
  const all = new Played(setupOf('bran', { noted }));
  for (let hour = 0; hour <= 2; hour += 1) {
    if (coreC !== null) all.feed('core', coreC - (2 - hour), startMs + hour * msPerHour);
    all.evaluate(startMs + hour * msPerHour);
  }
  return inWords(all.finding('hand-dry')).caution ?? '';
}

test.each([
  ['49.9 °C', 49.9, false],
  ['50 °C', 50, true],
  ['nobody knows what', null, true],
] as const)('a handful of a pile at %s is to be taken with a fork: %j', (_at, coreC, withFork) => {
  expect(crumbledAt(coreC)).toMatch(withFork ? /Do not reach in: .* with a fork/ : /Wear gloves to take the handful/);
  expect(crumbledAt(coreC).includes('fork')).toBe(withFork);
});
