/**
 * How often, how finely and how faithfully piles are read by the people who keep them: every one to six hours, by hand in the
 * morning and in the evening, in coarse steps, with gaps and with losses. Times in epoch ms.
 */
import type { Random } from '../../../simulator/model/random.ts';

const msPerMinute = 60_000;
const msPerHour = 60 * msPerMinute;
const msPerDay = 24 * msPerHour;

/** A sender's clock is off by so much from one reading to the next [min]. */
const jitterMin = 2;

/** When a probe that speaks every so many hours does, its clock jittering. */
export function everyHours(hours: number, startMs: number, untilMs: number, random: Random): number[] {
  const times: number[] = [];
  for (let atMs = startMs + random.between(0, hours) * msPerHour; atMs < untilMs; atMs += hours * msPerHour)
    times.push(atMs + random.between(-jitterMin, jitterMin) * msPerMinute);
  return times.filter((atMs) => atMs >= startMs);
}

/** The hours of the day at which people come by, and how many visits are not made; common practice, no source. */
const visitHours = [
  [6.5, 9],
  [16.5, 20],
] as const;
const skippedShare = 0.1;

/** When somebody with a thermometer stands at the pile: as it is laid, then mornings and evenings, now and then not at all. */
export function visits(startMs: number, untilMs: number, random: Random): number[] {
  const times = [startMs];
  for (let dayMs = Math.floor(startMs / msPerDay) * msPerDay; dayMs < untilMs; dayMs += msPerDay) {
    for (const [fromH, toH] of visitHours) {
      const atMs = dayMs + random.between(fromH, toH) * msPerHour;
      const isMade = random.next() >= skippedShare;
      if (isMade && atMs > startMs + 2 * msPerHour && atMs < untilMs) times.push(atMs);
    }
  }
  return times;
}

/** Steps in which thermometers show: halves and wholes of °C, wholes of °F. */
export const steps = ['0.5 °C', '1 °C', '1 °F'] as const;
export type Step = (typeof steps)[number];

/** What a thermometer of so coarse a scale shows [°C]. */
export function shown(tempC: number, step: Step): number {
  switch (step) {
    case '0.5 °C':
      return Math.round(tempC * 2) / 2;
    case '1 °C':
      return Math.round(tempC);
    case '1 °F':
      return (Math.round(tempC * 1.8 + 32) - 32) / 1.8;
  }
}

/** One time without anything, of an hour to three days, short ones oftener than long. */
export function outage(
  startMs: number,
  untilMs: number,
  random: Random,
): { readonly fromMs: number; readonly toMs: number } {
  const lastsMs = Math.exp(random.between(0, Math.log(72))) * msPerHour;
  const fromMs = random.between(startMs + 12 * msPerHour, Math.max(startMs + 13 * msPerHour, untilMs - lastsMs));
  return { fromMs, toMs: Math.min(untilMs, fromMs + lastsMs) };
}

/** Whether the next message of a sender is lost: one by one, or in bursts of five on the mean. */
export function losses(share: number, inBursts: boolean, random: Random): () => boolean {
  const lastsShare = inBursts ? 0.8 : share;
  const beginsShare = inBursts ? (0.2 * share) / (1 - share) : share;
  let isLost = false;
  return () => {
    isLost = random.next() < (isLost ? lastsShare : beginsShare);
    return isLost;
  };
}
