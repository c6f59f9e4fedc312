/** One past batch played: readings at ten-minute steps, and the truth to write an outcome from. */
import type { Quantity } from '../../../shared/quantity.ts';
import type { Reading } from '../../../shared/reading.ts';
import { farmOf, type PlayedPile } from '../../farm/farm.ts';
import { followTruth, type PileTruth } from '../../farm/pile-truth.ts';
import { playFarm } from '../../farm/play-farm.ts';
import { type ScenarioText, scenarioSchema } from '../../scenario/scenario-schema.ts';
import type { PastBatch } from './past-plan.ts';

export interface PlayedBatch {
  readonly batch: PastBatch;
  readonly readings: readonly Reading[];
  readonly truth: PileTruth;
}

const everyS = 600;

/** The same farm as in the demo, with its seasons: the yard lies lower and warmer than the terrace. */
const climates = {
  'saltmere-yard': { meanC: 17.5, seasonK: 8, dayK: 6, frontK: 3, rhPct: 58, rainShare: 0.03 },
  'saltmere-terrace': { meanC: 14.5, seasonK: 7.5, dayK: 5, frontK: 3, rhPct: 70, rainShare: 0.05 },
} satisfies Record<PastBatch['site'], NonNullable<ScenarioText['sites'][number]['climate']>>;

export function playPast(batch: PastBatch, seed: number): PlayedBatch {
  const probe = (position: 'core' | 'top' | 'base' | 'air', chip: 'damp-air' | 'one-wire') => ({
    name: `${batch.probes}-${position}`,
    position,
    chip,
    everyS,
  });
  const scenario = scenarioSchema.parse({
    name: batch.name,
    days: 20,
    sites: [
      {
        name: batch.site,
        climate: climates[batch.site],
        piles: [
          {
            name: batch.name,
            stage: batch.stage,
            recipe: batch.recipe,
            acts: batch.acts,
            probes: [
              probe('core', 'damp-air'),
              probe('top', 'damp-air'),
              probe('base', 'one-wire'),
              probe('air', 'damp-air'),
            ],
          },
        ],
      },
    ],
  } satisfies ScenarioText);
  const readings: Reading[] = [];
  let followed: ReturnType<typeof followTruth> | undefined;
  const follow = (played: PlayedPile) => {
    followed ??= followTruth(played);
    return followed;
  };
  const untilMs = batch.laidAtMs + batch.lengthH * 3_600_000;
  for (const message of playFarm(farmOf(scenario, seed, batch.laidAtMs), {
    untilMs,
    onStep: (played) => follow(played).note(),
    onAct: (played) => follow(played).handled(),
  })) {
    if (message.kind !== 'reading' || message.atMs >= untilMs) continue;
    for (const quantity of ['temperature', 'humidity'] satisfies Quantity[]) {
      const value = message.values[quantity];
      if (value === undefined) continue;
      readings.push({ site: message.site, probe: message.probe, quantity, atMs: message.atMs, value: round(value) });
    }
  }
  if (!followed) throw new Error(`Cannot play ${batch.name} as it must last a step: it lasts ${batch.lengthH} h`);
  return { batch, readings, truth: followed.truth };
}

/** As probes send it. */
function round(value: number): number {
  return Math.round(value * 100) / 100;
}
