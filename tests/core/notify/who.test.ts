import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { giveUpAfterMs, isPast, pauseMs } from '../../../core/notify/backoff.ts';
import { type Candidate, firstStep, stepEscalation } from '../../../core/notify/escalation.ts';
import { siteSilence } from '../../../core/notify/site-silence.ts';
import { type Match, matchOf, type NotifyEvent, notifyAtMs } from '../../../core/notify/who.ts';
import { type Preferences, preferencesSchema, rankOf } from '../../../shared/notifications.ts';
import { severities, warningKinds } from '../../../shared/warning.ts';

const recipient = (preferences: Partial<Preferences>, isOwner = false) => ({
  personId: 'ada',
  isOwner,
  preferences: preferencesSchema.parse(preferences),
});
const tooHot: NotifyEvent = { about: 'alarm', kind: 'overheating', rank: rankOf('warning'), siteId: 'saltmere-yard' };
const fire: NotifyEvent = { ...tooHot, kind: 'self-heating', rank: rankOf('urgent') };
const disk: NotifyEvent = { about: 'server', kind: null, rank: rankOf('urgent'), siteId: null };

describe('matchOf()', () => {
  const rows: [string, Partial<Preferences>, boolean, NotifyEvent, Match][] = [
    ['no preference at all', {}, false, tooHot, 'matches'],
    ['just from its severity on', { fromSeverity: 'warning' }, false, tooHot, 'matches'],
    ['from the next severity on', { fromSeverity: 'urgent' }, false, tooHot, 'below-their-severity'],
    ['without its kind', { withoutKinds: ['overheating'] }, false, tooHot, 'not-this-kind'],
    ['without another kind', { withoutKinds: ['drying'] }, false, tooHot, 'matches'],
    ['its site alone', { sites: ['saltmere-yard'] }, false, tooHot, 'matches'],
    ['another site alone', { sites: ['hill-barn'] }, false, tooHot, 'not-their-site'],
    ['the hazard without its kind', { withoutKinds: ['self-heating'] }, false, fire, 'matches'],
    ['the hazard below their severity', { fromSeverity: 'danger' }, false, fire, 'matches'],
    ['the hazard at another site', { sites: [] }, false, fire, 'not-their-site'],
    ['trouble of the server, an owner', {}, true, disk, 'matches'],
    ['trouble of the server, somebody else', {}, false, disk, 'not-asked-for'],
    ['trouble of the server, somebody who asked', { installationTrouble: true }, false, disk, 'matches'],
    [
      'trouble of the server, an owner who does not want it',
      { installationTrouble: false },
      true,
      disk,
      'not-asked-for',
    ],
  ];
  for (const [what, preferences, isOwner, notifyEvent, answer] of rows) {
    test(`${what}: ${answer}`, () => {
      expect(matchOf(recipient(preferences, isOwner), notifyEvent)).toBe(answer);
    });
  }
});

describe('the self-heating hazard', () => {
  const preferences = fc.record({
    withoutKinds: fc.subarray([...warningKinds]),
    fromSeverity: fc.constantFrom(...severities),
    quiet: fc.option(
      fc
        .record({ fromMin: fc.integer({ min: 0, max: 1439 }), toMin: fc.integer({ min: 0, max: 1439 }) })
        .filter(({ fromMin, toMin }) => fromMin !== toMin), // preferences refuse the others
    ),
    timeZone: fc.constantFrom('UTC', 'Europe/Lisbon', 'Asia/Kathmandu'),
  });
  test('is told at once whatever kinds, severity and quiet hours somebody prefers', () => {
    fc.assert(
      fc.property(
        preferences,
        fc.integer({ min: 0, max: 2e12 }),
        fc.integer({ min: 0, max: 3 }),
        (preferred, nowMs, rank) => {
          const one = recipient(preferred);
          expect(matchOf(one, { ...fire, rank })).toBe('matches');
          expect(notifyAtMs(one, { ...fire, rank }, nowMs)).toBe(nowMs);
        },
      ),
    );
  });
});

test('tellAtMs() holds anything else until quiet hours end', () => {
  const one = recipient({ quiet: { fromMin: 22 * 60, toMin: 7 * 60 } });
  expect(notifyAtMs(one, tooHot, Date.UTC(2031, 5, 1, 21, 59))).toBe(Date.UTC(2031, 5, 1, 21, 59));
  expect(notifyAtMs(one, tooHot, Date.UTC(2031, 5, 1, 22))).toBe(Date.UTC(2031, 5, 2, 7));
});

