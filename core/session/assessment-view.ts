/** An assessment in the shape of the API, for whoever shows it: the server, or a page with a pile of its own. */
import type { PositionNow } from '../../shared/contracts/piles.ts';
import { toInstant } from '../../shared/contracts/time.ts';
import { type PileQuantityKey, pileQuantities, quantityFacts } from '../../shared/quantity.ts';
import { msPerHour } from '../../shared/units.ts';
import type { Readiness } from '../readiness/readiness.ts';
import type { PositionSight } from '../warnings/finding.ts';
import type { Assessment } from './assessment.ts';
import { heatView } from './heat-view.ts';

type Standing = Pick<Assessment, 'progressPct' | 'phase' | 'phaseReason' | 'comfort' | 'moisture' | 'heat' | 'limits'>;

/** How far the batch is, and what it has been through. */
export function standView({ progressPct, moisture, heat, limits, ...standing }: Standing) {
  return {
    progress: progressPct,
    ...phaseNow(standing),
    ...(moisture && { moisture }),
    heat: heatView(heat, limits),
  };
}

/**
 * The phase follows whole hours and rises. A core hotter than its culture likes is at work all the same: nobody shall read
 * "resting" beside "too hot" because it was laid so an hour ago, or warmed too slowly to count as a rise.
 */
function phaseNow({ phase, phaseReason, comfort }: Pick<Assessment, 'phase' | 'phaseReason' | 'comfort'>) {
  if (comfort !== 'above' || (phase !== 'resting' && phase !== 'settled')) return { phase, phaseReason };
  return {
    phase: 'active',
    phaseReason: phase === 'resting' ? 'reached-working-heat' : 'reheated',
  } as const satisfies Pick<Assessment, 'phase' | 'phaseReason'>;
}

/** What else there is to say of a pile to whoever asks for all. */
export function detailView(assessment: Assessment | null) {
  return {
    assumed: assessment ? [...assessment.assumed] : [],
    evidence: assessment ? evidenceView(assessment) : [],
    judgement: assessment && judgementView(assessment),
  };
}

/** What is believed of a position, by the keys of the API. */
export function believedValues(sight: PositionSight | null | undefined): Partial<Record<PileQuantityKey, number>> {
  const values: Partial<Record<PileQuantityKey, number>> = {};
  for (const quantity of pileQuantities) {
    const { key } = quantityFacts[quantity];
    const value = sight?.[key];
    if (value != null) values[key] = value;
  }
  return values;
}

/** A position as a hand measured it, where that speaks for it; absent where a probe does. */
export function byHandView(sight: PositionSight | null | undefined): Pick<PositionNow, 'byHand'> {
  if (sight?.byHand !== true || sight.temperatureC === null || sight.temperatureAtMs === null) return {};
  return { byHand: { temperatureC: sight.temperatureC, at: toInstant(sight.temperatureAtMs) } };
}

/** Of a position whose newest temperature is doubted, what it jumped from. */
export function doubtView(sight: PositionSight | null | undefined): Pick<PositionNow, 'doubted'> {
  if (sight?.doubted == null || sight.temperatureC === null || sight.temperatureAtMs === null) return {};
  return { doubted: { fromC: sight.temperatureC, fromAt: toInstant(sight.temperatureAtMs) } };
}

/** Everything that was looked at, what does not stand included. */
function evidenceView({ findings }: Assessment) {
  return findings.map(({ kind, position, evidence, seen, why, explainedBy }) => ({
    kind,
    position,
    evidence,
    messages: { seen, why },
    explainedBy,
  }));
}

function judgementView({ forecast, waterToAdd, readiness, detectedInterventions }: Assessment) {
  return {
    overLimit: forecast && {
      likelihood: forecast.overLikelihood,
      at: forecast.overInH === null ? null : toInstant(forecast.atMs + forecast.overInH * msPerHour),
    },
    waterToAdd,
    readiness: readinessView(readiness),
    detectedInterventions: detectedInterventions.map(({ kind, atMs }) => ({ kind, at: toInstant(atMs) })),
  };
}

export function readinessView({ proposal, points, next }: Readiness) {
  return {
    proposal,
    points: points.map(({ says, ...point }) => ({ ...point, messages: { says } })),
    messages: { next },
  };
}
