/** Plays a pile through the judge as the server does, and keeps its alarms, hourly forecasts and moisture estimates. */
import { bandAt } from '../../../core/expect/band.ts';
import type { JudgeReading, PileSetup } from '../../../core/profiles/pile-setup.ts';
import { AlarmRegistry } from '../../../core/session/alarm-registry.ts';
import type { Assessment } from '../../../core/session/assessment.ts';
import { PileSession } from '../../../core/session/pile-session.ts';
import type { Act } from '../../../shared/contracts/domain/batch.ts';
import type { Position } from '../../../shared/names.ts';
import { stageLimits } from '../../../shared/stage.ts';
import { msPerHour } from '../../../shared/units.ts';
import type { WarningKind } from '../../../shared/warning.ts';
import type { PileAct } from '../../../simulator/model/acts.ts';
import { createRandom, seedOf } from '../../../simulator/model/random.ts';
import type { Case } from './case.ts';
import { keptBand } from './kept-band.ts';
import type { Story } from './scenario.ts';
import { sentenceWords } from './sentence-words.ts';
import { sampleMin, samplesPerHour, type World } from './world.ts';

export interface Raised {
  readonly kind: WarningKind;
  readonly position: Position | null;
  readonly sample: number;
  /** When it was gone again; the end of the run when it never was. */
  untilSample: number;
}

export interface HourSaid {
  readonly sample: number;
  /** Core as the probe said it, or null; and how it rose in the last 3 h [K/h]. */
  readonly coreC: number | null;
  readonly riseKPerH: number | null;
  readonly forecast12: { readonly p10C: number; readonly p50C: number; readonly p90C: number } | null;
  readonly band: { readonly p10C: number; readonly p50C: number; readonly p90C: number } | null;
  readonly moistureFrac: number;
}

export interface Watched {
  readonly raised: Raised[];
  readonly hours: HourSaid[];
  /** How often the sentence became another, numbers aside. */
  readonly sentenceChanges: number;
}

const rebandH = 24;

export function watch({ scenario, world, readings, gapH }: Case): Watched {
  const air: { atMs: number; tempC: number }[] = [];
  const acts = [...actsOf(scenario), ...rainsOf(scenario, world)].sort((one, other) => one.atMs - other.atMs);
  const endMs = scenario.startMs + scenario.days * 24 * msPerHour;
  let setup = setupOf(scenario, []);
  let bandFromMs = Number.NEGATIVE_INFINITY;
  let bandGuessC: number | undefined;
  let lastAlarm = 0;
  const session = new PileSession(setup, new AlarmRegistry(scenario.name, [], () => String(++lastAlarm)));
  const raised: Raised[] = [];
  const hours: HourSaid[] = [];
  let next = 0;
  let sentence: string | undefined;
  let sentenceChanges = 0;
  for (let sample = 0; sample < world.samples; sample += 1) {
    const nowMs = scenario.startMs + sample * sampleMin * 60_000;
    // An act is logged as it is done; the host then asks for a new band, as it does when the weather has moved on.
    const known = acts.filter((act) => act.atMs <= nowMs);
    if (known.length !== setup.acts.length) {
      setup = { ...setup, acts: known };
      session.learn(setup);
      bandFromMs = Number.NEGATIVE_INFINITY;
    }
    // The server asks every three hours: the first time that it knows something of the air is soon.
    if (nowMs - bandFromMs >= rebandH * msPerHour || session.guessedAirC !== bandGuessC) {
      bandGuessC = session.guessedAirC;
      const toMs = Math.min(endMs + 48 * msPerHour, nowMs + (rebandH + 46) * msPerHour);
      session.band = keptBand(setup, air, toMs, bandGuessC);
      bandFromMs = nowMs;
    }
    for (let reading = readings[next]; reading !== undefined && reading.atMs <= nowMs; reading = readings[next]) {
      next += 1;
      if (reading.position === 'air' && reading.quantity === 'temperature')
        air.push({ atMs: reading.atMs, tempC: reading.value });
      session.step(reading satisfies JudgeReading);
    }
    const { alarms, steps } = session.evaluate(nowMs);
    for (const { alarmId, from, to } of steps) {
      const alarm = alarms.find(({ id }) => id === alarmId);
      if (alarm === undefined || from === to) continue;
      const { kind, position } = alarm;
      if (to === 'unacknowledged') raised.push({ kind, position, sample, untilSample: world.samples });
      else {
        const standing = raised.findLast((one) => one.kind === kind && one.position === position);
        if (standing !== undefined) standing.untilSample = sample;
      }
    }
    const said = session.assessment(nowMs);
    const words = sentenceWords(said, session.alarms.open());
    if (sentence !== undefined && words !== sentence) sentenceChanges += 1;
    sentence = words;
    if (sample % samplesPerHour === 0) {
      const { band } = session;
      const core = said.positions.core;
      hours.push({
        sample,
        coreC: core !== null && !core.silent ? core.temperatureC : null,
        riseKPerH: said.coreRiseKPerH,
        forecast12: forecast12(said, gapH === 0 ? 0 : nowMs),
        band: band === null ? null : (bandAt(band, nowMs) ?? null),
        moistureFrac: said.moisture?.frac ?? Number.NaN,
      });
    }
  }
  return { raised, hours, sentenceChanges };
}

