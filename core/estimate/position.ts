/** One position of a pile as it is followed reading by reading. */
import { z } from 'zod';
import type { Position } from '../../shared/names.ts';
import { forEachPileQuantity, isOfPile, type PileQuantity, pileQuantities } from '../../shared/quantity.ts';
import type { StageLimits } from '../../shared/stage.ts';
import { highLimit } from '../alarms/deadband.ts';
import { chipErrorK, temperatureDeadbandK } from '../alarms/policies.ts';
import type { JudgeReading, PilePosition, PileSetup } from '../profiles/pile-setup.ts';
import { isSeldom, valueBetween } from './between.ts';
import { handReadingSchema, isByHand, measuredByHand, probeSpokeBeside } from './hand-reading.ts';
import { rungAt } from './hazard-rung.ts';
import { heatMemorySchema, rememberHeat, startHeat } from './heat-memory.ts';
import { hotStepAt, hotStepSchema } from './hot-step.ts';
import { addToHour, closeMean, hourMeanSchema, startHourMean } from './hour-mean.ts';
import { outSchema, startOut } from './out-of-pile.ts';
import { isStuck } from './stuck.ts';
import { doubtedJumpK, followsOn, followTrack, isSilent, startTrack, type Track, trackSchema } from './track.ts';

/**
 * One value for each quantity, of which the temperature is given by name. What every reading and look asks for is written out, and
 * first: what is spread into an object is kept apart from it (`bench replay`).
 */
function besideTemperature<T>(make: () => T): Record<Exclude<PileQuantity, 'temperature'>, T> {
  return forEachPileQuantity(make);
}

const positionSchema = z.object({
  temperature: trackSchema.nullable(),
  /** What was last measured there by hand; null before any. */
  hand: handReadingSchema.nullable(),
  hour: hourMeanSchema,
  /** Over the limit, or a core as near to it as a probe may be off; with the deadband counted in. */
  overheated: z.boolean(),
  /** How far past its limits it is said to be (hot-step.ts). */
  hotStep: hotStepSchema,
  /** Rung of the ladder of self-heating, counted from 1, with the deadband counted in; 0 below it. */
  rung: z.number(),
  /** What it has been through; null in the air, and before any temperature. */
  heat: heatMemorySchema.nullable(),
  out: outSchema,
  ...besideTemperature(() => trackSchema.nullable()),
});
export type PositionState = z.infer<typeof positionSchema>;

export const positionsSchema = z.object({
  core: positionSchema.nullable(),
  top: positionSchema.nullable(),
  base: positionSchema.nullable(),
  edge: positionSchema.nullable(),
  air: positionSchema.nullable(),
});
export type Positions = z.infer<typeof positionsSchema>;

export const startPositions = (): Positions => ({ core: null, top: null, base: null, edge: null, air: null });

const startPosition = (): PositionState => ({
  temperature: null,
  hand: null,
  hour: startHourMean(),
  overheated: false,
  hotStep: 0,
  rung: 0,
  heat: null,
  out: startOut(),
  ...besideTemperature(() => null),
});

/** @returns Whether it is a temperature, and believed. */
export function followReading(positions: Positions, reading: JudgeReading, setup: PileSetup): boolean {
  const { position, quantity, value, atMs, byHand = false } = reading;
  positions[position] ??= startPosition();
  const followed = positions[position];
  if (quantity !== 'temperature') {
    // A meter in a hand is kept and shown; how it compares with anything else nobody knows.
    if (isOfPile(quantity) && !byHand) followOther(followed, quantity, value, atMs);
    return false;
  }
  if (byHand && !standsForPosition(followed, position, setup, value, atMs)) return false;
  const jumpK = byHand ? Number.POSITIVE_INFINITY : doubtedJumpK[position]; // a person looked
  if (followed.temperature === null) followed.temperature = startTrack(value, atMs);
  else if (!followTrack(followed.temperature, value, atMs, jumpK)) return false;
  if (followed.hand !== null && !byHand && isPlausible(followed, position))
    probeSpokeBeside(followed.hand, value, atMs);
  addToHour(followed.hour, value);
  if (position !== 'air') followHeat(followed, position, setup, value, atMs);
  return true;
}

/**
 * Takes note of what was measured by hand.
 * @returns Whether it is followed as the position's own: where a probe serves, a hand only stands beside it, or in for it.
 */