describe('firstStep() and stepEscalation()', () => {
  const order = ['ada', 'bram', 'cleo'];
  const now = (personId: string): Candidate => ({ personId, notifyAtMs: 0 });
  const later = (personId: string): Candidate => ({ personId, notifyAtMs: 9e9 });
  const rows: [string, readonly Candidate[], boolean, string[], number][] = [
    ['the first of the order', [now('ada'), now('bram'), now('cleo')], false, ['ada'], 0],
    ['the first and whoever is not in it', [now('ada'), now('bram'), now('dora')], false, ['ada', 'dora'], 0],
    ['the second where the first has other preferences', [now('bram'), now('cleo')], false, ['bram'], 1],
    ['passes over quiet hours', [later('ada'), now('bram'), now('cleo')], false, ['ada', 'bram'], 1],
    ['all in quiet hours', [later('ada'), later('bram')], false, ['ada', 'bram'], 3],
    ['nobody', [], false, [], 3],
    ['everybody of a hazard', [now('ada'), now('bram'), now('cleo')], true, ['ada', 'bram', 'cleo'], 3],
  ];
  for (const [what, candidates, hazard, notified, place] of rows) {
    test(`firstStep(): ${what}`, () => {
      const step = firstStep(order, candidates, hazard, 0);
      expect([step.notified.map(({ personId }) => personId), step.next.step]).toEqual([notified, place]);
    });
  }

  const all = order.map(now);
  const minute = 60_000;
  const steps: [
    string,
    number,
    number,
    'unacknowledged' | 'acknowledged',
    boolean,
    readonly Candidate[],
    string,
    string[],
  ][] = [
    ['a minute early', 0, 14, 'unacknowledged', false, all, 'not-yet', []],
    ['just in time', 0, 15, 'unacknowledged', false, all, 'handed-on', ['bram']],
    ['acknowledged', 0, 15, 'acknowledged', false, all, 'acknowledged', []],
    ['suppressed', 0, 15, 'unacknowledged', true, all, 'acknowledged', []],
    ['to the last', 1, 15, 'unacknowledged', false, all, 'handed-on', ['cleo']],
    ['after the last', 2, 1500, 'unacknowledged', false, all, 'end-of-order', []],
    [
      'over somebody with other preferences',
      0,
      15,
      'unacknowledged',
      false,
      [now('ada'), now('cleo')],
      'handed-on',
      ['cleo'],
    ],
    ['with nobody left who wants to be notified', 0, 15, 'unacknowledged', false, [now('ada')], 'end-of-order', []],
  ];
  for (const [what, place, afterMin, state, suppressed, candidates, answer, notified] of steps) {
    test(`stepEscalation() ${what}: ${answer}`, () => {
      const step = stepEscalation(
        { step: place, atMs: 0 },
        { state, suppressed },
        order,
        candidates,
        15,
        afterMin * minute,
      );
      expect([step.answer, step.notified.map(({ personId }) => personId)]).toEqual([answer, notified]);
    });
  }

  test('walks through everybody once, and then ends', () => {
    fc.assert(
      fc.property(fc.uniqueArray(fc.string({ minLength: 1 }), { minLength: 1, maxLength: 8 }), (people) => {
        const candidates = people.map(now);
        const notified: string[] = [];
        let step = firstStep(people, candidates, false, 0);
        notified.push(...step.notified.map(({ personId }) => personId));
        for (let turn = 1; turn < 20; turn++) {
          const alarm = { state: 'unacknowledged' as const, suppressed: false };
          step = stepEscalation(step.next, alarm, people, candidates, 15, turn * 15 * minute);
          notified.push(...step.notified.map(({ personId }) => personId));
        }
        expect(notified).toEqual(people);
      }),
    );
  });
});

describe('siteSilence()', () => {
  const minute = 60_000;
  const probe = (heardMinAgo: number, everyMin: number) => ({
    heardAtMs: 1000 * minute - heardMinAgo * minute,
    intervalMs: everyMin * minute,
  });
  const rows: [string, ReturnType<typeof probe>[], string][] = [
    ['no probe', [], 'alone'],
    ['one probe', [probe(90, 10)], 'alone'],
    ['two that missed their turn', [probe(33, 10), probe(24, 10)], 'silent'],
    ['one that spoke lately', [probe(33, 10), probe(9, 10)], 'speaks'],
    ['one just within its turn and a half', [probe(33, 10), probe(15, 10)], 'speaks'],
    ['one just beyond it', [probe(33, 10), probe(15.1, 10)], 'silent'],
    ['a slow one whose turn has not come', [probe(33, 1), probe(50, 60)], 'speaks'],
    ['a quick one within five minutes', [probe(33, 1), probe(4, 1)], 'speaks'],
    ['one whose rhythm is not known', [probe(33, 10), probe(29, 0)], 'speaks'],
  ];
  for (const [what, probes, answer] of rows) {
    test(`${what}: ${answer}`, () => {
      expect(siteSilence(probes, 1000 * minute).answer).toBe(answer);
    });
  }
});

describe('pauseMs()', () => {
  test('grows from 5 s to a quarter of an hour, never less than half of it', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 100 }),
        fc.double({ min: 0, max: 1, maxExcluded: true, noNaN: true }),
        (tries, random) => {
          const whole = Math.min(900_000, 5_000 * 2 ** (tries - 1));
          expect(pauseMs(tries, random)).toBeGreaterThanOrEqual(whole / 2);
          expect(pauseMs(tries, random)).toBeLessThanOrEqual(whole);
        },
      ),
    );
  });
  test('ends after six hours', () => {
    expect([isPast(0, giveUpAfterMs - 1), isPast(0, giveUpAfterMs)]).toEqual([false, true]);
  });
});
