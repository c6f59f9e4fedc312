/** Whether a probe was pulled out, hour by hour, where it is read every three hours together with the air. */
import { expect, test } from 'vitest';
import { followOut, followPaired, startOut } from '../../../core/estimate/out-of-pile.ts';
import { msPerHour } from '../../../shared/units.ts';

const rows: [string, number, [positionC: number, airC: number][], boolean][] = [
  // base and air as they were read together, three hours for each
  [
    'a freshly laid bed that the morning comes up to',
    20.75,
    [
      [21.75, 21.06],
      [23.25, 22.81],
    ],
    false,
  ], // development pile anybody-39
  [
    'a bed that the air comes up to, and that fell by nothing',
    20.75,
    [
      [20.75, 15.2],
      [20.75, 20.3],
    ],
    false,
  ],
  [
    'a bed whose probe falls to the air by as little as makes it warm',
    20.75,
    [
      [20.75, 15.7],
      [15.7, 15.7],
    ],
    true,
  ],
  [
    'a bed whose probe falls by half of that while the air comes up to it',
    20.75,
    [
      [20.75, 15.7],
      [18.25, 18.2],
    ],
    false,
  ],
];

test.each(rows)('followPaired() of %s', (_, firstC, together, out) => {
  const state = startOut();
  let hour = 1;
  followOut(state, null, false, firstC, 15.19, hour * msPerHour);
  for (const [positionC, airC] of together) {
    for (let i = 0; i < 4; i += 1) {
      hour += 1;
      followPaired(state, { positionC, airC }, false, hour * msPerHour, 3 * msPerHour);
    }
  }
  expect(state.sinceMs !== null).toBe(out);
});
