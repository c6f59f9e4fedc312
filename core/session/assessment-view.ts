/** An assessment in the words of the API, for whoever shows it: the server, or a page with a pile of its own. */
import type { PileDetail, PositionNow } from '../../shared/contracts/piles.ts';
import { toInstant } from '../../shared/contracts/time.ts';
import { inWords } from '../../shared/messages/in-words.ts';
import { plainEnglish } from '../../shared/messages/render.ts';
import { msPerHour } from '../../shared/units.ts';
import type { Readiness } from '../readiness/readiness.ts';
import type { PositionSight } from '../warnings/finding.ts';
import type { Assessment } from './assessment.ts';
import { toldHeat } from './told-heat.ts';

/** How far the batch is, and what it has been through. */
export function standView({ progressPct, phase, phaseReason, moisture, heat, limits }: Assessment) {
  return {
    progress: progressPct,
    phase,
    phaseReason,
    ...(moisture && { moisture }),
    heat: toldHeat(heat, limits, plainEnglish),
  };
}

/** What else there is to say of a pile to whoever asks for all. */
export function detailView(assessment: Assessment | null): Pick<PileDetail, 'assumed' | 'evidence' | 'judgement'> {
  return {
    assumed: assessment ? [...assessment.assumed] : [],
    evidence: assessment ? evidenceView(assessment) : [],
    judgement: assessment && judgementView(assessment),
  };
}

/** Of a place whose newest temperature is doubted, what it jumped from. */
export function toldDoubt(sight: PositionSight | null | undefined): Pick<PositionNow, 'doubted'> {
  if (sight?.doubted == null || sight.temperatureC === null || sight.temperatureAtMs === null) return {};
  return { doubted: { fromC: sight.temperatureC, fromAt: toInstant(sight.temperatureAtMs) } };
}

/** Everything that was looked at, what does not stand included. */
function evidenceView({ findings, atMs }: Assessment): PileDetail['evidence'] {
  return findings.map(({ kind, position, evidence, seen, why, explainedBy }) => ({
    kind,
    position,
    evidence,
    ...inWords({ seen, why }, atMs),
    explainedBy,
  }));
}

function judgementView({
  forecast,
  waterToAdd,
  readiness,
  seenHands,
}: Assessment): NonNullable<PileDetail['judgement']> {
  return {
    overLimit: forecast && {
      likelihood: forecast.overLikelihood,
      at: forecast.overInH === null ? null : toInstant(forecast.atMs + forecast.overInH * msPerHour),
    },
    waterToAdd,
    readiness: readinessView(readiness),
    seenHands: seenHands.map(({ kind, atMs }) => ({ kind, at: toInstant(atMs) })),
  };
}

export function readinessView({
  proposal,
  points,
  next,
}: Readiness): NonNullable<PileDetail['judgement']>['readiness'] {
  return {
    proposal,
    points: points.map(({ says, ...point }) => ({ ...point, ...inWords({ says }, 0) })),
    ...inWords({ next }, 0),
  };
}
