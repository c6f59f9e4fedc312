/**
 * One probe's one quantity as the judge follows it: last value, rhythm, lonely spikes. It never allocates: it runs once
 * per reading.
 */
import { z } from 'zod';
import { msPerHour, msPerMinute } from '../../shared/units.ts';

export const trackSchema = z.object({
  /** Last believed value and when it was measured. */
  value: z.number(),
  atMs: z.number(),
  /** When anything came last, believed or not. */
  heardAtMs: z.number(),
  count: z.number(),
  /** The probe's own usual interval [ms]; 0 while unknown. */
  intervalMs: z.number(),
  /** Readings that did not come, per one that did, as learned [-]. */
  missed: z.number(),
  /** Readings before which some did not come, per one that came, as learned [-]. */
  gaps: z.number(),
  /** Since when the value has not changed, and how many readings said it. */
  sameSinceMs: z.number(),
  sameCount: z.number(),
  /** The finest step seen between two values; 0 before any [in the unit of the values]. */
  step: z.number(),
  /** How far it moves from one reading to the next where it moves, on the mean of the last ones; 0 before it did. */
  moves: z.number(),
  /** The value it followed on, and when that was measured: the believed one before, or the doubted one that it bore out. */
  previous: z.number(),
  previousAtMs: z.number(),
  /** A value that jumped and waits for the next one to bear it out; null when none waits. */
  doubted: z.number().nullable(),
  /** How many in a row were doubted, each unlike the one before. */
  doubts: z.number(),
  /** Lonely spikes thrown out, faded by half each day. */
  spikes: z.number(),
  spikeAtMs: z.number(),
});
export type Track = z.infer<typeof trackSchema>;

export function startTrack(value: number, atMs: number): Track {
  return {
    value,
    atMs,
    heardAtMs: atMs,
    count: 1,
    intervalMs: 0,
    missed: 0.15,
    gaps: 0.13,
    sameSinceMs: atMs,
    sameCount: 1,
    step: 0,
    moves: 0,
    previous: value,
    previousAtMs: atMs,
    doubted: null,
    doubts: 0,
    spikes: 0,
    spikeAtMs: atMs,
  };
}

/** So many different wild values in a row are no spikes any more: something really moves fast; our own choice, no source. */
const mostDoubts = 3;
/** As near to the old value as this, against how far the wild one was, a reading takes the wild one back [-]; our own choice, no source. */
const takenBack = 1 / 3;

/**
 * Within an hour. The core is slow, a skin in sun and rain is not: real steps of 10.8 °C in an hour were measured at a heap's top [K];
 * the rest our own choice, no source.
 */
export const doubtedJumpK = { core: 8, top: 15, base: 12, edge: 15, air: 15 } as const;

/**
 * How much further than that a pile may have come with each hour beyond the first [K/h]: faster than any pile of the simulator warms
 * over three hours and longer; our own choice.
 */
export const meanwhileKPerH = 3.5;

/** How far a value may lie from one measured `gapMs` before, so that it is believed by itself. */
function possibleStep(jump: number, gapMs: number): number {
  return jump + meanwhileKPerH * Math.max(0, gapMs / msPerHour - 1);
}

/**
 * Two wild values closer together than this may be one fault: they bear each other out, but a third must call it heat [ms];
 * our own choice, no source.
 */
const oneFaultMs = 30 * msPerMinute;

/** Whether the believed value may have come of the one before it; else the next reading must bear it out before heat is called. */
export function followsOn(track: Track, jump: number): boolean {
  return Math.abs(track.value - track.previous) <= possibleStep(jump, track.atMs - track.previousAtMs);
}

/**
 * Follows one reading. A jump beyond `jump` and what the time since allows waits for the next reading: if that one is near it, the jump was real (a turn,
 * rain, sun on the skin); if it is back near the old value, the jump was a spike and is thrown out; if it is near neither,
 * it waits in turn.
 *
 * @returns Whether `value` is believed and has become `track.value`.
 */
