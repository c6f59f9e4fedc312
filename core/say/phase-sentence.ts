/**
 * core/say/phase-sentence.ts: how a pile is that nothing warns of, by where it is in its heat.
 *
 * Takes:  an assessment whose core is measured and believed.
 * Gives:  the sentence and the next step.
 * Never:  says of a pile that it has not warmed when it is warm: it may have been laid so.
 */
import type { Assessment } from '../judge/assessment.ts';
import { warmExcessK } from '../score/phase.ts';
import type { AlarmFacts, Saying } from './saying.ts';

export function phaseSentence(assessment: Assessment, facts: AlarmFacts): Saying {
  const { temp, steps } = facts;
  const coreC = assessment.positions.core?.temperatureC ?? 0;
  const core = temp(coreC);
  const aboveK = assessment.airC === null ? null : coreC - assessment.airC;
  const above = aboveK !== null && aboveK >= 2 ? `, ${steps(aboveK)} above the air` : '';
  const { actC, comfortMinC, comfortMaxC } = assessment.limits;
  const calm = (condition: string, next: string): Saying => ({ condition, next, tone: 'calm' });

  if (coreC > actC) {
    return {
      condition: `The core has just passed ${temp(actC)}: it is at ${core}.`,
      next: 'Look again in half an hour; if it is still above, turn it or spread it thinner.',
      tone: 'watch',
    };
  }
  switch (assessment.phase) {
    case 'resting':
      return restingSentence(assessment, coreC, facts);
    case 'warming':
      return calm(
        `It is warming${assessment.againstExpected === 'above' ? ' faster than such a pile usually does' : ''}: the core is at ${core}${above}.`,
        `Leave it; look again before it comes near ${temp(actC)}.`,
      );
    case 'active':
      if (coreC > comfortMaxC) {
        return {
          condition: `It is working hard: the core is at ${core}, near the ${temp(actC)} at which to act.`,
          next: 'Look again in an hour or two, and be ready to turn it or spread it thinner.',
          tone: 'watch',
        };
      }
      return coreC >= comfortMinC
        ? calm(`It is working well: the core is at ${core}${above}.`, 'Leave it working.')
        : calm(`It is working gently: the core is at ${core}${above}.`, 'Leave it working; see that it stays covered.');
    case 'cooling':
      return calm(
        `Its heat is passing: the core is down to ${core}${above}.`,
        assessment.progressPct >= 90
          ? 'Let it come down near the air; then turn it once and see whether it warms again.'
          : 'Leave it covered; a second warming may follow.',
      );
    case 'settled':
      return calm(
        `Its heat has come and gone: the core is at ${core}, near the air.`,
        'Smell it and look at it: only your nose and eyes can say whether it is done.',
      );
  }
}

/** Nothing has risen by itself yet; but a pile may be laid warm, or its first warmth may have faded. */
function restingSentence(assessment: Assessment, coreC: number, { temp, steps }: AlarmFacts): Saying {
  const core = temp(coreC);
  const { actC, comfortMaxC } = assessment.limits;
  const airC = assessment.airC ?? assessment.positions.air?.temperatureC ?? null;
  // Unmeasured air is taken as the judge takes it.
  const aboveK = coreC - (airC ?? Math.min(coreC, 25));
  const isWarm = aboveK >= warmExcessK;
  const above = airC !== null && aboveK >= 2 ? `, ${steps(aboveK)} above the air` : '';
  const isLate = assessment.againstExpected === 'below';
  if (isWarm && coreC > comfortMaxC) {
    return {
      condition: `It is hot already: the core is at ${core}, near the ${temp(actC)} at which to act.`,
      next: 'Look again in an hour or two, and be ready to turn it or spread it thinner.',
      tone: 'watch',
    };
  }
  if (isLate) {
    return {
      condition: isWarm
        ? `It does not warm further: the core is at ${core}${above}, cooler than such a pile usually is by now.`
        : `It has not begun to warm: the core is at ${core}${above}, later than such a pile usually takes.`,
      next: 'Keep it covered and look again tonight.',
      tone: 'watch',
    };
  }
  if (isWarm) {
    const next = 'Leave it covered; whether it makes heat of its own shows within a day or two.';
    return { condition: `It is warm already: the core is at ${core}${above}.`, next, tone: 'calm' };
  }
  return assessment.phaseReason === 'heat-faded'
    ? {
        condition: `Its first warmth has faded: the core is at ${core}.`,
        next: 'Leave it covered; it may warm again within a day or two.',
        tone: 'calm',
      }
    : {
        condition: `It has not begun to warm yet: the core is at ${core}.`,
        next: 'Leave it covered; most piles warm within a day or two.',
        tone: 'calm',
      };
}
