/** Every practice pile from its story to its debrief, as whoever reads °C and whoever reads °F sees it. */
import type { VNode } from 'preact';
import { render as toText } from 'preact-render-to-string';
import { afterEach, beforeAll, describe, expect, test, vi } from 'vitest';
import { plainEnglish } from '../../shared/messages/render.ts';
import { practiceScenarios } from '../../simulator/practice/practice-scenarios.ts';
import type { PracticeScenario } from '../../simulator/practice/scenarios/practice-scenario.ts';
import { OwnTime } from '../../web/src/data/live/use-installation.ts';
import { changePrefs } from '../../web/src/data/prefs.ts';
import { DebriefView } from '../../web/src/features/practice/debrief-view.tsx';
import { Opening } from '../../web/src/features/practice/opening.tsx';
import { type Frame, openSession, type Session } from '../../web/src/features/practice/practice-session.ts';
import { practiceReader } from '../../web/src/features/practice/practice-time.ts';
import { newRun } from '../../web/src/features/practice/run-state.ts';
import { ScenarioList } from '../../web/src/features/practice/scenario-list.tsx';
import { Tending } from '../../web/src/features/practice/tending.tsx';

beforeAll(() => {
  // Which shade the device likes is not read here.
  vi.stubGlobal('matchMedia', () => ({ matches: false }));
});
afterEach(() => changePrefs({ unit: 'C' }));

/** What is read and what is heard, element by element, without markup and without the figures of axes. */
function readIn(unit: 'C' | 'F', page: VNode): string[] {
  changePrefs({ unit });
  return toText(page)
    .replace(/ aria-(?:label|valuetext)="([^"]*)"[^>]*>/g, '>$1|')
    .replace(/<\/?(?:b|a)\b[^>]*>/g, '')
    .replace(/<[^>]*>/g, '|')
    .replaceAll('\u00a0', ' ')
    .split('|')
    .map((text) => text.trim())
    .filter((text) => text !== '' && !/^[−-]?\d+°?$/.test(text));
}

const temperature = /([−-]?\d+(?:\.\d+)?) °([CF])/g;
const figures = /[−-]?\d+(?:\.\d+)?/g;

/** In which words a difference stands, whatever they are made of. */
const differenceBefore = /\b(?:by|within(?: about)?|more than|left the core|up to)\s$/;
const differenceAfter = /^(?: and more)? (?:warmer|cooler|above the air|away from|of the air|of \d|an hour|apart)/;

interface Read {
  readonly degrees: number;
  readonly isDifference: boolean;
  readonly around: string;
}

function temperaturesIn(text: string): Read[] {
  return [...text.matchAll(temperature)].map(({ 0: all, 1: degrees, index }) => {
    const [before, after] = [text.slice(0, index), text.slice(index + all.length)];
    return {
      degrees: Number(degrees?.replace('−', '-')),
      isDifference: differenceAfter.test(after) || (differenceBefore.test(before) && !/lay at .* up to $/.test(before)),
      around: `${before.slice(-60)}${all}${after.slice(0, 40)}`,
    };
  });
}

/** @returns How many temperatures and how many differences were read alike in both units. */
function compare(page: VNode): { temperatures: number; differences: number } {
  const [inC, inF] = [readIn('C', page), readIn('F', page)];
  expect(inF.filter((text) => text.includes('°C'))).toEqual([]);
  // A message whose text the page has not is shown as its code.
  const codes = /\b(?:page-)?(?:practice|caution|squeeze|laid|material|condition|why|warnings)\.[a-z]/;
  expect(inC.filter((text) => codes.test(text))).toEqual([]);
  // The words are the same, and the places of figures in them.
  const words = (texts: readonly string[]) => texts.map((text) => text.replace(figures, '#').replaceAll(/°[CF]/g, '°'));
  expect(words(inF)).toEqual(words(inC));
  const [read, readF] = [inC.flatMap(temperaturesIn), inF.flatMap(temperaturesIn)];
  for (const [i, { degrees, isDifference, around }] of read.entries()) {
    const wanted = isDifference ? 1.8 * degrees : 1.8 * degrees + 32;
    // Both are rounded to whole degrees at the coarsest.
    expect([around, Math.abs((readF[i]?.degrees ?? Number.NaN) - wanted) <= 1.5]).toEqual([around, true]);
  }
  return {
    temperatures: read.filter(({ isDifference }) => !isDifference).length,
    differences: read.filter(({ isDifference }) => isDifference).length,
  };
}

const inItsTime = (frame: Frame, page: VNode) => (
  <OwnTime.Provider value={{ nowMs: frame.atMs, reader: practiceReader(frame.startedAtMs) }}>{page}</OwnTime.Provider>
);

function debriefOf(scenario: PracticeScenario, session: Session): VNode {
  const frame = session.frame();
  const run = { ...newRun(scenario.id, 1), stage: 'over' as const, frame };
  return inItsTime(frame, <DebriefView scenario={scenario} run={run} frame={frame} debrief={session.debrief()} />);
}

describe('the practice page reads the same in °C and °F, each temperature as one and each difference as one', () => {
  test('the list of piles', () => expect(compare(<ScenarioList />).temperatures).toBeGreaterThan(0));

  test.each(practiceScenarios.map((scenario) => [scenario.id, scenario] as const))(
    '%s: its story, its first warning, and its debrief left alone and tended',
    { timeout: 240_000 },
    (_id, scenario) => {
      expect(compare(<Opening scenario={scenario} />).temperatures).toBeGreaterThanOrEqual(2);

      const alone = openSession(scenario, 1);
      let { frame, raised } = alone.advance(scenario.hours);
      const run = { ...newRun(scenario.id, 1), stage: 'tending' as const, frame, stoppedBy: raised.at(-1) ?? null };
      compare(inItsTime(frame, <Tending scenario={scenario} run={run} frame={frame} />));
      while (!frame.ended) ({ frame, raised } = alone.advance(scenario.hours));
      compare(debriefOf(scenario, alone));

      const tended = openSession(scenario, 1);
      for (const { afterH, act } of scenario.example) {
        for (let now = tended.frame(); now.afterH < afterH; ) now = tended.advance(afterH - now.afterH).frame;
        const { frame: now, answer } = tended.act(act);
        const answered = { ...run, frame: now, stoppedBy: null, answer: { ...answer, act } };
        compare(inItsTime(now, <Tending scenario={scenario} run={answered} frame={now} />));
      }
      for (let now = tended.frame(); !now.ended; ) now = tended.advance(scenario.hours).frame;
      const { differences } = compare(debriefOf(scenario, tended));
      // What an act did to the core is a difference.
      expect(differences).toBeGreaterThan(0);
    },
  );
});

test('the goal of every practice pile says all that is asked for', () => {
  for (const { id, goal } of practiceScenarios) {
    const says = plainEnglish(goal.says);
    const percents = [goal.aliveFracMin, goal.workFracMin, goal.moistureFracMin, goal.moistureFracMax];
    for (const frac of percents)
      if (frac !== undefined) expect([id, says]).toEqual([id, expect.stringContaining(`${Math.round(100 * frac)} %`)]);
    if (goal.hoursAbove50Max !== undefined)
      expect(says).toContain(`${goal.hoursAbove50Max} h with any layer above 50 °C`);
    if (goal.endedWithinH !== undefined) expect(says).toContain(`within ${goal.endedWithinH} hours`);
  }
});
