import { describe, expect, test } from 'vitest';
import { farmOf } from '../../../simulator/farm/farm.ts';
import { followTruth, type PileTruth } from '../../../simulator/farm/pile-truth.ts';
import { playFarm } from '../../../simulator/farm/play-farm.ts';
import { pilesByCondition } from '../../../simulator/generate/by-condition.ts';
import { pilesByKeeper } from '../../../simulator/generate/by-keeper.ts';
import { pilesByMishap } from '../../../simulator/generate/by-mishap.ts';
import { pilesByReading } from '../../../simulator/generate/by-reading.ts';
import { chipNames } from '../../../simulator/probes/chip.ts';
import type { Scenario } from '../../../simulator/scenario/scenario-schema.ts';

const startMs = Date.UTC(2031, 4, 1);

function truthsOf(scenario: Scenario): PileTruth[] {
  const followers = new Map<object, ReturnType<typeof followTruth>>();
  const play = playFarm(farmOf(scenario, 1, startMs), {
    untilMs: startMs + scenario.days * 86_400_000,
    onStep: (played) => {
      const follower = followers.get(played) ?? followTruth(played);
      followers.set(played, follower);
      follower.note();
    },
    onAct: (played) => followers.get(played)?.handled(),
  });
  for (const _ of play);
  return [...followers.values()].map(({ truth }) => truth);
}

const generators = [
  ['pilesByCondition', pilesByCondition],
  ['pilesByKeeper', pilesByKeeper],
  ['pilesByMishap', pilesByMishap],
] as const;

for (const [name, generate] of generators) {
  describe(`${name}()`, () => {
    test(`${name}() makes the number asked for, the same for the same seed and others for another`, () => {
      const piles = (seed: number) => generate(seed, 300).sites.flatMap((site) => site.piles);
      expect(piles(1)).toHaveLength(300);
      expect(piles(1)).toEqual(piles(1));
      expect(piles(2)).not.toEqual(piles(1));
      expect(new Set(piles(1).map(({ recipe }) => recipe.depthM)).size).toBeGreaterThan(250);
    });
    test(`${name}() gives piles that fare differently: hot and dry ones, and most of them well`, () => {
      // Fewer probes: only the truth matters here.
      const scenario = generate(4, 50);
      const thin: Scenario = {
        ...scenario,
        sites: scenario.sites.map((site) => ({
          ...site,
          piles: site.piles.map((pile) => ({
            ...pile,
            probes: pile.probes.slice(0, 1).map((p) => ({ ...p, everyS: 86_400 })),
          })),
        })),
      };
      const truths = truthsOf(thin);
      const count = (has: (truth: PileTruth) => boolean) => truths.filter(has).length;
      expect(truths).toHaveLength(50);
      expect(count(({ passes50AtH }) => passes50AtH !== null)).toBeGreaterThan(0);
      expect(count(({ driedAtH }) => driedAtH !== null)).toBeGreaterThan(0);
      expect(count(({ peakC }) => peakC > 38 && peakC < 50)).toBeGreaterThan(15);
    });
  });
}

