/**
 * The four piles of the farm Saltmere, judged as the server judges them but without waiting for its clock: each must show
 * what it was made to show. The simulator knows nothing of the judge, so this can fail on either side.
 */
import { describe, expect, test } from 'vitest';
import { type AlarmMachine, startAlarm, stepAlarm } from '../../core/alarms/alarm.ts';
import { delaysOf } from '../../core/alarms/policies.ts';
import type { ExpectedBand } from '../../core/expect/band.ts';
import { expectedBand } from '../../core/expect/expected-band.ts';
import type { PileSetup } from '../../core/profiles/pile-setup.ts';
import { assess, startJudge, stepJudge } from '../../core/session/judge.ts';
import { gradeOf } from '../../core/warnings/finding.ts';
import type { Material } from '../../shared/profiles/material-names.ts';
import type { Quantity } from '../../shared/quantity.ts';
import { stageLimits } from '../../shared/stage.ts';
import { msPerDay, msPerHour } from '../../shared/units.ts';
import { farmOf } from '../../simulator/farm/farm.ts';
import { type FarmReading, playFarm } from '../../simulator/farm/play-farm.ts';
import { type DemoPile, demoFarm } from '../../simulator/scenarios/demo/demo-farm.ts';

const startMs = Date.UTC(2031, 5, 6, 6);
/** What the demo shows from its start on: the piles' whole lives lie within ten days. */
const days = 10;
const farm = demoFarm(7);
const readings = [
  ...playFarm(farmOf(farm.scenario, farm.seed, startMs), { untilMs: startMs + days * msPerDay }),
].filter((message): message is FarmReading => message.kind === 'reading');

/** Kinds raised over the life of a pile, each with the hours after laying at which it was first raised. */
function raisedAt(pile: DemoPile): Map<string, number> {
  const laidMs = startMs + pile.laidAfterH * msPerHour;
  const scenario = farm.scenario.sites.flatMap(({ piles }) => piles).find(({ name }) => name === pile.name);
  const recipe = scenario?.recipe;
  if (!recipe) throw new Error(`no recipe of ${pile.name}`);
  const material = recipe.ingredients[0]?.material;
  const turns = (scenario?.acts ?? []).filter(({ kind }) => kind === 'turn');
  const setup: PileSetup = {
    stage: pile.stage,
    startedAtMs: laidMs,
    limits: stageLimits[pile.stage],
    recipe: {
      material: (material === 'wheat-bran' || material === 'rice-bran' ? material : 'other') satisfies Material,
      depthM: recipe.depthM,
      moistureFrac: recipe.moistureFrac,
      doseFrac: recipe.doseFrac,
      cover: recipe.cover,
    },
    acts: turns.map(({ afterH }) => ({ kind: 'turned' as const, atMs: laidMs + afterH * msPerHour })),
  };
  const positionOf = new Map(pile.probes.map(({ name, position }) => [name, position]));
  const own = readings.filter(({ site, probe }) => site === pile.site && positionOf.has(probe));

  const state = startJudge(setup);
  const air: { atMs: number; tempC: number }[] = [];
  const machines = new Map<string, AlarmMachine>();
  const raised = new Map<string, number>();
  let band: ExpectedBand | null = null;
  let bandMs = Number.NEGATIVE_INFINITY;
  let lookedMs = 0;
  for (const { probe, atMs, values } of own) {
    const position = positionOf.get(probe) ?? 'core';
    for (const [quantity, value] of Object.entries(values)) {
      if (position === 'air' && quantity === 'temperature') air.push({ atMs, tempC: value });
      stepJudge(state, setup, band, { position, quantity: quantity as Quantity, value, atMs });
    }
    if (atMs - bandMs >= 3 * msPerHour) {
      band = expectedBand(setup, air, atMs + 2 * msPerDay);
      bandMs = atMs;
    }
    if (atMs - lookedMs < 600_000) continue;
    lookedMs = atMs;
    for (const finding of assess(state, setup, band, atMs).findings) {
      const { kind, position: place, evidence, explainedBy } = finding;
      const key = `${kind}/${place ?? ''}`;
      const machine = machines.get(key) ?? startAlarm(atMs);
      const { next } = stepAlarm(
        machine,
        explainedBy ? 'missing' : evidence,
        atMs,
        delaysOf(finding),
        gradeOf(finding),
      );
      machines.set(key, next);
      if (next.state !== 'normal' && !raised.has(kind)) raised.set(kind, (atMs - laidMs) / msPerHour);
    }
  }
  return raised;
}

describe('the farm Saltmere', () => {
  for (const pile of farm.piles) {
    test(`${pile.name} shows that it is ${pile.fate}`, () => {
      const raised = raisedAt(pile);
      const said = [...raised].map(([kind, afterH]) => `${kind} after ${afterH.toFixed(0)} h`).join(', ');
      if (pile.fate === 'fine') expect(said).toBe('');
      else expect([...raised.keys()], said).toContain(pile.fate);
    });
  }
});
