// "Has eased" and "is coming down" were said of cores that went on rising: of 34 in 41 simulated hot piles, just before "too hot".
import { describe, expect, test } from 'vitest';
import { type AlarmMachine, startAlarm, stepAlarm } from '../../../core/alarms/alarm.ts';
import { delaysOf } from '../../../core/alarms/policies.ts';
import { suppressorOf } from '../../../core/alarms/precedence.ts';
import { isStanding } from '../../../core/alarms/standing.ts';
import type { ExpectedBand } from '../../../core/expect/band.ts';
import { expectedBand } from '../../../core/expect/expected-band.ts';
import type { PileSetup } from '../../../core/profiles/pile-setup.ts';
import { sayCondition } from '../../../core/say/condition.ts';
import type { StandingAlarm } from '../../../core/say/saying.ts';
import { assess, startJudge, stepJudge } from '../../../core/session/judge.ts';
import { gradeOf } from '../../../core/warnings/finding.ts';
import { stageLimits } from '../../../shared/stage.ts';
import { msPerHour, msPerMinute } from '../../../shared/units.ts';
import { caseOf } from '../../bench/detect/case.ts';
import { purposeful } from '../../bench/detect/generators.ts';
import { inSentences, Played, play, setupOf, startMs, through } from '../helpers.ts';

const claimsFall = /\beased\b|coming down|rises no further/;

interface Said {
  readonly pile: string;
  readonly hour: number;
  readonly condition: string;
  /** Of the readings themselves: the hottest of the twelve hours before, one hour ago, and now [°C]. */
  readonly hottestC: number;
  readonly hourAgoC: number;
  readonly nowC: number;
}

/** Every sentence of a simulated pile, each ten minutes, with what its core probe had said by then. */
function sentencesOf(number: number, withBand: boolean): Said[] {
  const { scenario, readings } = caseOf(purposeful(number));
  const setup: PileSetup = {
    stage: scenario.stage,
    startedAtMs: scenario.startMs,
    limits: stageLimits[scenario.stage],
    recipe: { material: scenario.material, depthM: scenario.depthM, cover: scenario.cover },
    acts: [],
  };
  const state = startJudge(setup);
  const machines = new Map<string, { alarm: StandingAlarm; machine: AlarmMachine }>();
  const core: { atMs: number; tempC: number }[] = [];
  const air: { atMs: number; tempC: number }[] = [];
  const said: Said[] = [];
  let band: ExpectedBand | null = null;
  let next = 0;
  const endMs = scenario.startMs + 5 * 24 * msPerHour;
  for (let nowMs = scenario.startMs; nowMs < endMs; nowMs += 10 * msPerMinute) {
    if (withBand && (nowMs - scenario.startMs) % (24 * msPerHour) === 0)
      band = expectedBand(setup, air, nowMs + 48 * msPerHour);
    for (let reading = readings[next]; reading !== undefined && reading.atMs <= nowMs; reading = readings[next]) {
      next += 1;
      if (reading.quantity === 'temperature') {
        if (reading.position === 'core') core.push({ atMs: reading.atMs, tempC: reading.value });
        if (reading.position === 'air') air.push({ atMs: reading.atMs, tempC: reading.value });
      }
      stepJudge(state, setup, band, reading);
    }
    const assessment = assess(state, setup, band, nowMs);
    for (const finding of assessment.findings) {
      const { kind, position } = finding;
      const id = `${kind}/${position}`;
      const before = machines.get(id)?.machine ?? startAlarm(nowMs);
      const evidence = finding.explainedBy === null ? finding.evidence : 'missing';
      const { next: machine } = stepAlarm(before, evidence, nowMs, delaysOf(finding), gradeOf(finding));
      const alarm = {
        kind,
        position,
        state: machine.state,
        stands: isStanding(machine),
        suppressedBy: suppressorOf(finding),
      };
      machines.set(id, { alarm, machine });
    }
    const alarms = [...machines.values()].map(({ alarm }) => alarm);
    const { condition } = inSentences(sayCondition(assessment, alarms));
    const lately = core.filter(({ atMs }) => atMs > nowMs - 12 * msPerHour);
    said.push({
      pile: scenario.name,
      hour: (nowMs - scenario.startMs) / msPerHour,
      condition,
      hottestC: Math.max(...lately.map(({ tempC }) => tempC)),
      hourAgoC: core.findLast(({ atMs }) => atMs <= nowMs - msPerHour)?.tempC ?? Number.NaN,
      nowC: core.at(-1)?.tempC ?? Number.NaN,
    });
  }
  return said;
}

/** Those of the generator that are laid to run hot. */
const hotPiles = [7, 8, 29, 30, 51];

