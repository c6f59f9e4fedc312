/** One place of a pile as it is followed reading by reading. */
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
  rung: 0,
  heat: null,
  out: startOut(),
  ...besideTemperature(() => null),
});

/** @returns Whether it is a temperature, and believed. */
export function followReading(positions: Positions, reading: JudgeReading, setup: PileSetup): boolean {
  const { position, quantity, value, atMs, byHand = false } = reading;
  positions[position] ??= startPosition();
  const place = positions[position];
  if (quantity !== 'temperature') {
    // A meter in a hand is kept and shown; how it compares with anything else nobody knows.
    if (isOfPile(quantity) && !byHand) followOther(place, quantity, value, atMs);
    return false;
  }
  if (byHand && !standsForPlace(place, position, setup, value, atMs)) return false;
  const jumpK = byHand ? Number.POSITIVE_INFINITY : doubtedJumpK[position]; // a person looked
  if (place.temperature === null) place.temperature = startTrack(value, atMs);
  else if (!followTrack(place.temperature, value, atMs, jumpK)) return false;
  if (place.hand !== null && !byHand && isPlausible(place, position)) probeSpokeBeside(place.hand, value, atMs);
  addToHour(place.hour, value);
  if (position !== 'air') followHeat(place, position, setup, value, atMs);
  return true;
}

/**
 * Takes note of what was measured by hand.
 * @returns Whether it is followed as the place's own: where a probe serves, a hand only stands beside it, or in for it.
 */
function standsForPlace(
  place: PositionState,
  position: Position,
  { served, limits, noted }: PileSetup,
  tempC: number,
  atMs: number,
): boolean {
  const probe = served !== undefined && served[position] === undefined ? null : place.temperature;
  const isOwn = probe === null || isByHand(place);
  const speaksWell = !isOwn && isPlausible(place, position);
  const isHeard = probe !== null && !isSilent(probe, atMs);
  const isBelieved = speaksWell && isHeard;
  place.hand = measuredByHand(place.hand, tempC, atMs, speaksWell ? probe : null, !isOwn && !isBelieved);
  if (isOwn) return true;
  if (!isBelieved && position !== 'air') {
    if (!isHeard) addToHour(place.hour, tempC);
    place.heat ??= startHeat(tempC, atMs);
    rememberHeat(place.heat, tempC, atMs, limits, noted);
    place.overheated = passesLimit(place, position, limits, tempC);
  }
  return false;
}

/** Whether what the probe of a place said last can be taken for its temperature. */
function isPlausible({ temperature, out }: PositionState, position: Position): boolean {
  return (
    temperature !== null && temperature.doubted === null && out.sinceMs === null && !isStuck(temperature, position)
  );
}

/** No jump of what is not a temperature is doubted. */
function followOther(place: PositionState, quantity: PileQuantity, value: number, atMs: number): void {
  const track = place[quantity];
  if (track === null) place[quantity] = startTrack(value, atMs);
  else followTrack(track, value, atMs, Number.POSITIVE_INFINITY);
}

function followHeat(place: PositionState, position: PilePosition, setup: PileSetup, tempC: number, atMs: number): void {
  // Beside the pile it feels no heat of the pile.
  if (place.heat === null) place.heat = startHeat(tempC, atMs);
  else if (place.out.sinceMs === null) rememberHeat(place.heat, tempC, atMs, setup.limits, setup.noted);
  if (place.hand?.standsIn === true) return; // the probe cannot be believed, and somebody measured
  place.rung = rungAt(place.rung, tempC);
  const passed = passesLimit(place, position, setup.limits, tempC);
  if (passed === place.overheated) return; // nearly every reading
  // Heat is called on a reading that follows on the one before, not on a wild one; it is gone with the first.
  const isBorneOut = () => place.temperature === null || followsOn(place.temperature, doubtedJumpK[position]);
  if (!passed || isByHand(place) || isBorneOut()) place.overheated = passed;
}

/** A core that a probe's error may hide above the limit counts as there: the cost of the two mistakes is not alike. */
function passesLimit({ overheated }: PositionState, position: Position, { actC }: StageLimits, tempC: number): boolean {
  const guardK = position === 'core' ? chipErrorK : 0;
  return highLimit(overheated, tempC, actC - guardK, temperatureDeadbandK - guardK);
}

/** Closes the running hour of one place. @returns Its mean [°C]; null where nothing was measured. */
export function closePlace(place: PositionState | null, isCore: boolean, endMs: number): number | null {
  return place === null ? null : closeMean(place.hour, place.humidity?.value, betweenReadings(place, isCore, endMs));
}

/** An hour waits for the core, which is never held; another place may have spoken just before or will just after. */
function betweenReadings(
  { temperature, hour }: PositionState,
  isCore: boolean,
  endMs: number,
): number | null | undefined {
  if (temperature === null) return undefined;
  if (isSeldom(temperature)) return valueBetween(temperature, endMs, !isCore);
  // It has spoken since, in hours that waited for the core: those share one mean.
  return hour.count === 0 && temperature.atMs >= endMs ? hour.meanC : undefined;
}

const leadingOthers: readonly PileQuantity[] = [...new Set<PileQuantity>(['moisture', ...pileQuantities])];

/** A place is silent when its temperature is; one that has no thermometer, when everything there is. */
export function leadingTrack(place: Readonly<PositionState>): Track | null {
  if (place.temperature !== null) return place.temperature; // nearly always, and looked up with every look
  for (const quantity of leadingOthers) {
    const track = place[quantity];
    if (track !== null) return track;
  }
  return null;
}

/** What is remembered of a place; null where no probe has spoken for it since one was last given to it. */
export function servedPlace(
  positions: Readonly<Positions>,
  { served }: PileSetup,
  position: Position,
): PositionState | null {
  const place = positions[position];
  if (place === null || served === undefined || isByHand(place)) return place;
  const sinceMs = served[position];
  const track = leadingTrack(place);
  return sinceMs === undefined || track === null || track.heardAtMs < sinceMs ? null : place;
}
