/** An assessment in the words of the API, for whoever shows it: the server, or a page with a pile of its own. */
import type { PileDetail, PositionNow } from '../../shared/contracts/piles.ts';
import { toInstant } from '../../shared/contracts/time.ts';
import { inWords } from '../../shared/messages/in-words.ts';
import { msPerHour } from '../../shared/units.ts';
import type { PositionSight } from '../warnings/finding.ts';
import type { Assessment } from './assessment.ts';

/** Of a place whose newest temperature is doubted, what it jumped from. */
export function toldDoubt(sight: PositionSight | null | undefined): Pick<PositionNow, 'doubted'> {
  if (sight?.doubted == null || sight.temperatureC === null || sight.temperatureAtMs === null) return {};
  return { doubted: { fromC: sight.temperatureC, fromAt: toInstant(sight.temperatureAtMs) } };
}

/** Everything that was looked at, what does not stand included. */
export function evidenceView({ findings, atMs }: Assessment): PileDetail['evidence'] {
  return findings.map(({ kind, position, evidence, seen, why, explainedBy }) => ({
    kind,
    position,
    evidence,
    ...inWords({ seen, why }, atMs),
    explainedBy,
  }));
}

export function judgementView({
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
    readiness: { ...readiness, points: [...readiness.points] },
    seenHands: seenHands.map(({ kind, atMs }) => ({ kind, at: toInstant(atMs) })),
  };
}
