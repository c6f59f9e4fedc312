/**
 * The same piles read otherwise: every hour, three, six, or by hand; through an outage, in coarse steps, with losses, with core and
 * top probe swapped. World and truth stay; what was said of it is drawn anew.
 */
import type { JudgeReading } from '../../../core/profiles/pile-setup.ts';
import type { Position } from '../../../shared/names.ts';
import { msPerHour, msPerMinute } from '../../../shared/units.ts';
import { createRandom, type Random, seedOf } from '../../../simulator/model/random.ts';
import type { Case } from './case.ts';
import { everyHours, losses, outage, type Step, shown, steps, visits } from './rhythms.ts';
import type { Fault } from './scenario.ts';
import { truthOf } from './truth.ts';
import { sampleMin, samplesPerHour, type World } from './world.ts';

export const rhythms = ['1h', '3h', '6h', 'hand'] as const;
export const mishaps = [
  'outage',
  'steps',
  'lossy',
  'swapped',
  '1min',
  '24h',
  'half-heat',
  'double-heat',
  'thin',
  'deep',
  'moved',
  'hover',
] as const;
export type Column = (typeof rhythms)[number] | (typeof mishaps)[number];

const sampleMs = sampleMin * msPerMinute;
/** Hours between readings, as far as what is said of them can be no sooner. */
const gapsH: Partial<Record<Column, number>> = { '1h': 1, '3h': 3, '6h': 6, hand: 12, '24h': 24 };

/** @returns undefined where the pile cannot be read so. */
export function caseAs(column: Column, drawn: Case): Case | undefined {
  const random = createRandom(seedOf(`${drawn.scenario.name}/${column}`));
  const gapH = gapsH[column] ?? 0;
  const one = { ...drawn, gapH };
  switch (column) {
    case '1h':
    case '3h':
    case '6h':
    case '24h':
      return { ...one, readings: seldom(one, gapH, random) };
    case 'hand':
      return byHand(one, random);
    case 'outage':
      return withOutage(one, random);
    case 'steps': {
      const step = random.pick(steps);
      return { ...one, readings: one.finely().map((reading) => coarse(reading, step)) };
    }
    case 'lossy': {
      const isLost = losses(random.between(0.25, 0.4), random.next() < 0.5, random);
      return { ...one, readings: one.finely().filter(() => !isLost()) };
    }
    case 'swapped':
      return swapped(one);
    case '1min':
      return { ...one, readings: everyMinute(one.finely(), random) };
    case 'half-heat':
      return drawn.relaid({ heatRatio: 0.5 });
    case 'double-heat':
      return drawn.relaid({ heatRatio: 2 });
    case 'thin':
      return drawn.relaid({ depthM: random.between(0.05, 0.1) });
    case 'deep':
      return drawn.relaid({ depthM: random.between(0.7, 1) });
    case 'moved':
      return movedAway(one, random);
    case 'hover':
      return hovering(one, random);
  }
}

/** Each probe at its own minute, as often as its sender wakes; half of them lose up to a quarter. */
function seldom({ scenario, finely }: Case, hours: number, random: Random): JudgeReading[] {
  const untilMs = scenario.startMs + scenario.days * 24 * msPerHour;
  const times = everyHours(hours, scenario.startMs, untilMs, random);
  const isLost = losses(random.next() < 0.5 ? 0 : random.between(0, 0.25), false, random);
  const lines = new Map<string, JudgeReading[]>();
  for (const reading of finely()) {
    const line = `${reading.position}/${reading.quantity}`;
    lines.set(line, [...(lines.get(line) ?? []), reading]);
  }
  return [...lines.values()].flatMap((line) => nearest(line, times).filter(() => !isLost())).sort(byTime);
}

