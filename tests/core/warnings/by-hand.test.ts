import { describe, expect, test } from 'vitest';
import type { Noted, NotedFacts } from '../../../core/profiles/noted.ts';
import type { PileSetup } from '../../../core/profiles/pile-setup.ts';
import type { Act } from '../../../shared/contracts/domain/batch.ts';
import { msPerHour, msPerMinute } from '../../../shared/units.ts';
import { handKinds } from '../../../shared/warning.ts';
import { inWords, Played, play, setupOf, startMs, through } from '../helpers.ts';

const note = (hour: number, what: NotedFacts, by: string | null = 'Ana'): Noted => ({
  atMs: startMs + hour * msPerHour,
  by,
  what,
});
const crumbles = { kind: 'squeeze', feel: 'crumbles' } as const;
const foul: NotedFacts = { kind: 'smell', smells: ['rotten', 'ammonia'] };
const blackAll = { kind: 'growth', colour: 'black', place: 'all-through', amount: 'many' } as const;
const works = through([0, 22], [30, 42], [110, 41]);

/** The same pile looked at again with what was written down since, as the server does after an entry. */
function lookedAt(before: Played, change: Partial<PileSetup>, hour: number): Played {
  const after = new Played({ ...before.setup, ...change }, before.band);
  Object.assign(after.state, structuredClone(before.state));
  after.evaluate(startMs + hour * msPerHour);
  return after;
}

/** No probe at all. */
function unmeasured(change: Partial<PileSetup>, hour: number): Played {
  const all = new Played(setupOf('bran', change));
  all.evaluate(startMs + hour * msPerHour);
  return all;
}

describe('what a person noted counts at once', () => {
  const rows = [
    [
      'hand-dry',
      crumbles,
      /^Ana’s squeeze 6 minutes ago says it is too dry; the estimate still says 5\d % water: they disagree\.$/,
    ],
    ['bad-smell', foul, /^It smells rotten and of ammonia, noted by Ana 6 minutes ago; the core is at 4\d °C\.$/],
    [
      'wrong-growth',
      blackAll,
      /^Black growth all through it, many patches, noted by Ana 6 minutes ago; the core is at 4\d °C\.$/,
    ],
    [
      'hand-wet',
      { kind: 'squeeze', feel: 'pours' },
      /^Ana’s squeeze 6 minutes ago says it is too wet; the estimate still says 6\d % water: they disagree\.$/,
    ],
  ] as const;
  for (const [kind, what, says] of rows) {
    test(`${kind} beside a probe that has said nothing since`, () => {
      const all = lookedAt(play(setupOf(), 50, works), { noted: [note(50.2, what)] }, 50.3);
      expect(all.stateOf(kind)).toBe('unacknowledged');
      expect(all.say()).toMatchObject({ condition: expect.stringMatching(says), tone: 'act' });
      expect(all.finding(kind)).toMatchObject({ evidence: 'present', noted: { by: 'Ana' } });
      expect(all.finding(kind).caution).not.toBeNull();
    });
    test(`${kind} of a pile that no probe ever measured`, () => {
      const all = unmeasured({ noted: [note(50, what, null)] }, 50.1);
      expect(all.stateOf(kind)).toBe('unacknowledged');
      expect(all.say().tone).toBe('act');
      expect(all.say().condition).toMatch(/6 minutes ago/);
      expect(all.say().condition).not.toMatch(/null|undefined|estimate|core/);
    });
    test(`${kind} of a pile whose probes are silent, which is said beside it`, () => {
      const all = lookedAt(play(setupOf(), 50, works), { noted: [note(55, what)] }, 55.1);
      expect(all.stateOf(kind)).toBe('unacknowledged');
      expect(all.say().condition).toMatch(/; its core probe has been silent for 5 hours\.$/);
      expect(all.say().next).toMatch(/Measure its core with a long-stem thermometer as well\.$/);
    });
  }
});

test('a squeeze moves the estimate at once, as far as both are sure, and a second one moves it further', () => {
  const before = play(setupOf(), 50, works);
  const moisture = (noted: readonly Noted[]) => {
    const all = lookedAt(before, { noted }, 50.1);
    return all.last?.moisture ?? { frac: Number.NaN, sdFrac: Number.NaN };
  };
  const none = moisture([]);
  const once = moisture([note(50, crumbles)]);
  const twice = moisture([note(50, crumbles), note(50.05, crumbles)]);
  expect(once.frac).toBeLessThan(none.frac - 0.005);
  expect(once.sdFrac).toBeGreaterThan(none.sdFrac); // they contradict each other
  expect(twice.frac).toBeLessThan(once.frac - 0.02);
  const agreeing = moisture([note(50, { kind: 'sample', wetG: 1000, dryG: Math.round(1000 * (1 - none.frac)) })]);
  expect(agreeing.sdFrac).toBeLessThan(none.sdFrac);
});

test('a squeeze counts the same whether it is heard at once or with the hour that closes over it', () => {
  const noted = [note(50.2, crumbles)];
  const atOnce = lookedAt(play(setupOf(), 50.9, works), { noted }, 50.9).last?.moisture?.frac ?? Number.NaN;
  const later = play(setupOf('bran', { noted }), 51.1, works).last?.moisture?.frac ?? Number.NaN;
  expect(later).toBeCloseTo(atOnce, 2);
});

