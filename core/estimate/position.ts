/** One place of a pile as it is followed reading by reading. */
import { z } from 'zod';
import type { Position } from '../../shared/names.ts';
import { forEachPileQuantity, isOfPile, type PileQuantity, pileQuantities } from '../../shared/quantity.ts';
import { highLimit } from '../alarms/deadband.ts';
import { chipErrorK, temperatureDeadbandK } from '../alarms/policies.ts';
import type { JudgeReading, PilePosition, PileSetup } from '../profiles/pile-setup.ts';
import { heatMemorySchema, rememberHeat, startHeat } from './heat-memory.ts';
import { addToHour, closeMean, hourMeanSchema, startHourMean } from './hour-mean.ts';
import { outSchema, startOut } from './out-of-pile.ts';
import { doubtedJumpK, followsOn, followTrack, startTrack, type Track, trackSchema } from './track.ts';

const positionSchema = z.object({
  ...forEachPileQuantity(() => trackSchema.nullable()),
  hour: hourMeanSchema,
  /** Over the limit, or a core as near to it as a probe may be off; with the deadband counted in. */
  overheated: z.boolean(),
  /** What it has been through; null in the air, and before any temperature. */
  heat: heatMemorySchema.nullable(),
  out: outSchema,
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
  ...forEachPileQuantity(() => null),
  hour: startHourMean(),
  overheated: false,
  heat: null,
  out: startOut(),
});

/** @returns Whether it is a temperature, and believed. */
export function followReading(positions: Positions, reading: JudgeReading, setup: PileSetup): boolean {
  const { position, quantity, value, atMs } = reading;
  positions[position] ??= startPosition();
  const place = positions[position];
  if (quantity !== 'temperature') {
    if (isOfPile(quantity)) followOther(place, quantity, value, atMs);
    return false;
  }
  if (place.temperature === null) place.temperature = startTrack(value, atMs);
  else if (!followTrack(place.temperature, value, atMs, doubtedJumpK[position])) return false;
  addToHour(place.hour, value);
  if (position !== 'air') followHeat(place, position, setup, value, atMs);
  return true;
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
  // A core that a probe's error may hide above the limit counts as there: the cost of the two mistakes is not alike.
  const guardK = position === 'core' ? chipErrorK : 0;
  const passed = highLimit(place.overheated, tempC, setup.limits.actC - guardK, temperatureDeadbandK - guardK);
  // Heat is called on a reading that follows on the one before, not on a wild one; it is gone with the first.
  if (!passed || place.overheated || place.temperature === null || followsOn(place.temperature, doubtedJumpK[position]))
    place.overheated = passed;
}

/** Closes the running hour of one place. @returns Its mean [°C]; null where nothing was measured. */
export function closePlace(place: PositionState | null): number | null {
  return place === null ? null : closeMean(place.hour, place.humidity?.value);
}

const leading: readonly PileQuantity[] = [...new Set<PileQuantity>(['temperature', 'moisture', ...pileQuantities])];

/** A place is silent when its temperature is; one that has no thermometer, when everything there is. */
export function leadingTrack(place: Readonly<PositionState>): Track | null {
  for (const quantity of leading) {
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
  if (place === null || served === undefined) return place;
  const sinceMs = served[position];
  const track = leadingTrack(place);
  return sinceMs === undefined || track === null || track.heardAtMs < sinceMs ? null : place;
}
