/** The phase as pages show it does not contradict what is said above it. */
import { expect, test } from 'vitest';
import { standView } from '../../../core/session/assessment-view.ts';
import { msPerMinute } from '../../../shared/units.ts';
import { Played, setupOf, startMs } from '../helpers.ts';

function laidAt(coreC: number, minutes: number): Played {
  const pile = new Played(setupOf('bran', { served: { core: startMs } }));
  for (let minute = 0; minute <= minutes; minute += 10) {
    const atMs = startMs + minute * msPerMinute;
    pile.feed('core', coreC + 0.05 * Math.sin(minute), atMs);
    pile.lookUntil(atMs);
  }
  return pile;
}

const shown = ({ last }: Played) => {
  if (!last) throw new Error('it was never looked at');
  const { phase, phaseReason } = standView(last);
  return [last.phase, phase, phaseReason];
};

test.each([48, 53])('a pile whose first readings are at %d °C is active, not resting', (coreC) => {
  // Within its first hour the judge has no hour to follow yet.
  expect(shown(laidAt(coreC, 40))).toEqual(['resting', 'active', 'reached-working-heat']);
});

test('a pile laid at 25 °C is resting', () => {
  expect(shown(laidAt(25, 40))).toEqual(['resting', 'resting', 'just-laid']);
});

test('a settled pile that is hotter than its culture likes is active again', () => {
  const { last } = laidAt(48, 40);
  if (!last) throw new Error('it was never looked at');
  expect(standView({ ...last, phase: 'settled', phaseReason: 'back-near-air' })).toMatchObject({
    phase: 'active',
    phaseReason: 'reheated',
  });
  expect(standView({ ...last, phase: 'cooling', phaseReason: 'fell-from-its-peak' }).phase).toBe('cooling');
});