test('a handful squeezed before the watering says nothing of the bed after it', () => {
  const acts: Act[] = [{ kind: 'watered', atMs: startMs + 50.5 * msPerHour, amountL: 20 }];
  const fracOf = (hour: number): number =>
    play(setupOf('bran', { acts, noted: [note(hour, crumbles)] }), 52, works).last?.moisture?.frac ?? Number.NaN;
  expect(fracOf(50.4)).toBeGreaterThan(fracOf(50.6) + 0.02);
});

test('the estimate of a pile that nobody measures grows doubtful, so that its first squeeze counts for much', () => {
  const laid = unmeasured({}, 1).last?.moisture;
  const week = unmeasured({}, 168).last?.moisture;
  expect(week?.frac).toBeCloseTo(laid?.frac ?? 0, 9);
  expect(week?.sdFrac).toBeGreaterThan(2 * (laid?.sdFrac ?? 1));
  const squeezed = unmeasured({ noted: [note(168, crumbles)] }, 168.1).last?.moisture;
  expect(squeezed?.frac).toBeLessThan((week?.frac ?? 0) - 0.05);
});

describe('an answered sign', () => {
  const noted = [note(50, crumbles)];
  const acts: Act[] = [{ kind: 'watered', atMs: startMs + 51 * msPerHour, amountL: 10 }];

  test('ends, and the pile asks for another handful until there is one', () => {
    const before = play(setupOf(), 51.5, works);
    const all = lookedAt(before, { noted, acts }, 51.5);
    expect(all.stateOf('hand-dry')).not.toBe('unacknowledged');
    expect(all.say()).toMatchObject({
      next: 'It was watered 30 minutes ago because it was too dry by hand. Squeeze a handful from the core again, and write down how it feels.',
      tone: 'watch',
    });
    const again = lookedAt(before, { noted: [...noted, note(51.6, { kind: 'squeeze', feel: 'holds' })], acts }, 51.7);
    expect(again.say().next).not.toMatch(/again, and write down/);
  });

  test('asks so of a pile without a probe too', () => {
    const all = unmeasured({ noted, acts }, 51.5);
    expect(all.say().next).toMatch(/^It was watered 30 minutes ago/);
  });
});

test('a sign whose entry is withdrawn ends at the next look', () => {
  const all = new Played(setupOf('bran', { noted: [note(1, foul)] }));
  all.evaluate(startMs + msPerHour);
  expect(all.stateOf('bad-smell')).toBe('unacknowledged');
  Object.assign(all, { setup: setupOf('bran', { noted: [] }) });
  all.evaluate(startMs + msPerHour + msPerMinute);
  expect(all.stateOf('bad-smell')).toBe('returned-unacknowledged');
});

test('a late entry takes its place in time: a good handful since has answered it already', () => {
  const noted = [note(40, crumbles), note(45, { kind: 'squeeze', feel: 'holds' })];
  const all = lookedAt(play(setupOf(), 50, works), { noted }, 50.1);
  expect(all.stateOf('hand-dry')).toBe('normal');
});

describe('a pile as hot as fire is feared', () => {
  for (const [hottestC, isClosed] of [
    [64.9, false],
    [65, true],
    [72, true],
  ] as const) {
    for (const silentH of [0.1, 20]) {
      test(`at ${hottestC} °C, last heard ${silentH} h ago, ${isClosed ? 'stays closed whatever was noted' : 'may be opened for a handful'}`, () => {
        const hot = through([0, 30], [40, hottestC], [50, hottestC]);
        for (const what of [crumbles, foul, blackAll, { kind: 'squeeze', feel: 'pours' }] as const) {
          // The wobble of the helper's chip may lie on the other side of the limit.
          const before = play(setupOf(), 50, (hour) => hot(hour) + (isClosed ? 0.06 : -0.06));
          const all = lookedAt(before, { noted: [note(50 + silentH, what)] }, 50 + silentH);
          for (const kind of handKinds) {
            const { evidence } = all.finding(kind);
            const { todo } = inWords(all.finding(kind));
            if (evidence !== 'present') continue;
            if (isClosed) expect(todo).toMatch(/^Leave it closed: it was last measured at (65|72)/);
            else expect(todo).not.toMatch(/^Leave it closed/);
          }
          if (isClosed) expect(all.say().next).not.toMatch(/squeeze|handful|smell|turn it|take it out/i);
        }
      });
    }
  }
});

test('what the estimate calls dry and a hand damp is said so, in plain words', () => {
  const recipe = { ...setupOf().recipe, moistureFrac: 0.38 };
  const noted = [note(20, { kind: 'squeeze', feel: 'holds' })];
  const all = play(setupOf('bran', { recipe, noted }), 24, () => 30);
  expect(all.say().condition).toMatch(
    /^It is drying out by the estimate \(\d\d % water\), though Ana’s squeeze 4 hours ago says it is damp enough\.$/,
  );
});

test('a hand that says too dry speaks for the estimate that says so as well', () => {
  const recipe = { ...setupOf().recipe, moistureFrac: 0.38 };
  const all = play(setupOf('bran', { recipe, noted: [note(20, crumbles)] }), 24, () => 30);
  expect(all.finding('drying').explainedBy).toBe('hand-dry');
  expect(all.say().condition).toMatch(
    /^Ana’s squeeze 4 hours ago says it is too dry; with that the estimate is 3\d % water\.$/,
  );
});