function standsForPosition(
  followed: PositionState,
  position: Position,
  { served, limits, noted }: PileSetup,
  tempC: number,
  atMs: number,
): boolean {
  const probe = served !== undefined && served[position] === undefined ? null : followed.temperature;
  const isOwn = probe === null || isByHand(followed);
  const speaksWell = !isOwn && isPlausible(followed, position);
  const isHeard = probe !== null && !isSilent(probe, atMs);
  const isBelieved = speaksWell && isHeard;
  followed.hand = measuredByHand(followed.hand, tempC, atMs, speaksWell ? probe : null, !isOwn && !isBelieved);
  if (isOwn) return true;
  if (!isBelieved && position !== 'air') {
    if (!isHeard) addToHour(followed.hour, tempC);
    followed.heat ??= startHeat(tempC, atMs);
    rememberHeat(followed.heat, tempC, atMs, limits, noted);
    followed.hotStep = hotStepAt(followed.hotStep, tempC, limits);
    followed.overheated = passesLimit(followed, position, limits, tempC);
  }
  return false;
}

/** Whether what the probe of a position said last can be taken for its temperature. */
function isPlausible({ temperature, out }: PositionState, position: Position): boolean {
  return (
    temperature !== null && temperature.doubted === null && out.sinceMs === null && !isStuck(temperature, position)
  );
}

/** No jump of what is not a temperature is doubted. */
function followOther(followed: PositionState, quantity: PileQuantity, value: number, atMs: number): void {
  const track = followed[quantity];
  if (track === null) followed[quantity] = startTrack(value, atMs);
  else followTrack(track, value, atMs, Number.POSITIVE_INFINITY);
}

function followHeat(
  followed: PositionState,
  position: PilePosition,
  setup: PileSetup,
  tempC: number,
  atMs: number,
): void {
  // Beside the pile it feels no heat of the pile.
  if (followed.heat === null) followed.heat = startHeat(tempC, atMs);
  else if (followed.out.sinceMs === null) rememberHeat(followed.heat, tempC, atMs, setup.limits, setup.noted);
  if (followed.hand?.standsIn === true) return; // the probe cannot be believed, and somebody measured
  followed.rung = rungAt(followed.rung, tempC);
  followed.hotStep = hotStepAt(followed.hotStep, tempC, setup.limits);
  const passed = passesLimit(followed, position, setup.limits, tempC);
  if (passed === followed.overheated) return; // nearly every reading
  // Heat is called on a reading that follows on the one before, not on a wild one; it is gone with the first.
  const isBorneOut = () => followed.temperature === null || followsOn(followed.temperature, doubtedJumpK[position]);
  if (!passed || isByHand(followed) || isBorneOut()) followed.overheated = passed;
}

/** A core that a probe's error may hide above the limit counts as there: the cost of the two mistakes is not alike. */
function passesLimit({ overheated }: PositionState, position: Position, { actC }: StageLimits, tempC: number): boolean {
  const guardK = position === 'core' ? chipErrorK : 0;
  return highLimit(overheated, tempC, actC - guardK, temperatureDeadbandK - guardK);
}

type ClosedState = Pick<PositionState, 'temperature' | 'hour'> & {
  readonly humidity: { readonly value: number } | null;
};

/** Closes the running hour of one position. @returns Its mean [°C]; null where nothing was measured. */
export function closePosition(followed: ClosedState | null, isCore: boolean, endMs: number): number | null {
  return followed === null
    ? null
    : closeMean(followed.hour, followed.humidity?.value, betweenReadings(followed, isCore, endMs));
}

/** An hour waits for the core, which is never held; another position may have spoken just before or will just after. */
function betweenReadings(
  { temperature, hour }: ClosedState,
  isCore: boolean,
  endMs: number,
): number | null | undefined {
  if (temperature === null) return undefined;
  if (isSeldom(temperature)) return valueBetween(temperature, endMs, !isCore);
  // It has spoken since, in hours that waited for the core: those share one mean.
  return hour.count === 0 && temperature.atMs >= endMs ? hour.meanC : undefined;
}

const leadingOthers: readonly PileQuantity[] = [...new Set<PileQuantity>(['moisture', ...pileQuantities])];

/** A position is silent when its temperature is; one that has no thermometer, when everything there is. */
export function leadingTrack(followed: Readonly<PositionState>): Track | null {
  if (followed.temperature !== null) return followed.temperature; // nearly always, and looked up with every look
  for (const quantity of leadingOthers) {
    const track = followed[quantity];
    if (track !== null) return track;
  }
  return null;
}

/** What is remembered of a position; null where no probe has spoken for it since one was last given to it. */
export function servedPosition(
  positions: Readonly<Positions>,
  { served }: PileSetup,
  position: Position,
): PositionState | null {
  const followed = positions[position];
  if (followed === null || served === undefined || isByHand(followed)) return followed;
  const sinceMs = served[position];
  const track = leadingTrack(followed);
  return sinceMs === undefined || track === null || track.heardAtMs < sinceMs ? null : followed;
}