/** The first reading within half an hour from each time on. */
function nearest(line: readonly JudgeReading[], times: readonly number[]): JudgeReading[] {
  let next = 0;
  return times.flatMap((atMs) => {
    while ((line[next]?.atMs ?? Number.POSITIVE_INFINITY) < atMs) next += 1;
    const reading = line[next];
    return reading === undefined || reading.atMs > atMs + 30 * msPerMinute ? [] : [reading];
  });
}

/** One thermometer, whole degrees: the core at each visit, of every other pile the air beside it too. */
function byHand({ scenario, world, ...one }: Case, random: Random): Case {
  const faultless = { ...scenario, faults: [] };
  const offsetK = 0.4 * random.normal();
  const isFahrenheit = random.next() < 0.3;
  const readsAir = random.next() < 0.5;
  const readings = visits(scenario.startMs, scenario.startMs + (world.samples - 1) * sampleMs, random).flatMap(
    (atMs) => {
      const sample = Math.round((atMs - scenario.startMs) / sampleMs);
      const read = (position: 'core' | 'air', trueC: number): JudgeReading =>
        coarse(
          {
            position,
            quantity: 'temperature',
            value: trueC + offsetK + 0.2 * random.normal(),
            atMs: scenario.startMs + sample * sampleMs,
            byHand: true,
          },
          isFahrenheit ? '1 °F' : '1 °C',
        );
      const core = read('core', world.coreC[sample] ?? 0);
      return readsAir ? [core, read('air', world.airC[sample] ?? 0)] : [core];
    },
  );
  return { ...one, scenario: faultless, world, readings, truth: truthOf(faultless, world) };
}

/** Nothing of any probe comes through, and what was measured meanwhile is lost. */
function withOutage({ scenario, world, finely, ...one }: Case, random: Random): Case {
  const { fromMs, toMs } = outage(scenario.startMs, scenario.startMs + scenario.days * 24 * msPerHour, random);
  const hourOf = (atMs: number): number => (atMs - scenario.startMs) / msPerHour;
  const fine = finely();
  const silences = [...new Set(fine.map(({ position }) => position))].map(
    (position): Fault => ({ kind: 'silent', position, hour: hourOf(fromMs), untilHour: hourOf(toMs) }),
  );
  const interrupted = { ...scenario, faults: [...scenario.faults, ...silences] };
  const readings = fine.filter(({ atMs }) => atMs < fromMs || atMs >= toMs);
  return { ...one, scenario: interrupted, world, finely, readings, truth: truthOf(interrupted, world) };
}

function swapped(one: Case): Case | undefined {
  const fine = one.finely();
  if (!fine.some(({ position }) => position === 'top')) return undefined;
  const other = { core: 'top', top: 'core' } as const;
  const swap = <T extends { readonly position: Position }>(here: T): T =>
    here.position === 'core' || here.position === 'top' ? { ...here, position: other[here.position] } : here;
  return {
    ...one,
    scenario: { ...one.scenario, faults: one.scenario.faults.map(swap) },
    readings: fine.map(swap),
    isSwapped: true,
  };
}

/** Straight between what was drawn, with a chip's noise and steps. */
function everyMinute(fine: readonly JudgeReading[], random: Random): JudgeReading[] {
  const lines = new Map<string, JudgeReading>();
  const readings: JudgeReading[] = [];
  for (const reading of fine) {
    const line = `${reading.position}/${reading.quantity}`;
    const before = lines.get(line);
    lines.set(line, reading);
    const minutes = before === undefined ? 0 : Math.round((reading.atMs - before.atMs) / msPerMinute);
    // One that jumps or repeats itself goes on doing so as drawn.
    const isSmooth =
      minutes <= 60 && Math.abs(reading.value - (before?.value ?? 0)) < 5 && reading.value !== before?.value;
    for (let minute = 1; before !== undefined && isSmooth && minute < minutes; minute += 1) {
      const value = before.value + (minute / minutes) * (reading.value - before.value) + 0.06 * random.normal();
      readings.push({ ...reading, value: Math.round(16 * value) / 16, atMs: before.atMs + minute * msPerMinute });
    }
    readings.push(reading);
  }
  return readings.sort(byTime);
}

