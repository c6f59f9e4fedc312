/** What the probes of a scenario would have measured, in time order, faults and losses included. */
import type { JudgeReading } from '../../../core/profiles/pile-setup.ts';
import type { Position } from '../../../shared/names.ts';
import { createRandom } from '../../../simulator/model/random.ts';
import type { Scenario } from './scenario.ts';
import { sampleMin, type World } from './world.ts';

export function probeReadings(scenario: Scenario, world: World): JudgeReading[] {
  const random = createRandom(scenario.seed ^ 0x9e0b);
  const readings: JudgeReading[] = [];
  // One-wire chips are good to half a degree (maker's data sheet) and speak in sixteenths.
  const offsets = new Map<Position, number>(scenario.positions.map((position) => [position, 0.2 * random.normal()]));
  const every = Math.max(1, Math.round(scenario.everyMin / sampleMin));
  const fault = scenario.faults[0] ?? null; // one at most is drawn
  const faultSample = fault === null ? Number.POSITIVE_INFINITY : (fault.hour * 60) / sampleMin;
  const mendedSample = ((fault?.untilHour ?? Number.POSITIVE_INFINITY) * 60) / sampleMin;
  let stuckAt: number | null = null;
  for (let sample = 0; sample < world.samples; sample += every) {
    const atMs = scenario.startMs + sample * sampleMin * 60_000;
    for (const position of scenario.positions) {
      const lost = random.next() < scenario.lossShare;
      const noise = 0.06 * random.normal();
      const dice = random.next();
      const size = random.normal();
      let tempC = trueC(world, position, sample) + (offsets.get(position) ?? 0) + noise;
      if (fault !== null && fault.position === position && sample >= faultSample && sample < mendedSample) {
        if (fault.kind === 'silent') continue;
        if (fault.kind === 'out') tempC = (world.airC[sample] ?? 0) + noise;
        if (fault.kind === 'stuck') {
          stuckAt ??= tempC;
          tempC = stuckAt;
        }
        if (fault.kind === 'spikes' && dice < 0.08) tempC += (size < 0 ? -1 : 1) * (15 + 15 * Math.abs(size));
      }
      if (lost) continue;
      readings.push({ position, quantity: 'temperature', value: Math.round(tempC * 16) / 16, atMs });
      if (scenario.humidity && (position === 'core' || position === 'air')) {
        const rh = (position === 'core' ? world.coreRhPct[sample] : world.airRhPct[sample]) ?? 0;
        readings.push({ position, quantity: 'humidity', value: Math.round((rh + size) * 10) / 10, atMs });
      }
    }
  }
  return readings;
}

function trueC(world: World, position: Position, sample: number): number {
  const series =
    position === 'core'
      ? world.coreC
      : position === 'top'
        ? world.topC
        : position === 'base'
          ? world.baseC
          : world.airC;
  return series[sample] ?? 0;
}
