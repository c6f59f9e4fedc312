/** What the grower would otherwise use: a plain alarm at 50 °C, and below 30 °C (soil: 20 °C) from 36 h on. */
import type { Case } from './case.ts';
import { wantedMoistureFrac } from './truth.ts';
import type { HourSaid, Raised, Watched } from './watch.ts';
import { sampleMin, samplesPerHour } from './world.ts';

export function fixedThreshold({ scenario, world, readings }: Case): Watched {
  const raised: Raised[] = [];
  const lowC = scenario.stage === 'soil' ? 20 : 30;
  let hot = false;
  let cold = false;
  for (const { position, quantity, value, atMs } of readings) {
    if (position !== 'core' || quantity !== 'temperature') continue;
    const sample = Math.round((atMs - scenario.startMs) / (sampleMin * 60_000));
    follow(raised, 'overheating', hot, value > 50, sample, world.samples);
    hot = value > 50;
    const low = value < lowC && sample >= 36 * samplesPerHour;
    follow(raised, 'stalling', cold, low, sample, world.samples);
    cold = low;
  }
  const asTold = scenario.told.moistureFrac ?? wantedMoistureFrac[scenario.stage] + 0.05;
  const hours: HourSaid[] = [];
  for (let sample = 0; sample < world.samples; sample += samplesPerHour) {
    hours.push({ sample, coreC: null, riseKPerH: null, forecast12: null, band: null, moistureFrac: asTold });
  }
  return { raised, hours, sentenceChanges: 0 };
}

function follow(
  raised: Raised[],
  kind: 'overheating' | 'stalling',
  was: boolean,
  is: boolean,
  sample: number,
  untilSample: number,
): void {
  if (is && !was) raised.push({ kind, position: null, sample, untilSample });
  const standing = raised.findLast((one) => one.kind === kind);
  if (was && !is && standing !== undefined) standing.untilSample = sample;
}
