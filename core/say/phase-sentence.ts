/**
 * How a pile is that nothing warns of, by where it is in its heat. It never says of a pile that it has not warmed when
 * it is warm: it may have been laid so.
 */

import { warmExcessK } from '../estimate/phase.ts';
import type { Assessment } from '../session/assessment.ts';
import { isOld, spokenValue } from '../warnings/spoken-value.ts';
import type { AlarmFacts, Saying } from './saying.ts';

export function phaseSentence(assessment: Assessment, facts: AlarmFacts): Saying {
  const { temp, steps } = facts;
  const { core: sight } = assessment.positions;
  const coreC = sight?.temperatureC ?? 0;
  const core = temp(coreC);
  const coreIs = sight === null ? '' : spokenValue('core', sight, assessment.atMs, temp);
  const aboveK = assessment.airC === null ? null : coreC - assessment.airC;
  const old = sight !== null && isOld(sight, assessment.atMs);
  const is = old ? 'was' : 'is';
  // The air of now says nothing of a core of then.
  const above = !old && aboveK !== null && aboveK >= 2 ? `, ${steps(aboveK)} above the air` : '';
  const { actC, comfortMinC, comfortMaxC } = assessment.limits;
  const calm = (condition: string, next: string): Saying => ({ condition, next, tone: 'calm' });

  if (coreC > actC) {
    return {
      condition: `The core ${old ? 'had' : 'has just'} passed ${temp(actC)}: ${coreIs}.`,
      next: old
        ? 'Measure the core by hand now; if it is still above, turn it or spread it thinner.'
        : 'Look again in half an hour; if it is still above, turn it or spread it thinner.',
      tone: 'watch',
    };
  }
  switch (assessment.phase) {
    case 'resting':
      return restingSentence(assessment, coreC, coreIs, facts);
    case 'warming':
      return calm(
        `It ${is} warming${assessment.againstExpected === 'above' ? ' faster than such a pile usually does' : ''}: ${coreIs}${above}.`,
        old
          ? `Measure the core by hand soon: a pile that warms may come near ${temp(actC)} within hours.`
          : `Leave it; look again before it comes near ${temp(actC)}.`,
      );
    case 'active':
      if (coreC > comfortMaxC) {
        return {
          condition: `It ${is} working hard: ${coreIs}, near the ${temp(actC)} at which to act.`,
          next: `${old ? 'Measure the core by hand now' : 'Look again in an hour or two'}, and be ready to turn it or spread it thinner.`,
          tone: 'watch',
        };
      }
      return coreC >= comfortMinC
        ? calm(`It ${is} working well: ${coreIs}${above}.`, 'Leave it working.')
        : calm(`It ${is} working gently: ${coreIs}${above}.`, 'Leave it working; see that it stays covered.');
    case 'cooling':
      return calm(
        old ? `Its heat was passing: ${coreIs}${above}.` : `Its heat is passing: the core is down to ${core}${above}.`,
        assessment.progressPct >= 90
          ? 'Let it come down near the air; then turn it once and see whether it warms again.'
          : 'Leave it covered; a second warming may follow.',
      );
    case 'settled':
      return calm(
        `Its heat has come and gone: ${coreIs}, near the air.`,
        'Smell it and look at it: only your nose and eyes can say whether it is done.',
      );
  }
}

/** Nothing has risen by itself yet; but a pile may be laid warm, or its first warmth may have faded. */
function restingSentence(assessment: Assessment, coreC: number, coreIs: string, { temp, steps }: AlarmFacts): Saying {
  const { actC, comfortMaxC } = assessment.limits;
  const airC = assessment.airC ?? assessment.positions.air?.temperatureC ?? null;
  // Unmeasured air is taken as the judge takes it.
  const aboveK = coreC - (airC ?? Math.min(coreC, 25));
  const isWarm = aboveK >= warmExcessK;
  const above = airC !== null && aboveK >= 2 ? `, ${steps(aboveK)} above the air` : '';
  const isLate = assessment.againstExpected === 'below';
  if (isWarm && coreC > comfortMaxC) {
    return {
      condition: `It is hot already: ${coreIs}, near the ${temp(actC)} at which to act.`,
      next: 'Look again in an hour or two, and be ready to turn it or spread it thinner.',
      tone: 'watch',
    };
  }
  if (isLate) {
    return {
      condition: isWarm
        ? `It does not warm further: ${coreIs}${above}, cooler than such a pile usually is by now.`
        : `It has not begun to warm: ${coreIs}${above}, later than such a pile usually takes.`,
      next: 'Keep it covered and look again tonight.',
      tone: 'watch',
    };
  }
  if (isWarm) {
    const next = 'Leave it covered; whether it makes heat of its own shows within a day or two.';
    return { condition: `It is warm already: ${coreIs}${above}.`, next, tone: 'calm' };
  }
  return assessment.phaseReason === 'heat-faded'
    ? {
        condition: `Its first warmth has faded: ${coreIs}.`,
        next: 'Leave it covered; it may warm again within a day or two.',
        tone: 'calm',
      }
    : {
        condition: `It has not begun to warm yet: ${coreIs}.`,
        next: 'Leave it covered; most piles warm within a day or two.',
        tone: 'calm',
      };
}
