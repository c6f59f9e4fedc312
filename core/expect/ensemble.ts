/**
 * Many heaps that this one could be, run under its own weather and acts. It never runs inside a step: it is heavy, and
 * the host calls it when an act is logged or the weather departs.
 */
import type { Act } from '../../shared/contracts/domain/batch.ts';
import { msPerHour } from '../../shared/units.ts';
import type { AirReading } from '../profiles/air-reading.ts';
import type { PileSetup } from '../profiles/pile-setup.ts';
import { airCourse } from './air-course.ts';
import { runMember } from './lumped-model.ts';
import { drawMember } from './member.ts';
import { seededRandom } from './random.ts';

export interface Ensemble {
  readonly fromMs: number;
  readonly hours: number;
  readonly members: number;
  readonly airC: Float64Array;
  /** Member by member, `hours` + 1 values each [°C]. */
  readonly coreC: Float64Array;
  /** Same shape, moisture on wet basis [-]. */
  readonly moistureFrac: Float64Array;
}

export interface EnsembleOptions {
  readonly members?: number;
  readonly seed?: number;
  /** Air that somebody foretold, oldest first. */
  readonly foretold?: readonly AirReading[];
  /** What the air is taken as where none was measured or foretold [°C]. */
  readonly guessedAirC?: number | undefined;
  /** Where its curves may lie, for whoever is done with them before the next; else each has room of its own. */
  readonly room?: EnsembleRoom;
}

/** Room that is used again and again: a megabyte taken and given back for each of thousands of piles leaves holes behind. */
export class EnsembleRoom {
  #values = new Float64Array(0);

  /** @returns `count` values, whatever was in them. */
  take(count: number): Float64Array {
    if (this.#values.length < count) this.#values = new Float64Array(count);
    return this.#values.subarray(0, count);
  }
}

/** Longest span that is run, whatever is asked [h]: 60 days, beyond any batch; our own choice, no source. */
const longestH = 1440;

export function runEnsemble(
  setup: PileSetup,
  air: readonly AirReading[],
  toMs: number,
  options: EnsembleOptions = {},
): Ensemble {
  const members = options.members ?? 200;
  const fromMs = setup.startedAtMs;
  const hours = Math.min(longestH, Math.max(1, Math.ceil((toMs - fromMs) / msPerHour)));
  const airC = airCourse(air, fromMs, hours, options.foretold, options.guessedAirC);
  const course = { airC, hours, actsByHour: byHour(setup.acts, fromMs) };
  const random = seededRandom(options.seed ?? 1);
  const values = members * (hours + 1);
  const both = options.room?.take(2 * values) ?? new Float64Array(2 * values);
  const coreC = both.subarray(0, values);
  const moistureFrac = both.subarray(values);
  for (let index = 0; index < members; index += 1) {
    const from = index * (hours + 1);
    const to = from + hours + 1;
    const member = drawMember(setup.recipe, random);
    runMember(member, setup.recipe, course, coreC.subarray(from, to), moistureFrac.subarray(from, to));
  }
  return { fromMs, hours, members, airC, coreC, moistureFrac };
}

function byHour(acts: readonly Act[], fromMs: number): Map<number, Act[]> {
  const hours = new Map<number, Act[]>();
  for (const act of acts) {
    const hour = Math.max(0, Math.round((act.atMs - fromMs) / msPerHour));
    hours.set(hour, [...(hours.get(hour) ?? []), act]);
  }
  return hours;
}