/** For a while the core's probe lies in another pile, half a run ahead of this one, and nobody tells. */
function movedAway({ scenario, world, finely, ...one }: Case, random: Random): Case {
  const fromH = random.between(24, Math.max(25, scenario.days * 24 - 48));
  const toH = fromH + random.between(6, 48);
  const isAway = ({ position, quantity, atMs }: JudgeReading): boolean => {
    const hour = (atMs - scenario.startMs) / msPerHour;
    return position === 'core' && quantity === 'temperature' && hour >= fromH && hour < toH;
  };
  const readings = finely().map((reading) => {
    if (!isAway(reading)) return reading;
    const sample = Math.round((reading.atMs - scenario.startMs) / sampleMs);
    const there = world.coreC[(sample + Math.floor(world.samples / 2)) % world.samples] ?? 0;
    return { ...reading, value: Math.round(16 * (there + 0.06 * random.normal())) / 16 };
  });
  const fault: Fault = { kind: 'moved', position: 'core', hour: fromH, untilHour: toH };
  const moved = { ...scenario, faults: [...scenario.faults, fault] };
  return { ...one, scenario: moved, world, finely, readings, truth: truthOf(moved, world) };
}

/** Limits at which words change [°C]. */
const hoverC = [35, 45, 50, 65, 71] as const;
const hoversFromH = 48;

/** From its third day on the core stays within a few tenths of a limit, at work. */
function hovering({ scenario, world, finely, ...one }: Case, random: Random): Case {
  const limitC = random.pick(hoverC);
  const from = hoversFromH * samplesPerHour;
  const risingFrom = from - 12 * samplesPerHour;
  const startC = world.coreC[risingFrom] ?? limitC;
  const eaten = world.eatenShare[risingFrom] ?? 0;
  const there: World = {
    ...world,
    coreC: world.coreC.map((tempC, sample) => {
      if (sample < risingFrom) return tempC;
      const share = Math.min(1, (sample - risingFrom) / (from - risingFrom));
      return startC + share * (limitC - startC) + 0.2 * share * Math.sin((2 * Math.PI * sample) / (5 * samplesPerHour));
    }),
    eatenShare: world.eatenShare.map((share, sample) =>
      sample < risingFrom ? share : eaten + (0.15 * (sample - risingFrom)) / (24 * samplesPerHour),
    ),
  };
  const readings = finely().map((reading) => {
    const sample = Math.round((reading.atMs - scenario.startMs) / sampleMs);
    if (reading.position !== 'core' || reading.quantity !== 'temperature' || sample < risingFrom) return reading;
    return { ...reading, value: Math.round(16 * ((there.coreC[sample] ?? 0) + 0.06 * random.normal())) / 16 };
  });
  const faultless = { ...scenario, faults: scenario.faults.filter(({ position }) => position !== 'core') };
  return { ...one, scenario: faultless, world: there, finely, readings, truth: truthOf(faultless, there) };
}

function coarse(reading: JudgeReading, step: Step): JudgeReading {
  return reading.quantity === 'temperature' ? { ...reading, value: shown(reading.value, step) } : reading;
}

const byTime = (one: JudgeReading, other: JudgeReading): number => one.atMs - other.atMs;

/** The first sample from `at` on at which a reading shows a core that truly is above the limit. */
export function firstShown({ readings, scenario }: Case, world: World, at: number, limitC: number): number | undefined {
  const shows = readings.find(({ position, quantity, value, atMs }) => {
    if (position !== 'core' || quantity !== 'temperature' || value <= limitC) return false;
    const sample = (atMs - scenario.startMs) / sampleMs;
    return sample >= at && (world.coreC[Math.round(sample)] ?? 0) > limitC;
  });
  return shows === undefined ? undefined : Math.ceil((shows.atMs - scenario.startMs) / sampleMs);
}