export function followTrack(track: Track, value: number, atMs: number, jump: number): boolean {
  const gapMs = atMs - track.heardAtMs;
  if (gapMs <= 0) return false; // an older reading, or the same one again
  track.heardAtMs = atMs;
  track.count += 1;
  if (track.intervalMs === 0) track.intervalMs = gapMs;
  else {
    // Moves by at most a quarter a reading, so a lost message or a burst does not teach a wrong rhythm.
    const ratio = gapMs / track.intervalMs;
    track.intervalMs *= Math.min(1.25, Math.max(0.8, ratio));
    const missed = ratio > 1.6 ? Math.min(5, Math.round(ratio) - 1) : 0;
    const weight = 1 / Math.min(50, track.count + 10);
    track.missed += weight * (missed - track.missed);
    track.gaps += weight * ((missed > 0 ? 1 : 0) - track.gaps);
  }
  const step = value - track.value;
  let previous = track.value;
  let previousAtMs = track.atMs;
  // Of one that has just thrown in wild values, the time that passed explains none.
  const jumped =
    Math.abs(step) > jump && (throwsWild(track, atMs) || Math.abs(step) > possibleStep(jump, atMs - track.atMs));
  if (jumped) {
    const isBorneOut = track.doubted !== null && Math.abs(value - track.doubted) <= possibleStep(jump / 2, gapMs);
    if (isBorneOut && track.doubted !== null) {
      if (gapMs >= oneFaultMs) {
        previous = track.doubted;
        previousAtMs = atMs - gapMs;
      }
    } else if (track.doubts < mostDoubts) {
      track.doubted = value;
      track.doubts += 1;
      return false;
    }
  } else if (track.doubted !== null && Math.abs(step) < takenBack * Math.abs(track.doubted - track.value)) {
    // All that were doubted are taken back. A bed on its way back to its warmth after a turn takes back nothing.
    countSpikes(track, track.doubts, atMs);
  }
  track.doubted = null;
  track.doubts = 0;
  if (step === 0) track.sameCount += 1;
  else {
    track.sameSinceMs = atMs;
    track.sameCount = 1;
    track.moves += (Math.abs(step) - track.moves) / (track.moves === 0 ? 1 : movesOver);
    if (track.step === 0 || track.step > finestStep) track.step = Math.min(track.step || Infinity, stepWithin(step));
  }
  track.previous = previous;
  track.previousAtMs = previousAtMs;
  track.value = value;
  track.atMs = atMs;
  return true;
}

/** About so many readings that moved tell how far it moves [readings]; our own choice, no source. */
const movesOver = 8;

/** Steps in which thermometers show, coarsest first: whole °C, whole °F, halves, quarters, tenths; then the sixteenth of a common chip (its data sheet) [K]; common practice, no source. */
const knownSteps = [1, 5 / 9, 0.5, 0.25, 0.1] as const;
const finestStep = 1 / 16;
/** What is kept of a value in °F may be rounded to a hundredth. */
const roundedBy = 0.006;

/** The coarsest step of which `difference` is a whole number. Of a difference it holds whatever was added to all values. */
function stepWithin(difference: number): number {
  for (const step of knownSteps) {
    if (Math.abs(difference - step * Math.round(difference / step)) < roundedBy) return step;
  }
  return finestStep;
}

/** In what steps a probe speaks; while it has always said the same, as that value looks. */
export function stepOf(track: Track): number {
  return track.step === 0 ? stepWithin(track.value) : track.step;
}

function countSpikes(track: Track, count: number, atMs: number): void {
  track.spikes = spikesNow(track, atMs) + count;
  track.spikeAtMs = atMs;
}

/** In so long a spike counts for half, or in so many readings of a probe that is read seldom [ms, readings]; our own choice, no source. */
const halfLifeMs = 24 * msPerHour;
const halfLifeReadings = 16;

