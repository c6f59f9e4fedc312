/** A practice pile as a server would tell of a real one. */

import { sayCondition } from '../../../../core/say/condition.ts';
import type { Assessment } from '../../../../core/session/assessment.ts';
import { evidenceView, judgementView, toldDoubt } from '../../../../core/session/assessment-view.ts';
import { toldHeat } from '../../../../core/session/told-heat.ts';
import type { AlarmSummary, PileDetail, PositionNow } from '../../../../shared/contracts/piles.ts';
import { toInstant } from '../../../../shared/contracts/time.ts';
import { originTexts } from '../../../../shared/messages/made/en/origin.ts';
import { type Message, verbatim } from '../../../../shared/messages/message.ts';
import { plainly, rendererOf } from '../../../../shared/messages/renderer.ts';
import type { Position, Stage } from '../../../../shared/names.ts';
import { limitOrigins, type StageLimits } from '../../../../shared/stage.ts';
import type { PracticeScenario } from '../../../../simulator/practice/scenarios/practice-scenario.ts';
import { renderPile } from '../../ui/format/render-pile.ts';
import { renderPhase } from '../pile/phase-words.ts';
import type { DiaryEntry } from './diary.ts';
import { laidRecipe } from './laid-recipe.ts';

export interface PileFacts {
  readonly scenario: PracticeScenario;
  readonly startedAtMs: number;
  readonly limits: StageLimits;
  readonly assessment: Assessment;
  readonly alarms: readonly AlarmSummary[];
  readonly diary: readonly DiaryEntry[];
}

export function practicePile(facts: PileFacts): PileDetail {
  const { scenario, startedAtMs, limits, assessment, alarms, diary } = facts;
  return {
    id: scenario.id,
    name: scenario.name,
    site: 'practice',
    stage: scenario.stage,
    batch: {
      id: scenario.id,
      startedAt: toInstant(startedAtMs),
      progress: Math.min(100, Math.max(0, assessment.progressPct)),
      phase: assessment.phase,
      phaseReason: assessment.phaseReason,
      ...(assessment.moisture && { moisture: assessment.moisture }),
      heat: toldHeat(assessment.heat, assessment.limits, plainly(renderPhase)),
    },
    positions: positionsNow(scenario, assessment),
    ...said(assessment, alarms),
    alarms: [...alarms],
    recipe: laidRecipe(scenario),
    assumed: [...assessment.assumed],
    limits: limitsOf(scenario.stage, limits),
    acts: diary.flatMap(({ atMs, mark }, i) =>
      mark === undefined ? [] : [{ id: String(i), kind: mark, at: toInstant(atMs) }],
    ),
    evidence: evidenceView(assessment),
    judgement: judgementView(assessment),
  };
}

function said(
  assessment: Assessment,
  alarms: readonly AlarmSummary[],
): Pick<PileDetail, 'condition' | 'next' | 'messages' | 'tone'> {
  const standing = alarms.map((alarm) => ({ ...alarm, todo: verbatim(alarm.todo) }));
  const { condition, next, tone } = sayCondition(assessment, standing);
  const plain = (message: Message) => plainly(renderPile)(message, assessment.atMs);
  return { condition: plain(condition), next: plain(next), messages: { condition, next }, tone };
}

const sayOrigin = plainly(rendererOf(originTexts));

/** Those the page speaks of: where to act, and the water wanted. */
function limitsOf(stage: Stage, limits: StageLimits): PileDetail['limits'] {
  const limit = (key: keyof StageLimits, unit: string) => {
    const origin = limitOrigins[stage][key];
    return { value: limits[key], unit, origin: sayOrigin(origin), messages: { origin } };
  };
  return {
    actC: limit('actC', '°C'),
    lossC: limit('lossC', '°C'),
    moistureMinFrac: limit('moistureMinFrac', '-'),
    moistureMaxFrac: limit('moistureMaxFrac', '-'),
  };
}

function positionsNow({ probes }: PracticeScenario, { positions }: Assessment): PileDetail['positions'] {
  const now: Partial<Record<Position, PositionNow>> = {};
  for (const { name, position } of probes) {
    const sight = positions[position];
    now[position] = {
      probe: name,
      ...(sight?.temperatureC != null && { temperatureC: sight.doubted?.temperatureC ?? sight.temperatureC }),
      ...toldDoubt(sight),
      ...(sight?.humidityPct != null && { humidityPct: sight.humidityPct }),
      ...(sight?.atMs != null && { at: toInstant(sight.atMs) }),
      silent: sight?.silent ?? true,
    };
  }
  return now;
}
