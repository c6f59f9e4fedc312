/** A practice pile as a server would tell of a real one. */

import { saidOf } from '../../../../core/say/said.ts';
import type { Assessment } from '../../../../core/session/assessment.ts';
import { believedValues, detailView, doubtView, standView } from '../../../../core/session/assessment-view.ts';
import { limitsView } from '../../../../core/session/limits-view.ts';
import type { PileDetail, PositionNow } from '../../../../shared/contracts/piles.ts';
import { toInstant } from '../../../../shared/contracts/time.ts';
import type { Position } from '../../../../shared/names.ts';
import type { PracticeScenario } from '../../../../simulator/practice/scenarios/practice-scenario.ts';
import { isMarked } from './act-words.ts';
import type { DiaryEntry } from './diary.ts';
import { laidRecipe } from './laid-recipe.ts';
import type { PracticeAlarm } from './practice-judge.ts';
import { worded } from './worded.ts';

export interface PileFacts {
  readonly scenario: PracticeScenario;
  readonly startedAtMs: number;
  readonly assessment: Assessment;
  readonly alarms: readonly PracticeAlarm[];
  readonly diary: readonly DiaryEntry[];
}

export function practicePile(facts: PileFacts): PileDetail {
  const { scenario, startedAtMs, assessment, alarms, diary } = facts;
  return {
    id: scenario.id,
    name: scenario.id,
    site: 'practice',
    stage: scenario.stage,
    batch: { id: scenario.id, startedAt: toInstant(startedAtMs), ...worded(standView(assessment)) },
    positions: positionsNow(scenario, assessment),
    ...worded(saidOf(assessment, alarms)),
    alarms: [...alarms],
    recipe: laidRecipe(scenario),
    limits: worded(limitsView(scenario.stage, {})),
    acts: diary.flatMap((entry, i) =>
      entry.kind === 'act' && isMarked(entry.act.kind)
        ? [{ id: String(i), kind: entry.act.kind, at: toInstant(entry.atMs) }]
        : [],
    ),
    ...worded(detailView(assessment)),
  };
}

function positionsNow({ probes }: PracticeScenario, { positions }: Assessment): PileDetail['positions'] {
  const now: Partial<Record<Position, PositionNow>> = {};
  for (const { name, position } of probes) {
    const sight = positions[position];
    now[position] = {
      probe: name,
      ...believedValues(sight),
      ...(sight?.doubted && { temperatureC: sight.doubted.temperatureC }),
      ...doubtView(sight),
      ...(sight?.atMs != null && { at: toInstant(sight.atMs) }),
      silent: sight?.silent ?? true,
    };
  }
  return now;
}