/** So many lonely spikes, faded, are no longer a single one that has passed [-]; our own choice, no source. */
const fewSpikes = 0.5;

/** Whether a lonely spike of it was thrown out within about a day. */
export function throwsWild(track: Track, nowMs: number): boolean {
  return spikesNow(track, nowMs) >= fewSpikes;
}

export function spikesNow(track: Track, nowMs: number): number {
  return track.spikes === 0
    ? 0
    : track.spikes * 0.5 ** ((nowMs - track.spikeAtMs) / Math.max(halfLifeMs, halfLifeReadings * track.intervalMs));
}

/**
 * So rarely may a probe that loses messages be called silent while it is not, per reading of one that speaks so often [-, ms]: one that
 * speaks more seldom has as much fewer readings to be wrong at in a week; our own choice, no source.
 */
const wronglySilent = 3e-7;
const oftenMs = 10 * msPerMinute;
/**
 * A burst of losses lasts for minutes or an hour: of a probe that speaks as seldom as this it takes no two words in a row, and losses
 * are reckoned one by one [ms]; our own choice, no source. Of senders drawn at random, every six hours and up to a quarter lost,
 * 0.94 of the silences of a day and more are called instead of 0.90, and as few falsely.
 */
const burstMs = 2 * msPerHour;

/** Within so long the next reading of one that is read once a day has come, even late [ms]; our own choice, no source. */
export const lateDailyMs = 26 * msPerHour;
/** Nobody is silent within this [ms]; our own choice, no source. */
export const leastSilentMs = 30 * msPerMinute;
/** After its second: the two may have come in one burst [ms]; our own choice, no source. */
const secondWordMs = 5 * msPerHour;

/** Never longer than so many of its intervals, or so long [-, ms]; our own choice, no source. */
const mostIntervals = 10;
const mostMs = 6 * msPerHour;
/** One gap leaves a fiftieth: with hardly more than that a long one was a single outage, and says nothing of the next [-]. */
const oftenGaps = 0.026;

/**
 * How long a probe may say nothing: about three of its own intervals, at least half an hour; a day while its rhythm is unknown. One that often loses messages is given as many more as make so many losses in a row unlikely.
 */
export function silentAfterMs(track: Track): number {
  // After its first word it may be one that is read once a day.
  if (track.count < 2) return lateDailyMs;
  const most = Math.max(mostIntervals, mostMs / track.intervalMs);
  const leastMs = track.count < 3 ? secondWordMs : leastSilentMs;
  return Math.max(leastMs, Math.min(most, Math.max(3.2, unlikelyLosses(track) + 0.2)) * track.intervalMs);
}

/**
 * So many losses in a row that it is hardly by chance. Lost one by one with the share p, it is p^n; of losses that come in bursts each
 * goes on with the chance q = 1 − gaps / losses, and it is gaps · q^(n − 1), which is the same where they do not: q = p.
 *
 * @example one in ten lost one by one at ten minutes: 0.1^n = 3e-7, n = 6.5; 0.067 gaps of three each: n = 1 + ln(3e-7 / 0.067) / ln(2/3) = 31.4
 */
function unlikelyLosses({ missed, gaps, intervalMs }: Track): number {
  const logWrongly = Math.log(wronglySilent * Math.max(1, intervalMs / oftenMs));
  const lossShare = missed / (1 + missed);
  if (lossShare <= 0.001) return 0;
  const oneByOne = logWrongly / Math.log(lossShare);
  const goesOn = 1 - gaps / missed;
  if (intervalMs >= burstMs || gaps < oftenGaps || goesOn <= lossShare) return oneByOne;
  return Math.max(oneByOne, 1 + (logWrongly - Math.log(gaps)) / Math.log(goesOn));
}

export function isSilent(track: Track, nowMs: number): boolean {
  const quietMs = nowMs - track.heardAtMs;
  // Most evaluations need not work out the rest.
  return quietMs > leastSilentMs && quietMs > silentAfterMs(track);
}
