/**
 * What truly happened to a pile: the sample at which each trouble began, or null. Each rule is written in the simulator's own
 * quantities, which the judge never sees.
 */
import type { Story } from './scenario.ts';
import { samplesPerHour, type World } from './world.ts';

export interface Truth {
  /** First sample of half an hour or more above 50 °C at the core, and whether 40 to 50 °C took over 6 h. */
  readonly overheatedAt: number | null;
  readonly slowBuildUp: boolean;
  /** Whether it passes 50 °C by half a degree or more, which is what the maker of the chip vouches for (±0.5 °C). */
  readonly clearlyHot: boolean;
  /** Moisture of the whole pile passes 5 points below what the stage wants, and 10 points below (40 % for bran). */
  readonly driedAt: number | null;
  readonly dried10At: number | null;
  /** Food is left, air and heat of its own are not: no warmth by 36 h, or warmth lost before the work was done. */
  readonly stalledAt: number | null;
  /** No trouble of any kind, and no fault of a probe. */
  readonly healthy: boolean;
}

/** Below this moisture the stage's lower limit is missed [-]. */
export const wantedMoistureFrac = { bran: 0.5, soil: 0.4 } as const;
/** Eating less of its ready food in a day than this, with food left, is standing still; up to the second it is slow. */
const stalledPerDay = 0.05;
export const slowPerDay = 0.12;
/** Share of the ready food from which on standing still is the end of a batch rather than a stall. */
const doneShare = { bran: 0.5, soil: 0.4 } as const;

export function truthOf(scenario: Story, world: World): Truth {
  const overheatedAt = firstRun(world.samples, 3, (at) => (world.coreC[at] ?? 0) > 50);
  const clearlyHot = firstRun(world.samples, 3, (at) => (world.coreC[at] ?? 0) > 50.5) !== null;
  const floor = wantedMoistureFrac[scenario.stage];
  const driedAt = firstRun(world.samples, 3, (at) => (world.moistureFrac[at] ?? 1) < floor - 0.05);
  const dried10At = firstRun(world.samples, 3, (at) => (world.moistureFrac[at] ?? 1) < floor - 0.1);
  const stalledAt = stalled(scenario, world);
  const healthy = overheatedAt === null && driedAt === null && stalledAt === null && scenario.faults.length === 0;
  return {
    overheatedAt,
    slowBuildUp: slowBuildUp(world, overheatedAt),
    clearlyHot,
    driedAt,
    dried10At,
    stalledAt,
    healthy,
  };
}

function slowBuildUp(world: World, overheatedAt: number | null): boolean {
  if (overheatedAt === null) return false;
  let at = overheatedAt;
  while (at > 0 && (world.coreC[at] ?? 0) >= 40) at -= 1;
  return overheatedAt - at > 6 * samplesPerHour;
}

/** Twelve hours in a row of standing still, from 36 h (soil 24 h) on, while food is left and no hand was just there. */
function stalled(scenario: Story, world: World): number | null {
  const from = (scenario.stage === 'soil' ? 24 : 36) * samplesPerHour;
  let run = 0;
  for (let at = from; at < world.samples; at += 1) {
    const handled = scenario.hands.some(
      ({ hour }) => hour * samplesPerHour <= at && at - hour * samplesPerHour < 18 * samplesPerHour,
    );
    run = eatenPerDay(world, at) < stalledPerDay && !done(scenario, world, at) && !handled ? run + 1 : 0;
    if (run >= 12 * samplesPerHour) return at - run + 1;
  }
  return null;
}

/** Share of the ready food eaten per day, over the last twelve hours. */
export function eatenPerDay(world: World, at: number): number {
  const before = Math.max(0, at - 12 * samplesPerHour);
  return ((world.eatenShare[at] ?? 0) - (world.eatenShare[before] ?? 0)) * 2;
}

export function done(scenario: Story, world: World, at: number, share: number = doneShare[scenario.stage]): boolean {
  return (world.eatenShare[at] ?? 0) >= share;
}

function firstRun(samples: number, length: number, holds: (at: number) => boolean): number | null {
  let run = 0;
  for (let at = 0; at < samples; at += 1) {
    run = holds(at) ? run + 1 : 0;
    if (run >= length) return at - run + 1;
  }
  return null;
}
