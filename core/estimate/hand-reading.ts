/**
 * What was last measured by hand at a position, beside what its probe says. A hand stands for a position that has no probe, and for one
 * whose probe is silent or cannot be believed, until that one can be again; beside a probe that can be believed it is compared only.
 */
import { z } from 'zod';
import { msPerHour } from '../../shared/units.ts';

export const handReadingSchema = z.object({
  tempC: z.number(),
  atMs: z.number(),
  /** The one before; null where this is the first. */
  beforeC: z.number().nullable(),
  beforeMs: z.number().nullable(),
  /** What the probe read nearest to it within the hour; null where none did. */
  probeC: z.number().nullable(),
  probeAtMs: z.number().nullable(),
  /** The probe could not be believed, and this stands in its place. */
  standsIn: z.boolean(),
});
export type HandReading = z.infer<typeof handReadingSchema>;

/** A probe and a hand within so long speak of the same [ms]; as the two are asked for. */
const sameMs = msPerHour;
/** So long a position is known by what a hand measured: half a day, and half as much again; our own choice, no source [ms]. */
export const handHoldsMs = 18 * msPerHour;

/** @param probe What the probe of the position said last, where it has one and is believed. */
export function measuredByHand(
  before: HandReading | null,
  tempC: number,
  atMs: number,
  probe: { readonly value: number; readonly atMs: number } | null,
  standsIn: boolean,
): HandReading {
  const beside = probe !== null && atMs - probe.atMs <= sameMs ? probe : null;
  return {
    tempC,
    atMs,
    beforeC: before?.tempC ?? null,
    beforeMs: before?.atMs ?? null,
    probeC: beside?.value ?? null,
    probeAtMs: beside?.atMs ?? null,
    standsIn,
  };
}

/** A believed reading of the probe came after it. */
export function probeSpokeBeside(hand: HandReading, tempC: number, atMs: number): void {
  hand.standsIn = false;
  const afterMs = atMs - hand.atMs;
  if (afterMs > sameMs || (hand.probeAtMs !== null && hand.atMs - hand.probeAtMs <= afterMs)) return;
  if (hand.probeAtMs !== null && hand.probeAtMs >= hand.atMs) return;
  hand.probeC = tempC;
  hand.probeAtMs = atMs;
}

interface Followed {
  readonly hand: HandReading | null;
  readonly temperature: { readonly atMs: number } | null;
}

/** Whether what is known of a position was measured by hand, there being no probe. */
export function isByHand({ hand, temperature }: Followed): boolean {
  return hand !== null && temperature !== null && temperature.atMs === hand.atMs;
}

/** The hand that speaks for a position now; null where a probe does. */
export function speakingHand(followed: Followed): HandReading | null {
  return followed.hand !== null && (followed.hand.standsIn || isByHand(followed)) ? followed.hand : null;
}
