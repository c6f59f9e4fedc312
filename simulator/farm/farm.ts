/** Sites, their weather, their piles and the probes in them, ready to be played. */
import type { Stage } from '../../shared/names.ts';
import { msPerDay } from '../../shared/units.ts';
import type { PileAct } from '../model/acts.ts';
import type { Weather } from '../model/air.ts';
import { climateWeather, mildClimate } from '../model/climate.ts';
import { createPile, type Pile, type PileRecipe } from '../model/pile.ts';
import { createRandom, seedOf } from '../model/random.ts';
import { createProbe, type Probe, type ProbeSetup } from '../probes/probe.ts';
import type { Scenario } from '../scenario/scenario-schema.ts';

/** An act, and when it is done after the pile was laid [h]. */
export interface TimedAct {
  readonly afterH: number;
  readonly act: PileAct;
}

export interface FarmPile {
  readonly site: string;
  readonly name: string;
  readonly stage: Stage;
  readonly laidAtMs: number;
  readonly recipe: PileRecipe;
  readonly acts: readonly TimedAct[];
  readonly probes: readonly ProbeSetup[];
}

export interface Farm {
  readonly seed: number;
  readonly startMs: number;
  readonly weather: ReadonlyMap<string, Weather>;
  readonly piles: readonly FarmPile[];
}

/** A pile of a farm while it is being played. */
export interface PlayedPile {
  readonly setup: FarmPile;
  readonly weather: Weather;
  readonly pile: Pile;
  readonly probes: readonly Probe[];
  /** Acts still to be done, oldest first. */
  readonly toDo: TimedAct[];
}

export function playedPile(farm: Farm, setup: FarmPile): PlayedPile {
  const weather = farm.weather.get(setup.site) ?? climateWeather(mildClimate, farm.seed);
  return {
    setup,
    weather,
    pile: createPile({ ...setup.recipe, startMs: setup.laidAtMs }),
    probes: setup.probes.map((probe) =>
      createProbe(probe, createRandom(farm.seed ^ seedOf(`${setup.site}/${probe.name}`))),
    ),
    toDo: [...setup.acts].sort((a, b) => a.afterH - b.afterH),
  };
}

/**
 * A farm from a checked scenario.
 *
 * @param startMs First instant of the farm; hours of the scenario count from here.
 * @param weatherOf Weather of sites that name an air file; from the site's climate when undefined is given back.
 */
export function farmOf(
  scenario: Scenario,
  seed: number,
  startMs: number,
  weatherOf: (airFile: string) => Weather | undefined = () => undefined,
): Farm {
  const shiftMs = seasonShiftMs(scenario.startAt, startMs);
  const weather = new Map<string, Weather>();
  const piles: FarmPile[] = [];
  for (const site of scenario.sites) {
    const measured = site.airFile === undefined ? undefined : weatherOf(site.airFile);
    const invented = climateWeather({ ...mildClimate, ...site.climate }, seed ^ seedOf(site.name));
    weather.set(site.name, measured ?? ((atMs) => invented(atMs + shiftMs)));
    for (const pile of site.piles) {
      const laidAtMs = startMs + pile.laidAfterH * 3_600_000;
      piles.push({
        site: site.name,
        name: pile.name,
        stage: pile.stage,
        laidAtMs,
        recipe: { ...pile.recipe, startMs: laidAtMs },
        acts: pile.acts.map(({ afterH, ...act }) => ({ afterH, act })),
        probes: pile.probes,
      });
    }
  }
  return { seed, startMs, weather, piles };
}

/** Whole days from the clock's date to the date whose season is wanted: night stays night. */
function seasonShiftMs(startAt: string | undefined, startMs: number): number {
  return startAt === undefined ? 0 : Math.round((Date.parse(startAt) - startMs) / msPerDay) * msPerDay;
}
