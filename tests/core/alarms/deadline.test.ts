import { expect, test } from 'vitest';
import { keptDeadline } from '../../../core/alarms/deadline.ts';

const rows: [string, number | null, number | null, boolean, number | null][] = [
  // what                                  kept  seen  anew   by
  ['one just raised', null, 120, true, 120],
  ['one without a deadline', null, null, true, null],
  ['the next look, a minute later', 120, 121, false, 120],
  ['weeks later', 120, 99_999, false, 120],
  ['one grown graver, to be done at once', 120, 60, false, 60],
  ['one that came back after it was over', 120, 500, true, 500],
  ['one raised for want of a deadline before', null, 130, false, 130],
  ['a look that gives none', 120, null, false, 120],
];
for (const [what, kept, seen, anew, by] of rows) {
  test(`keptDeadline() of ${what}: ${by}`, () => expect(keptDeadline(kept, seen, anew)).toBe(by));
}
