/**
 * How a pile is that nothing warns of, by where it is in its heat. It never says of a pile that it has not warmed when
 * it is warm: it may have been laid so.
 */
import { type Difference, type Message, message } from '../../shared/messages/message.ts';
import { msPerHour } from '../../shared/units.ts';
import type { Phase } from '../../shared/warning.ts';
import { warmExcessK } from '../estimate/phase.ts';
import type { Assessment } from '../session/assessment.ts';
import { isOld, isStale } from '../warnings/spoken-value.ts';
import type { AlarmFacts, Saying, Tone } from './saying.ts';
import { spokenAt } from './spoken-value.ts';

const next = {
  workingWell: message('say.next.working-well'),
  workingGently: message('say.next.working-gently'),
  nearlyDone: message('say.next.nearly-done'),
  passing: message('say.next.passing'),
  settled: message('say.next.settled'),
  late: message('say.next.late'),
  warmAlready: message('say.next.warm-already'),
  warmthFaded: message('say.next.warmth-faded'),
  notBegun: message('say.next.not-begun'),
};

/** So long after it was laid, or its first warmth faded, nothing is late yet [h]; our own choice, no source. */
const lateAfterH = 12;

export function phaseSentence(assessment: Assessment, facts: AlarmFacts): Saying {
  const { core: sight } = assessment.positions;
  const coreC = sight?.temperatureC ?? 0;
  const coreIsPart = spokenAt('core', facts);
  const isOldNow = sight !== null && isOld(sight, assessment.atMs);
  const isStaleNow = sight !== null && isStale(sight, assessment.atMs);
  // The air of now says nothing of a core of then.
  const above = aboveAir(isOldNow || assessment.airC === null ? null : coreC - assessment.airC);
  const actC = facts.temp(assessment.limits.actC);
  const now = { isOld: isOldNow, coreIsPart };

  if (coreC > assessment.limits.actC)
    return said('watch', message('say.passed', { ...now, actC }), message('say.next.passed', { isOld: isStaleNow }));
  // Warm of what it was laid with, and of the weather: what has made no heat has not begun.
  switch (assessment.hasMadeHeat || isUnderWay(assessment.phase) ? assessment.phase : 'resting') {
    case 'resting':
      return restingSentence(assessment, coreIsPart, facts);
    case 'warming': {
      const isFast = assessment.againstExpected === 'above';
      const condition = message('say.warming', { ...now, ...above, isFast });
      return said('calm', condition, message('say.next.warming', { isOld: isOldNow, actC }));
    }
    case 'active':
      if (assessment.comfort === 'above') {
        const condition = message('say.working-hard', { ...now, actC });
        return said('watch', condition, message('say.next.working-hard', { isOld: isStaleNow }));
      }
      return assessment.comfort === 'within'
        ? said('calm', message('say.working-well', { ...now, ...above }), next.workingWell)
        : said('calm', message('say.working-gently', { ...now, ...above }), next.workingGently);
    case 'cooling': {
      const condition = message('say.passing', { ...now, ...above, coreC: facts.temp(coreC) });
      return said('calm', condition, assessment.progressPct >= 90 ? nearlyDone(assessment) : next.passing);
    }
    case 'settled':
      return said('calm', message('say.settled', { coreIsPart }), next.settled);
  }
}

/** Whoever has turned it already is not asked to turn it. */
function nearlyDone({ readiness: { points } }: Assessment): Message {
  const turn = points.find(({ what }) => what === 'turn-brought-no-heat');
  return turn?.says.code === 'readiness.point.turn.never' ? next.nearlyDone : next.passing;
}

/** Nothing has risen by itself yet; but a pile may be laid warm, or its first warmth may have faded. */
function restingSentence(assessment: Assessment, coreIsPart: Message, { temp }: AlarmFacts): Saying {
  const { actC } = assessment.limits;
  const coreC = assessment.positions.core?.temperatureC ?? 0;
  const airC = assessment.airC ?? assessment.positions.air?.temperatureC ?? null;
  // Unmeasured air is taken as the judge takes it.
  const aboveK = coreC - (airC ?? Math.min(coreC, 25));
  const isWarm = aboveK >= warmExcessK;
  const above = { coreIsPart, ...aboveAir(airC === null ? null : aboveK) };
  if (isWarm && assessment.comfort === 'above') {
    const condition = message('say.hot-already', { coreIsPart, actC: temp(actC) });
    return said('watch', condition, message('say.next.working-hard', { isOld: false }));
  }
  const isLate = assessment.atMs - assessment.phaseSinceMs >= lateAfterH * msPerHour;
  if (isLate && assessment.againstExpected === 'below')
    return said('watch', message(isWarm ? 'say.warms-no-further' : 'say.not-begun-late', above), next.late);
  if (isWarm) return said('calm', message('say.warm-already', above), next.warmAlready);
  return assessment.phaseReason === 'heat-faded'
    ? said('calm', message('say.warmth-faded', { coreIsPart }), next.warmthFaded)
    : said('calm', message('say.not-begun', { coreIsPart }), next.notBegun);
}

const isUnderWay = (phase: Phase) => phase === 'warming' || phase === 'active';

const said = (tone: Tone, condition: Message, todo: Message): Saying => ({ condition, next: todo, tone });

/** How far a core is above the air, where that is known and worth saying. */
function aboveAir(aboveK: number | null): { readonly isAboveAir: boolean; readonly aboveK: Difference } {
  return aboveK !== null && aboveK >= 2
    ? { isAboveAir: true, aboveK: { valueK: aboveK, decimals: 0 } }
    : { isAboveAir: false, aboveK: 0 };
}