for (const withBand of [false, true]) {
  describe(`simulated piles that run hot, ${withBand ? 'with' : 'without'} an expected curve`, () => {
    const said = hotPiles.flatMap((number) => sentencesOf(number, withBand));
    test('a fall is claimed of cores that have fallen alone', () => {
      const claimed = said.filter(({ condition }) => /\beased\b|coming down/.test(condition));
      const false_ = claimed.filter(({ hottestC, hourAgoC, nowC }) => hottestC - nowC < 0.8 || nowC > hourAgoC + 0.3);
      expect(false_).toEqual([]);
    });
    test('a core that goes on rising is never said to rise no further', () => {
      const claimed = said.filter(({ condition }) => claimsFall.test(condition));
      expect(claimed.filter(({ hourAgoC, nowC }) => nowC > hourAgoC + 0.6)).toEqual([]);
    });
    test('they do get too hot, and are warned of before', () => {
      for (const words of ['It is too hot', 'It will soon be too hot'])
        expect(said.some(({ condition }) => condition.startsWith(words))).toBe(true);
    });
  });
}

const table: [string, (hour: number) => number, number, string][] = [
  // how the core went                                      until [h]  what is said while "soon too hot" stands
  ['fell by 3 °C', through([0, 22], [40, 47], [44, 44]), 44, 'It was on its way to being too hot and has eased: '],
  ['fell by 1.5 °C', through([0, 22], [40, 47], [43, 45.5]), 43, 'It was on its way to being too hot and has eased: '],
  ['fell by 0.5 °C', through([0, 22], [40, 47], [43, 46.5]), 43, 'It was on its way to being too hot and rises no '],
  ['holds', through([0, 22], [40, 47], [46, 47]), 46, 'It was on its way to being too hot and rises no further'],
  ['fell and rises again', through([0, 22], [40, 47], [44, 44], [46, 45.5]), 46, 'It still rises, though it may '],
  ['creeps up', through([0, 22], [36, 46], [46, 48]), 46, 'It still rises, though it may level off'],
  [
    'has just reached the limit',
    through([0, 22], [40, 49.7]),
    40,
    'It has just reached 50 °C: the core is at 49.7 °C.',
  ],
  ['has just passed it', through([0, 22], [40, 50.8]), 40, 'It has just passed 50 °C: the core is at '],
];
for (const [how, core, hours, words] of table) {
  test(`sayCondition() of one on its way to being too hot that ${how}: ${words}`, () => {
    const { last } = play(setupOf(), hours, core);
    if (last === null) throw new Error('never looked at');
    const findings = last.findings.filter(({ kind }) => kind !== 'overheating-soon' && kind !== 'overheating');
    const alarm = { kind: 'overheating-soon', position: null, state: 'unacknowledged', stands: true } as const;
    expect(inSentences(sayCondition({ ...last, findings }, [alarm])).condition).toContain(words);
  });
}

test('a warning of heat to come stays while it has come true, suppressed by the graver one, and ends after the fall', () => {
  const all = play(setupOf(), 60, through([0, 22], [24, 44], [30, 50], [36, 53], [44, 44], [60, 42]));
  const soon = all.events.filter(({ kind }) => kind === 'overheating-soon');
  expect(soon.map(({ arrow }) => arrow)).toEqual(['raised', 'returned']);
  expect(soon[1]?.hour).toBeGreaterThan(38);
  const hot = play(setupOf(), 36, through([0, 22], [24, 44], [30, 50], [36, 53]));
  expect([hot.stateOf('overheating-soon'), suppressorOf(hot.finding('overheating-soon'))]).toEqual([
    'unacknowledged',
    'overheating',
  ]);
});

test('a warning of heat to come does not end while the core still creeps up near its limit', () => {
  const all = play(setupOf(), 56, through([0, 22], [30, 46], [33, 47.6], [56, 49]));
  const soon = all.events.filter(({ kind }) => kind === 'overheating-soon');
  expect(soon.map(({ arrow }) => arrow)).toEqual(['raised']);
  expect(all.say().condition).toMatch(/rising|rises/);
});

test('sayCondition() of a pile whose top was too hot names the place that is hottest, and not a core that rises', () => {
  const played = new Played(setupOf());
  for (let minute = 0; minute <= 600; minute += 10) {
    const atMs = startMs + minute * msPerMinute;
    const topC = minute < 580 ? 46 + minute / 100 : 45;
    played.feed('air', 20 + 0.05 * Math.sin(minute), atMs);
    played.feed('core', 36 + minute / 100, atMs);
    played.feed('top', topC, atMs);
    played.lookUntil(atMs);
  }
  expect(played.raised()).toEqual(['overheating/null']);
  expect(played.say().condition).toBe('It was too hot, and no probe shows it now: the top is at 45 °C.');
});
