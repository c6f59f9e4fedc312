/**
 * The expected core temperature of a batch as a 10-90 % band. It never knows the pile's own readings: it says what such
 * a pile should do, so that a departure shows.
 */
import { type Message, message } from '../../shared/messages/message.ts';
import { msPerHour } from '../../shared/units.ts';
import type { AirReading } from '../profiles/air-reading.ts';
import type { PileSetup } from '../profiles/pile-setup.ts';
import type { WorkedBand } from './band.ts';
import { type Ensemble, type EnsembleOptions, EnsembleRoom, runEnsemble } from './ensemble.ts';
import { quantileOfSorted } from './quantile.ts';

/** What the lumped model itself misses [K]: published models of composting miss the mean of a curve by 2 °C (Mason 2006, second-hand). */
const modelErrorK = 2;

/** Where a band comes from while there is none. */
export const noBandOrigin = message('band.not-computed');

const room = new EnsembleRoom();

export function expectedBand(
  setup: PileSetup,
  air: readonly AirReading[],
  toMs: number,
  options: EnsembleOptions = {},
): WorkedBand {
  const isForetold = (options.foretold?.length ?? 0) > 0;
  return bandOfEnsemble(runEnsemble(setup, air, toMs, { ...options, room }), originOf(setup, air, isForetold));
}

export function bandOfEnsemble(ensemble: Ensemble, origin: Message): WorkedBand {
  const steps = ensemble.hours + 1;
  const p10C: number[] = [];
  const p50C: number[] = [];
  const p90C: number[] = [];
  const count = ensemble.members;
  const column = new Float64Array(count);
  // Members keep their places from hour to hour, so the order of the last hour is nearly that of this one.
  const order = Int32Array.from({ length: count }, (_, member) => member);
  for (let hour = 0; hour < steps; hour += 1) {
    for (let index = 0; index < count; index += 1) {
      const member = order[index] ?? 0;
      const value = ensemble.coreC[member * steps + hour] ?? 0;
      let left = index - 1;
      while (left >= 0 && (column[left] ?? 0) > value) {
        column[left + 1] = column[left] ?? 0;
        order[left + 1] = order[left] ?? 0;
        left -= 1;
      }
      column[left + 1] = value;
      order[left + 1] = member;
    }
    const middle = quantileOfSorted(column, 0.5);
    p50C.push(middle);
    p10C.push(middle - Math.hypot(middle - quantileOfSorted(column, 0.1), 1.2816 * modelErrorK));
    p90C.push(middle + Math.hypot(quantileOfSorted(column, 0.9) - middle, 1.2816 * modelErrorK));
  }
  const coreCentiC = new Int16Array(ensemble.coreC.length); // `from` with a function takes as long as the ensemble itself
  for (let index = 0; index < coreCentiC.length; index += 1)
    coreCentiC[index] = Math.round((ensemble.coreC[index] ?? 0) * 100);
  const members = { count: ensemble.members, steps, firstHour: 0, coreCentiC };
  const airC = Array.from(ensemble.airC);
  return { fromMs: ensemble.fromMs, stepMs: msPerHour, p10C, p50C, p90C, origin, airC, members };
}

function originOf(setup: PileSetup, air: readonly AirReading[], isForetold: boolean): Message {
  const actCount = setup.acts.filter((act) => act.kind !== 'note').length;
  if (isForetold) return message('band.foretold', { isAirMeasured: air.length > 0, actCount });
  return message('band.model', { isAirMeasured: air.length > 0, actCount });
}
