/**
 * core/judge/track.ts: one probe's one quantity as the judge follows it: last value, rhythm, lonely spikes.
 *
 * Takes:  the track and the next reading.
 * Gives:  the track, changed in place, and whether the value may be believed yet.
 * Never:  allocates: it runs once per reading.
 */
import { msPerHour, msPerMinute } from '../../shared/units.ts';

export interface Track {
  /** Last believed value and when it was measured. */
  value: number;
  atMs: number;
  /** When anything came last, believed or not. */
  heardAtMs: number;
  count: number;
  /** The probe's own usual interval [ms]; 0 while unknown. */
  intervalMs: number;
  /** Since when the value has not changed. */
  sameSinceMs: number;
  /** A value that jumped and waits for the next one to bear it out; null when none waits. */
  doubted: number | null;
  /** Lonely spikes thrown out, faded by half each day. */
  spikes: number;
  spikeAtMs: number;
}

export function startTrack(value: number, atMs: number): Track {
  return {
    value,
    atMs,
    heardAtMs: atMs,
    count: 1,
    intervalMs: 0,
    sameSinceMs: atMs,
    doubted: null,
    spikes: 0,
    spikeAtMs: atMs,
  };
}

/**
 * Follows one reading. A jump beyond `jump` waits for the next reading: if that one is back near the old value the
 * jump was a spike and is thrown out, otherwise it was real (a turn, rain, sun on the skin).
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
  }
  const step = value - track.value;
  const jumped = step > jump || step < -jump;
  if (track.doubted === null) {
    if (jumped) {
      track.doubted = value;
      return false;
    }
  } else {
    const doubtedStep = track.doubted - track.value;
    const backNearOld = Math.abs(step) < Math.abs(doubtedStep) / 2;
    if (backNearOld) {
      track.spikes = spikesNow(track, atMs) + 1;
      track.spikeAtMs = atMs;
    }
    track.doubted = null;
  }
  if (step !== 0) track.sameSinceMs = atMs;
  track.value = value;
  track.atMs = atMs;
  return true;
}

const halfLifeMs = 24 * msPerHour;

export function spikesNow(track: Track, nowMs: number): number {
  return track.spikes === 0 ? 0 : track.spikes * 0.5 ** ((nowMs - track.spikeAtMs) / halfLifeMs);
}

/** How long a probe may say nothing: about three of its own intervals, at least half an hour; three hours while unknown. */
export function silentAfterMs(track: Track): number {
  return track.count < 3 ? 3 * msPerHour : Math.max(30 * msPerMinute, 3.2 * track.intervalMs);
}

export function isSilent(track: Track, nowMs: number): boolean {
  return nowMs - track.heardAtMs > silentAfterMs(track);
}
