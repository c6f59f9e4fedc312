/**
 * Air as the pile feels it, by the best that says it: the probe that the pile goes by; while that one is silent or not believed a
 * neighbour’s that stands by, then another; then what is foretold of the site. What the others say is put right by how they differed
 * while the better one spoke, so that nothing jumps where one takes over.
 */
import { z } from 'zod';
import { airNow, fewestSharedH, mostOffsetK, sharedH } from '../expect/air-ahead.ts';
import type { AirAhead } from '../profiles/air-reading.ts';
import type { Standby } from '../profiles/pile-setup.ts';
import { handHoldsMs, isByHand } from './hand-reading.ts';
import { addToHour, hourMeanSchema, startHourMean } from './hour-mean.ts';
import { closePosition, type PositionState } from './position.ts';
import { isStuck } from './stuck.ts';
import { doubtedJumpK, followTrack, isSilent, startTrack, trackSchema } from './track.ts';

/** How much warmer it is beside the pile than another says [K], and over how many hours that was seen. */
const differsSchema = z.object({ byK: z.number(), seenH: z.number() });
type Differs = z.infer<typeof differsSchema>;

const standbySchema = z.object({ temperature: trackSchema, hour: hourMeanSchema, differs: differsSchema });

/** Best first; the standbys in their order. */
const airSources = ['probe', 'standby-0', 'standby-1', 'foretold'] as const;
export type AirSource = (typeof airSources)[number];

export const airSchema = z.object({
  /** Eased over some hours, and over a day [°C]; null before any. */
  feltC: z.number().nullable(),
  dayC: z.number().nullable(),
  /** Who said it in the last closed hour; null where nobody did. */
  from: z.enum(airSources).nullable(),
  standbys: z.tuple([standbySchema.nullable(), standbySchema.nullable()]),
  foretoldDiffers: differsSchema,
});
export type Air = z.infer<typeof airSchema>;

/** Hours over which each is eased [h]; our own choice, no source. */
const feltH = 4;
const dayH = 24;
/** Where no air is measured and the bed begins warmer than this, the air is taken as this [°C]; our own choice, no source. */
export const warmestGuessC = 25;

const differsNot = (): Differs => ({ byK: 0, seenH: 0 });

export const startAir = (): Air => ({
  feltC: null,
  dayC: null,
  from: null,
  standbys: [null, null],
  foretoldDiffers: differsNot(),
});

/** Takes in what a neighbour’s probe says of the air. */
export function hearStandby({ standbys }: Air, which: Standby, tempC: number, atMs: number): void {
  const known = standbys[which];
  if (known === null) {
    const hour = startHourMean();
    addToHour(hour, tempC);
    standbys[which] = { temperature: startTrack(tempC, atMs), hour, differs: differsNot() };
  } else if (followTrack(known.temperature, tempC, atMs, doubtedJumpK.air)) addToHour(known.hour, tempC);
}

/** What an hour offers besides the probe that the pile goes by. */
interface Offered {
  readonly from: AirSource;
  readonly tempC: number;
  readonly differs: Differs;
}

/**
 * Closes an hour of the air.
 * @param probeC What the probe that the pile goes by said, where it is believed.
 * @param position That probe, as it is followed.
 * @returns The mean of the hour by the best that says it [°C]; null where nobody does.
 */
export function closeAir(
  air: Air,
  probeC: number | null,
  position: PositionState | null,
  airAhead: AirAhead | undefined,
  endMs: number,
): number | null {
  const offered = offeredOf(air, airAhead, endMs);
  if (probeC !== null) {
    air.from = 'probe';
    for (const { tempC, differs } of offered) learn(differs, probeC - tempC);
    return probeC;
  }
  // One that only did not speak in this hour is waited for.
  if (isStillHeard(position, endMs)) return null;
  const [best, ...others] = offered;
  air.from = best?.from ?? null;
  if (best === undefined) return null;
  const bestC = best.tempC + besideK(best.differs);
  for (const { tempC, differs } of others) learn(differs, bestC - tempC);
  return bestC;
}

function offeredOf({ standbys, foretoldDiffers }: Air, airAhead: AirAhead | undefined, endMs: number): Offered[] {
  const offered: Offered[] = [];
  for (const which of [0, 1] as const) {
    const standby = standbys[which];
    if (standby === null) continue;
    const meanC = closePosition({ ...standby, humidity: null }, false, endMs);
    const tempC = meanC ?? (isSilent(standby.temperature, endMs) ? null : standby.hour.meanC);
    if (tempC !== null) offered.push({ from: `standby-${which}`, tempC, differs: standby.differs });
  }
  const foretold = airAhead && airNow(airAhead, endMs - halfHourMs);
  if (foretold) offered.push({ from: 'foretold', tempC: foretold.tempC, differs: foretoldDiffers });
  return offered;
}

/** Foretold for the middle of an hour, as its mean [ms]. */
const halfHourMs = 30 * 60_000;

function isStillHeard(position: PositionState | null, endMs: number): boolean {
  if (position?.temperature == null) return false;
  if (isByHand(position)) return position.hand !== null && endMs - position.hand.atMs <= handHoldsMs;
  return !isSilent(position.temperature, endMs) && !isStuck(position.temperature, 'air');
}

function learn(differs: Differs, byK: number): void {
  differs.seenH = Math.min(sharedH, differs.seenH + 1);
  differs.byK += (Math.min(mostOffsetK, Math.max(-mostOffsetK, byK)) - differs.byK) / differs.seenH;
}

const besideK = ({ byK, seenH }: Differs): number => (seenH < fewestSharedH ? 0 : byK);

/** Without anybody who says what the air is, it is taken as the coolest the core began with. */
export function easeAir(air: Air, airC: number | null, coreC: number | null): void {
  const seenC = airC ?? (air.feltC === null && coreC !== null ? Math.min(coreC, warmestGuessC) : null);
  if (seenC === null) return;
  air.feltC = air.feltC === null ? seenC : air.feltC + (seenC - air.feltC) / feltH;
  air.dayC = air.dayC === null ? seenC : air.dayC + (seenC - air.dayC) / dayH;
}

interface AirSight {
  readonly positions: { readonly air: { readonly temperature: unknown } | null };
  readonly air: Pick<Air, 'dayC'>;
}

/** What the air is taken as while nobody measures it [°C]; undefined where somebody did, and before anything of the core. */
export function guessedAirC({ positions, air }: AirSight): number | undefined {
  return positions.air?.temperature == null ? (air.dayC ?? undefined) : undefined;
}

/** Who stands in for the probe that the pile goes by; null where none has to. */
export function airStandIn({ from }: Pick<Air, 'from'>): Exclude<AirSource, 'probe'> | null {
  return from === 'probe' ? null : from;
}

interface ProbedSight {
  readonly positions: { readonly air: PositionState | null };
  readonly air: Pick<Air, 'from'>;
}

/** Whether a probe measures the air of the pile: a hand comes by at the cool or the warm time of day, and what is foretold is of the open field. */
export function isAirProbed({ positions: { air: position }, air: { from } }: ProbedSight): boolean {
  if (from === 'foretold') return false;
  return from === 'standby-0' || from === 'standby-1' || (position?.temperature != null && !isByHand(position));
}
