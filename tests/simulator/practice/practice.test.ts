import { describe, expect, test } from 'vitest';
import { givenRecipeSchema } from '../../../shared/contracts/domain/batch.ts';
import { type Message, message } from '../../../shared/messages/message.ts';
import { plainEnglish } from '../../../shared/messages/render.ts';
import { namePattern } from '../../../shared/names.ts';
import { createPractice, type Practice } from '../../../simulator/practice/practice.ts';
import { practiceScenarios } from '../../../simulator/practice/practice-scenarios.ts';
import { hotWeek } from '../../../simulator/practice/scenarios/hot-week.ts';
import type { PracticeAct, PracticeScenario } from '../../../simulator/practice/scenarios/practice-scenario.ts';
import { probeOut } from '../../../simulator/practice/scenarios/probe-out.ts';
import { tooWet } from '../../../simulator/practice/scenarios/too-wet.ts';
import { whenToStop } from '../../../simulator/practice/scenarios/when-to-stop.ts';
import { doneAtH } from '../../../simulator/practice/score.ts';

const says = (said: Message | undefined) => said && plainEnglish(said);

function play(
  scenario: PracticeScenario,
  seed: number,
  acts: readonly { afterH: number; act: PracticeAct }[],
): Practice {
  const practice = createPractice(scenario, seed);
  for (const { afterH, act } of acts) {
    practice.advance(Math.max(0, afterH - practice.view().afterH));
    expect(practice.act(act).done, `${scenario.id}: ${act.kind}`).toBe(true);
  }
  practice.advance(1000);
  return practice;
}

describe('practice scenarios', () => {
  test('there are eight, each with a story, a goal, a lesson and weights that add up to 100', () => {
    expect(practiceScenarios).toHaveLength(8);
    expect(new Set(practiceScenarios.map(({ id }) => id)).size).toBe(8);
    for (const { id, story, goal, lesson, weights } of practiceScenarios) {
      expect(id).toMatch(namePattern);
      for (const said of [story, goal.says, lesson]) expect(plainEnglish(said).length).toBeGreaterThan(40);
      expect(Object.values(weights).reduce((sum, points) => sum + points, 0)).toBe(100);
    }
  });
  for (const scenario of practiceScenarios) {
    test(`${scenario.id}: what the grower gives fits the recipe a real batch takes`, () => {
      expect(givenRecipeSchema.safeParse(scenario.given).success).toBe(true);
    });
    for (const seed of [1, 2, 3]) {
      test(`${scenario.id}, seed ${seed}: left alone it misses its goal, tended as its example it reaches it`, () => {
        const alone = play(scenario, seed, []).debrief().score;
        const tended = play(scenario, seed, scenario.example).debrief().score;
        expect(alone.goalReached).toBe(false);
        expect(alone.missed.length).toBeGreaterThan(0);
        expect(tended.missed).toEqual([]);
        expect(tended.goalReached).toBe(true);
        expect(tended.points).toBeGreaterThanOrEqual(90);
        expect(alone.points).toBeLessThan(tended.points - 20);
      });
    }
  }
});

describe('createPractice()', () => {
  test('createPractice() with the same seed and the same acts goes the same way', () => {
    expect(play(hotWeek, 7, hotWeek.example).debrief()).toEqual(play(hotWeek, 7, hotWeek.example).debrief());
  });
  test('createPractice() gives only plain data, fit for a worker to post', () => {
    const practice = play(hotWeek, 1, hotWeek.example);
    const debrief = practice.debrief();
    expect(structuredClone(debrief)).toEqual(debrief);
    expect(structuredClone(practice.view())).toEqual(practice.view());
    expect(JSON.parse(JSON.stringify(practice.scenario))).toEqual(practice.scenario);
  });
  test('advance() gives readings of all probes in order of time, none twice, and nothing after the end', () => {
    const practice = createPractice(hotWeek, 1);
    const readings = [...practice.advance(10).readings, ...practice.advance(10).readings];
    expect(readings.length).toBe(20 * 6 * 6);
    const keys = readings.map(({ probe, quantity, atMs }) => `${probe} ${quantity} ${atMs}`);
    expect(new Set(keys).size).toBe(keys.length);
    readings.forEach(({ atMs }, i) => {
      if (i > 0) expect(atMs).toBeGreaterThanOrEqual(readings[i - 1]?.atMs ?? 0);
    });
    practice.advance(1000);
    expect(practice.view()).toMatchObject({ ended: true, afterH: hotWeek.hours });
    expect(practice.advance(5).readings).toEqual([]);
    expect(practice.act({ kind: 'turn' })).toMatchObject({ done: false, found: message('practice.refused.over') });
  });
  test('createPractice() of a pile that was left alone has what its probes said meanwhile', () => {
    const practice = createPractice(probeOut, 1);
    expect(practice.view().afterH).toBe(probeOut.awayUntilH);
    expect(practice.earlier.length).toBe(probeOut.awayUntilH * 6 * 6);
  });
  test('act() refuses what the scenario has no tool for', () => {
    expect(createPractice(hotWeek, 1).act({ kind: 'fan-off' }).done).toBe(false);
  });
  test('act() says the caution that belongs to it', () => {
    const practice = createPractice(hotWeek, 1);
    expect(says(practice.act({ kind: 'turn' }).caution)).toMatch(/[Mm]ask/);
    expect(practice.act({ kind: 'shade' }).caution).toBeUndefined();
  });
  test('acts() keeps what a journal would: turns, waterings with litres, depths', () => {
    const practice = createPractice(tooWet, 1);
    practice.act({ kind: 'turn' });
    practice.act({ kind: 'water', litres: 3 });
    practice.act({ kind: 'spread', depthM: 0.2 });
    practice.act({ kind: 'squeeze' });
    expect(practice.acts().map(({ kind, amountL, depthM }) => [kind, amountL, depthM])).toEqual([
      ['turned', undefined, undefined],
      ['watered', 3, undefined],
      ['spread', undefined, 0.2],
    ]);
  });
});

