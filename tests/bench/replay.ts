/**
 * `npm run bench -- replay`: readings per second through the whole judging, on one core.
 *
 * A fortnight of a bran pile with four temperature probes and humidity at the core, one reading a minute each.
 * Figures: `samples_per_s`, with the expected curve made anew once a day and at each act, an assessment and all alarms each
 * minute of pile time, and the forecast each hour; `looks_per_s` without the assessment, which the server works
 * out only when somebody asks.
 */
import { expectedBand } from '../../core/expect/expected-band.ts';
import type { JudgeReading, PileSetup } from '../../core/profiles/pile-setup.ts';
import { AlarmRegistry } from '../../core/session/alarm-registry.ts';
import { PileSession } from '../../core/session/pile-session.ts';
import { stageLimits } from '../../shared/stage.ts';
import { msPerDay, msPerHour, msPerMinute } from '../../shared/units.ts';

/** With a whole assessment and its alarms each minute; with alarms alone, as the server looks; steps alone. */
const hows = ['assessed', 'looked', 'steps'] as const;
type How = (typeof hows)[number];

const days = 14;
const runs = 5;
const startMs = Date.UTC(2031, 4, 1);
/** A minute of pile time between assessments is the most the server asks for; a minute of its own time is what it does live. */
const assessEveryMs = msPerMinute;

export async function run(): Promise<Record<string, number>> {
  const readings = makeReadings();
  const perS: Record<How, number[]> = { assessed: [], looked: [], steps: [] };
  for (let attempt = 0; attempt < runs; attempt += 1) {
    for (const how of hows) perS[how].push(readings.length / seconds(() => judgeAll(readings, how)));
  }
  const samplesPerS = middle(perS.assessed);
  const looksPerS = middle(perS.looked);
  const stepsPerS = middle(perS.steps);
  console.log(`${readings.length} readings, ${days} days, median of ${runs}`);
  console.log(`whole judging, assessed each minute of pile time   ${Math.round(samplesPerS)} /s`);
  console.log(`alarms alone each minute, as the server looks      ${Math.round(looksPerS)} /s`);
  console.log(`steps with curve and forecast, no assessments      ${Math.round(stepsPerS)} /s`);
  return {
    samples_per_s: Math.round(samplesPerS),
    looks_per_s: Math.round(looksPerS),
    steps_per_s: Math.round(stepsPerS),
    readings: readings.length,
  };
}

function makeReadings(): JudgeReading[] {
  const readings: JudgeReading[] = [];
  for (let minute = 0; minute < days * 24 * 60; minute += 1) {
    const hour = minute / 60;
    const atMs = startMs + minute * msPerMinute;
    const airC = 20 + 5 * Math.cos((2 * Math.PI * (hour - 15)) / 24);
    const heatK = 26 * (1 / (1 + Math.exp((30 - hour) / 5))) * (1 / (1 + Math.exp((hour - 170) / 20)));
    const wobbleK = 0.06 * Math.sin(minute * 1.7);
    const at = (position: JudgeReading['position'], value: number): void => {
      readings.push({ position, quantity: 'temperature', value: Math.round((value + wobbleK) * 16) / 16, atMs });
    };
    at('core', 20 + heatK);
    at('top', airC + 0.5 * heatK);
    at('base', 20 + 0.7 * heatK);
    at('air', airC);
    readings.push({ position: 'core', quantity: 'humidity', value: 98 + wobbleK, atMs });
  }
  return readings;
}

function judgeAll(readings: readonly JudgeReading[], how: How): void {
  const setup: PileSetup = {
    stage: 'bran',
    startedAtMs: startMs,
    limits: stageLimits.bran,
    recipe: { material: 'wheat-bran', depthM: 0.3, massKg: 200, moistureFrac: 0.6, cover: 'breathable' },
    acts: [],
  };
  const session = new PileSession(setup, new AlarmRegistry('pile', [], () => 'alarm'));
  const air: { atMs: number; tempC: number }[] = [];
  let bandUntilMs = startMs;
  let assessedMs = startMs;
  for (const reading of readings) {
    if (reading.atMs >= bandUntilMs) {
      // As the server asks: two days beyond now.
      session.band = expectedBand(setup, air, reading.atMs + 48 * msPerHour);
      bandUntilMs += msPerDay;
    }
    if (reading.position === 'air') air.push({ atMs: reading.atMs, tempC: reading.value });
    session.step(reading);
    if (how === 'steps' || reading.atMs - assessedMs < assessEveryMs) continue;
    assessedMs = reading.atMs;
    if (how === 'looked') session.evaluate(assessedMs);
    else session.alarms.evaluate(session.assessment(assessedMs).findings, assessedMs);
  }
}

function seconds(work: () => void): number {
  const from = performance.now();
  work();
  return (performance.now() - from) / 1000;
}

function middle(values: readonly number[]): number {
  return [...values].sort((one, other) => one - other)[Math.floor(values.length / 2)] ?? 0;
}