describe('pilesByReading()', () => {
  const piles = (seed: number, count: number) => pilesByReading(seed, count).sites.flatMap((site) => site.piles);
  test('pilesByReading() makes the number asked for, the same for the same seed and others for another', () => {
    expect(piles(1, 300)).toHaveLength(300);
    expect(piles(1, 300)).toEqual(piles(1, 300));
    expect(piles(2, 300)).not.toEqual(piles(1, 300));
  });
  test('pilesByReading() reads each minute to once a day, in fine and coarse steps, with losses, outages and probes out of place, of beds of 5 cm to 1 m in air of 0 to 40 °C', () => {
    const made = pilesByReading(3, 300);
    const probes = made.sites.flatMap((site) => site.piles.flatMap((pile) => pile.probes));
    const everyMin = [...new Set(probes.map(({ everyS }) => everyS / 60))].sort((one, other) => one - other);
    expect(everyMin).toEqual([1, 10, 30, 60, 180, 360, 720, 1440]);
    expect(new Set(probes.map(({ chip }) => chip))).toEqual(new Set(chipNames));
    const faults = probes.flatMap((probe) => probe.faults);
    expect(new Set(faults.map(({ kind }) => kind))).toEqual(
      new Set(['dropped', 'late', 'wrong-clock', 'flat-battery']),
    );
    const lost = faults.filter((fault) => fault.kind === 'dropped');
    expect(lost.some(({ inARow }) => inARow === 5)).toBe(true);
    const outagesH = lost.filter(({ share }) => share === 1).map(({ fromH, toH }) => (toH ?? 0) - fromH);
    expect([Math.min(...outagesH) >= 1, Math.max(...outagesH) <= 72]).toEqual([true, true]);
    const swapped = made.sites.flatMap(({ piles: [pile] }) => {
      const depthOf = (position: string) => pile?.probes.find((probe) => probe.position === position)?.depthM;
      return (depthOf('core') ?? 1) < (depthOf('top') ?? 0) ? [pile] : [];
    });
    expect(swapped.length).toBeGreaterThan(20);
    const depths = made.sites.flatMap((site) => site.piles.map(({ recipe }) => recipe.depthM));
    expect([Math.min(...depths) < 0.07, Math.max(...depths) > 0.9]).toEqual([true, true]);
    const meansC = made.sites.map(({ climate }) => climate?.meanC ?? 15);
    expect([Math.min(...meansC) < 4, Math.max(...meansC) > 36]).toEqual([true, true]);
  });
  test('pilesByReading() can be played: readings come as seldom and as coarse as was drawn', () => {
    const scenario = pilesByReading(3, 12);
    const farm = farmOf(scenario, 1, startMs);
    const sent = [...playFarm(farm, { untilMs: startMs + 2 * 86_400_000 })].filter((one) => one.kind === 'reading');
    const probes = scenario.sites.flatMap((site) => site.piles.flatMap((pile) => pile.probes));
    for (const { name, everyS, chip } of probes) {
      const own = sent.filter(({ probe }) => probe === name);
      expect(own.length).toBeLessThanOrEqual((2 * 86_400) / everyS + 1);
      const halves = own.map(({ values }) => 2 * (values.temperature ?? 0));
      if (chip === 'half-degree') expect(halves.every(Number.isInteger)).toBe(true);
    }
    expect(sent.length).toBeGreaterThan(0);
  });
});

describe('pilesByMishap()', () => {
  test('pilesByMishap() makes piles that stand still, and lets half of them be', () => {
    const truths = truthsOf(pilesByMishap(4, 60));
    expect(truths.filter(({ stalledAtH }) => stalledAtH !== null).length).toBeGreaterThan(5);
    const well = truths.filter((one) => [one.stalledAtH, one.driedAtH, one.passes50AtH].every((at) => at === null));
    expect(well.length).toBeGreaterThan(20);
  });
});

describe('followTruth()', () => {
  const one = (recipe: object, days = 8) =>
    truthsOf({
      ...pilesByCondition(1, 1),
      days,
      sites: pilesByCondition(1, 1).sites.map((site) => ({
        ...site,
        ...(site.climate === undefined ? {} : { climate: { ...site.climate, meanC: 24 } }),
        piles: site.piles.map((pile) => ({ ...pile, acts: [], recipe: { ...pile.recipe, ...recipe } })),
      })),
    })[0];
  const bran = [{ material: 'wheat-bran' as const, massKg: 80 }];
  test('a deep warm bed passes 50 °C and then 60 °C, and does not stall', () => {
    const truth = one({ ingredients: bran, depthM: 0.4, moistureFrac: 0.6, doseFrac: 0.01, tempC: 24 });
    expect(truth?.passes50AtH ?? 0).toBeGreaterThan(40);
    expect(truth?.passes60AtH ?? 0).toBeGreaterThanOrEqual(truth?.passes50AtH ?? 0);
    expect(truth?.hoursAbove50 ?? 0).toBeGreaterThan(5);
    expect(truth?.stalledAtH).toBeNull();
  });
  test('a bed too dry to start is dry from its first hour and stalls as soon as it may be missed', () => {
    const truth = one({ ingredients: bran, depthM: 0.2, moistureFrac: 0.3, doseFrac: 0.005, tempC: 22 });
    expect(truth?.driedAtH).toBe(1);
    expect(truth?.stalledAtH).toBe(35);
    expect(truth?.passes50AtH).toBeNull();
  });
});