/** Of twelve hours from `nowMs`; a fan not older than its probe's hour is taken as made now. */
function forecast12({ forecast }: Assessment, nowMs: number): HourSaid['forecast12'] {
  const hour = 11 + (forecast === null || nowMs === 0 ? 0 : Math.round((nowMs - forecast.atMs) / msPerHour));
  const p10C = forecast?.p10C[hour];
  const p50C = forecast?.p50C[hour];
  const p90C = forecast?.p90C[hour];
  return p10C === undefined || p50C === undefined || p90C === undefined ? null : { p10C, p50C, p90C };
}

function setupOf(scenario: Story, acts: readonly Act[]): PileSetup {
  const { told } = scenario;
  return {
    stage: scenario.stage,
    startedAtMs: scenario.startMs,
    limits: stageLimits[scenario.stage],
    recipe: {
      material: scenario.material,
      depthM: scenario.depthM,
      cover: scenario.cover,
      ...(told.shelter === undefined ? {} : { shelter: told.shelter }),
      ...(told.massKg === undefined ? {} : { massKg: told.massKg }),
      ...(told.moistureFrac === undefined ? {} : { moistureFrac: told.moistureFrac }),
      ...(told.doseFrac === undefined ? {} : { doseFrac: told.doseFrac }),
    },
    acts,
  };
}

function actsOf(scenario: Story): Act[] {
  return scenario.hands.flatMap(({ hour, act, logged }) => {
    const told = logged ? toAct(act, scenario.startMs + hour * msPerHour) : null;
    return told === null ? [] : [told];
  });
}

/** A gauge is read every morning, to about a seventh, and half a millimetre is not worth writing. */
function rainsOf({ name, startMs, days, told }: Story, world: World): Act[] {
  const random = createRandom(seedOf(`${name}/gauge`));
  const rains: Act[] = [];
  let read = 0;
  for (let day = 0; day < days; day += 1) {
    const sample = Math.round((day + random.between(0.7, 0.9)) * 24 * samplesPerHour);
    const stands = world.rainMm[Math.min(sample, world.samples - 1)] ?? 0;
    const rainMm = (stands - read) * Math.exp(0.15 * random.normal());
    read = stands;
    if (random.next() < told.rainShare && rainMm >= 0.5)
      rains.push({ kind: 'rained', atMs: startMs + sample * sampleMin * 60_000, rainMm });
  }
  return rains;
}

function toAct(act: PileAct, atMs: number): Act | null {
  switch (act.kind) {
    case 'turn':
      return { kind: 'turned', atMs };
    case 'water':
      return { kind: 'watered', atMs, amountL: act.waterKg };
    case 'spread':
      return { kind: 'spread', atMs, depthM: act.depthM };
    case 'heap':
      return { kind: 'heaped', atMs, depthM: act.depthM };
    case 'cover':
      return { kind: 'covered', atMs };
    case 'uncover':
      return { kind: 'uncovered', atMs };
    default:
      return null;
  }
}
