/**
 * What a position in a pile remembers of its heat: a peak that has passed still decides what the batch is worth. Hours are reckoned
 * on straight lines between readings, so that a pile measured once a day has hours too.
 */
import { z } from 'zod';
import { clockAheadMs } from '../../shared/clock-ahead.ts';
import type { StageLimits } from '../../shared/stage.ts';
import { msPerHour } from '../../shared/units.ts';
import type { Noted } from '../profiles/noted.ts';
import type { PilePosition } from '../profiles/pile-setup.ts';
import { lateDailyMs } from './track.ts';

export const heatMemorySchema = z.object({
  peakC: z.number(),
  peakAtMs: z.number(),
  /** Time at or above the limit to act, and at or above the one at which the culture is being lost [ms]. */
  actMs: z.number(),
  lossMs: z.number(),
  /** Of the latter, and how hot it was in it, since a person last judged smell or look. */
  unjudgedLossMs: z.number(),
  unjudgedPeakC: z.number(),
  /** When it last was at or above the limit of loss; null when it never was. */
  lossUntilMs: z.number().nullable(),
  lastC: z.number(),
  lastAtMs: z.number(),
});
export type HeatMemory = z.infer<typeof heatMemorySchema>;

/**
 * So long at or above its limit of loss the culture may be lost [h].
 *
 * Mushroom growers kill the moulds of their compost in 4 to 6 h at 57 to 59 °C (Sinden and Hauser 1950, 1953, as cited by Dhar and
 * Kapoor 1989, Mushroom Science XII, article 49). At ten times as fast for each 7.14 °C (the slope of 40 CFR 503.32) 4 h at 58 °C
 * are 2.1 h at 60 °C. That a soil's culture bears its 55 °C no longer is our own caution, no source.
 */
export const lossAfterH = 2;

export function startHeat(tempC: number, atMs: number): HeatMemory {
  return {
    peakC: tempC,
    peakAtMs: atMs,
    actMs: 0,
    lossMs: 0,
    unjudgedLossMs: 0,
    unjudgedPeakC: tempC,
    lossUntilMs: null,
    lastC: tempC,
    lastAtMs: atMs,
  };
}

type Limits = Pick<StageLimits, 'actC' | 'lossC'>;

/** Takes in one believed reading. @param noted What people noted; oldest first. */
export function rememberHeat(
  heat: HeatMemory,
  tempC: number,
  atMs: number,
  limits: Limits,
  noted: readonly Noted[] = [],
): void {
  const { lastC, lastAtMs } = heat;
  const gapMs = atMs - lastAtMs;
  heat.lastC = tempC;
  heat.lastAtMs = atMs;
  if (tempC > heat.peakC) {
    heat.peakC = tempC;
    heat.peakAtMs = atMs;
  }
  const warmestC = Math.max(lastC, tempC);
  if (warmestC < limits.actC && warmestC < limits.lossC) return; // most readings
  const isKnown = gapMs > 0 && gapMs <= lateDailyMs;
  if (isKnown) heat.actMs += gapMs * shareAbove(lastC, tempC, limits.actC);
  if (warmestC < limits.lossC) return;
  if (heat.lossUntilMs !== null && isJudgedSince(heat.lossUntilMs, atMs, noted)) {
    heat.unjudgedLossMs = 0;
    heat.unjudgedPeakC = tempC;
  }
  heat.unjudgedPeakC = Math.max(heat.unjudgedPeakC, warmestC);
  const lossMs = isKnown ? gapMs * shareAbove(lastC, tempC, limits.lossC) : 0;
  heat.lossMs += lossMs;
  heat.unjudgedLossMs += lossMs;
  heat.lossUntilMs = tempC >= limits.lossC ? atMs : Math.round(lastAtMs + lossMs);
}

/** Of the straight way from one to the other, how much lies at or above the limit [-]. */
function shareAbove(fromC: number, toC: number, limitC: number): number {
  const [lowC, highC] = fromC < toC ? [fromC, toC] : [toC, fromC];
  if (lowC >= limitC) return 1;
  return highC < limitC ? 0 : (highC - limitC) / (highC - lowC);
}

/** Whoever smelt or looked has judged what the heat did, whatever came of it. */
const judging: ReadonlySet<Noted['what']['kind']> = new Set(['smell', 'growth', 'readiness']);

function isJudgedSince(sinceMs: number, untilMs: number, noted: readonly Noted[]): boolean {
  return noted.some(({ atMs, what }) => atMs > sinceMs && atMs <= untilMs + clockAheadMs && judging.has(what.kind));
}

/** What there is to say of one position's heat. */
export interface PastHeat {
  readonly position: PilePosition;
  readonly peakC: number;
  readonly peakAtMs: number;
  readonly actH: number;
  readonly lossH: number;
  /** The culture may be lost there, and nobody has smelt or looked at it since; then since the last judgement. */
  readonly unjudged: { readonly lossH: number; readonly peakC: number } | null;
}

export function pastHeat(
  position: PilePosition,
  heat: HeatMemory,
  nowMs: number,
  noted: readonly Noted[] = [],
): PastHeat {
  const { peakC, peakAtMs, actMs, lossMs, unjudgedLossMs, unjudgedPeakC, lossUntilMs } = heat;
  const mayBeLost =
    lossUntilMs !== null && unjudgedLossMs >= lossAfterH * msPerHour && !isJudgedSince(lossUntilMs, nowMs, noted);
  return {
    position,
    peakC,
    peakAtMs,
    actH: actMs / msPerHour,
    lossH: lossMs / msPerHour,
    unjudged: mayBeLost ? { lossH: unjudgedLossMs / msPerHour, peakC: unjudgedPeakC } : null,
  };
}

/** The position to speak of: where a person must judge before any other, of those the core first, then where it lasted longest. */
export function worstHeat(heats: readonly PastHeat[]): PastHeat | null {
  let worst: PastHeat | null = null;
  for (const one of heats) if (worst === null || isWorse(one, worst)) worst = one;
  return worst;
}

function isWorse(one: PastHeat, other: PastHeat): boolean {
  if ((one.unjudged === null) !== (other.unjudged === null)) return one.unjudged !== null;
  const isCore = isHotCore(one);
  if (isCore !== isHotCore(other)) return isCore;
  return one.lossH === other.lossH ? one.peakC > other.peakC : one.lossH > other.lossH;
}

const isHotCore = ({ position, lossH }: PastHeat): boolean => position === 'core' && lossH >= lossAfterH;