describe('hand checks', () => {
  test('squeeze tells too wet from right, and drier once dry bran is in', () => {
    const practice = createPractice(tooWet, 1);
    expect(says(practice.act({ kind: 'squeeze' }).found)).toMatch(/too wet/);
    practice.act({ kind: 'add-dry-bran', massKg: 25 });
    expect(says(practice.act({ kind: 'squeeze' }).found)).toMatch(/two or three drops: right/);
  });
  test('look-and-smell finds the sour layer without air, and white all through when it is done', () => {
    const wet = createPractice(tooWet, 1);
    wet.advance(48);
    expect(says(wet.act({ kind: 'look-and-smell' }).found)).toMatch(/sour/);
    const good = createPractice(whenToStop, 1);
    expect(says(good.act({ kind: 'look-and-smell' }).found)).toMatch(/nothing is white yet/);
    good.advance(110);
    expect(says(good.act({ kind: 'look-and-smell' }).found)).toMatch(/White all through/);
  });
  test('reseat-probe finds the probe that lies outside, and only that one', () => {
    const practice = createPractice(probeOut, 1);
    const lastOf = (probe: string) =>
      practice
        .advance(2)
        .readings.filter((r) => r.probe === probe && r.quantity === 'temperature')
        .at(-1)?.value ?? Number.NaN;
    expect(lastOf('core')).toBeLessThan(35);
    expect(says(practice.act({ kind: 'reseat-probe', probe: 'top' }).found)).toMatch(/sits where it should/);
    expect(says(practice.act({ kind: 'reseat-probe', probe: 'core' }).found)).toMatch(/back in its place/);
    expect(lastOf('core')).toBeGreaterThan(42);
  });
});

describe('debrief()', () => {
  test('debrief() shows every hour of every layer, and what the probes said', () => {
    const { truth, readings } = play(hotWeek, 1, []).debrief();
    expect(truth.map(({ afterH }) => afterH)).toEqual(Array.from({ length: hotWeek.hours + 1 }, (_, hour) => hour));
    for (const { layers } of truth) expect(layers).toHaveLength(5);
    expect(readings.length).toBe(hotWeek.hours * 6 * 6);
  });
  test('debrief() tells what spreading did: later it is cooler, and more of the culture lives', () => {
    const { acts } = play(hotWeek, 1, hotWeek.example).debrief();
    const spread = acts.find(({ act }) => act.kind === 'spread');
    expect(spread?.atEnd.went.aliveFrac ?? 0).toBeGreaterThan((spread?.atEnd.without.aliveFrac ?? 1) + 0.05);
    expect(says(spread?.did)).toMatch(/more of the culture alive/);
  });
  test('debrief() of an act that changed nothing says so', () => {
    const { acts } = play(whenToStop, 1, [{ afterH: 20, act: { kind: 'cover', cover: 'breathable' } }]).debrief();
    expect(says(acts[0]?.did)).toBe('It made hardly any difference.');
    expect(acts[0]?.soon.without).toEqual(acts[0]?.soon.went);
  });
  test('debrief() adds up its parts, and each part says why', () => {
    const { score } = play(hotWeek, 1, []).debrief();
    expect(score.parts.reduce((sum, { points }) => sum + points, 0)).toBe(score.points);
    for (const { why, points, outOf } of score.parts) {
      expect(plainEnglish(why).length).toBeGreaterThan(15);
      expect(points).toBeLessThanOrEqual(outOf);
    }
  });
  test('debrief() of the batch ended too soon, in time and too late', () => {
    const endedAt = (afterH: number) =>
      play(whenToStop, 1, [{ afterH, act: { kind: 'finish' } }])
        .debrief()
        .score.parts.find(({ of }) => of === 'ending');
    expect(says(endedAt(40)?.why)).toMatch(/before it was done/);
    const done = doneAtH(play(whenToStop, 1, []).debrief().truth) ?? 0;
    expect(done).toBeGreaterThan(80);
    expect(endedAt(done + 3)?.points).toBe(40);
    expect(endedAt(done + 60)?.points).toBe(0);
    expect(says(endedAt(done + 60)?.why)).toMatch(/it only dried meanwhile/);
  });
});
