/**
 * A whole practice run without a page: the pile, its probes, and the judge of real piles over what they say.
 */
import { describe, expect, test } from 'vitest';
import { pileDetailSchema } from '../../shared/contracts/piles.ts';
import { seriesAnswerSchema } from '../../shared/contracts/series.ts';
import { plainEnglish } from '../../shared/messages/render.ts';
import { squeezed } from '../../simulator/practice/hand-check.ts';
import { practiceScenarios } from '../../simulator/practice/practice-scenarios.ts';
import { forgotten } from '../../simulator/practice/scenarios/forgotten.ts';
import { hotWeek } from '../../simulator/practice/scenarios/hot-week.ts';
import { probeOut } from '../../simulator/practice/scenarios/probe-out.ts';
import { laidRecipe } from '../../web/src/features/practice/laid-recipe.ts';
import { openSession } from '../../web/src/features/practice/practice-session.ts';

describe('openSession()', () => {
  for (const scenario of practiceScenarios) {
    test(`${scenario.id}: its first frame keeps the contracts of a real pile, with a sentence and numbers`, () => {
      const { pile, series, ended } = openSession(scenario, 1).frame();
      expect(pileDetailSchema.parse(pile).condition).toMatch(/^[A-Z].*\.$/);
      expect(seriesAnswerSchema.parse(series).positions.core?.temperatureC?.length).toBeGreaterThan(0);
      expect(pile.positions.core?.temperatureC).toBeTypeOf('number');
      expect(ended).toBe(false);
    });
  }

  test('time stops at the warning that heat is coming, and the sentence says what to do', () => {
    const session = openSession(hotWeek, 1);
    const { frame, raised } = session.advance(hotWeek.hours);
    expect(raised.map(({ kind }) => kind)).toEqual(['overheating-soon']);
    expect(frame.ended).toBe(false);
    expect(frame.pile.tone).toBe('act');
    expect(frame.diary.at(-1)).toMatchObject({ kind: 'warning', alarm: { kind: 'overheating-soon', position: null } });
  });

  test('an act is in the diary, on the chart, and in what is expected from there on', () => {
    const session = openSession(hotWeek, 1);
    session.advance(30);
    const before = session.frame();
    const { frame, answer } = session.act({ kind: 'spread', depthM: 0.2 });
    expect(answer.done).toBe(true);
    expect(frame.diary.at(-1)).toMatchObject({ kind: 'act', act: { kind: 'spread', depthM: 0.2 } });
    expect(frame.pile.acts.map(({ kind }) => kind)).toEqual(['spread']);
    expect(frame.seen.depthM).toBeLessThan(before.seen.depthM);
    const origin = (of: typeof frame) => of.series.expected.origin;
    expect(origin(frame)).not.toBe(origin(before));
  });

  test('what hand and nose find is shown, and leaves no mark on the chart', () => {
    const session = openSession(hotWeek, 1);
    const { frame, answer } = session.act({ kind: 'squeeze' });
    expect(answer.found && plainEnglish(answer.found)).toMatch(/drops/);
    expect(frame.diary.at(-1)).toMatchObject({ act: { kind: 'squeeze' }, found: answer.found });
    expect(frame.pile.acts).toEqual([]);
  });

  test('the judge hears what a squeezed hand felt, as of a real pile', () => {
    const fan = practiceScenarios.find(({ id }) => id === 'fan-left-on');
    if (!fan) throw new Error('no fan-left-on');
    const [left, squeezed] = [openSession(fan, 1), openSession(fan, 1)];
    for (const session of [left, squeezed]) session.advance(12);
    squeezed.act({ kind: 'squeeze' });
    const doubt = (session: typeof left) => session.advance(2).frame.pile.batch?.moisture?.sdFrac ?? Number.NaN;
    expect(doubt(squeezed)).toBeLessThan(doubt(left));
  });

  test('where the core goes in the next day is told for the chart, and how likely it is to pass its limit', () => {
    const session = openSession(hotWeek, 1);
    const { series, pile } = session.advance(hotWeek.hours).frame;
    expect(series.forecast?.points).toHaveLength(24);
    expect(pile.judgement?.overLimit?.likelihood).toBeGreaterThan(0.5);
    expect(pile.judgement?.readiness.points.length).toBeGreaterThan(2);
  });

  test('what was said while nobody was there has been judged before anybody comes', () => {
    const session = openSession(probeOut, 1);
    const { diary, series, afterH, pile } = session.frame();
    expect(afterH).toBe(probeOut.awayUntilH);
    expect(diary.map(({ kind }) => kind)).toContain('away');
    expect(Date.parse(series.to) - Date.parse(series.from)).toBe(probeOut.awayUntilH * 3_600_000);
    expect(pile.batch?.progress).toBeGreaterThan(5);
    const heard = [...pile.alarms, ...session.advance(6).raised].map(({ kind }) => kind);
    expect(heard).toContain('probe-out');
  });

  test('an acknowledged warning stands, acknowledged', () => {
    const session = openSession(hotWeek, 1);
    const id = session.advance(hotWeek.hours).raised[0]?.id ?? '';
    expect(session.acknowledge(id).pile.alarms.find((alarm) => alarm.id === id)?.state).toBe('acknowledged');
  });

  test('nothing of the hidden truth is in a frame', () => {
    const text = JSON.stringify(openSession(forgotten, 1).advance(2).frame);
    for (const hidden of ['aliveFrac', 'layers', 'oxygen', 'workFrac', 'hottestC', 'lesson', 'example'])
      expect(text).not.toContain(`"${hidden}`);
  });

  test('saying that it is done ends the run at once', () => {
    const session = openSession(hotWeek, 1);
    session.advance(1);
    expect(session.act({ kind: 'finish' }).frame.ended).toBe(true);
    expect(session.debrief().score.parts.length).toBeGreaterThan(3);
  });
});

describe('squeezed()', () => {
  // The model's own borders between its four answers.
  const rows: [number, string][] = [
    [0.47, 'crumbles'],
    [0.49, 'holds'],
    [0.56, 'holds'],
    [0.58, 'drips'],
    [0.67, 'drips'],
    [0.69, 'pours'],
  ];
  for (const [moistureFrac, feel] of rows)
    test(`squeezed() of a bed at ${moistureFrac}: ${feel}`, () => expect(squeezed({ moistureFrac })).toBe(feel));
});

test('laidRecipe() of 70 kg of bran mixed to 60 % water: 70 · 0.88 / 0.4 = 154 kg in all', () => {
  expect(laidRecipe(hotWeek)).toMatchObject({ massKg: 154, moistureFrac: 0.6, material: 'wheat-bran' });
});
