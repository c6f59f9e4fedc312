/** When a nightly backup is due, which are kept, and when the newest is old; times are of the machine [epoch ms]. */
import { msPerDay, msPerHour } from '../../shared/units.ts';
import { stamp } from './stamp.ts';

export interface Kept {
  readonly name: string;
  readonly madeAtMs: number;
  readonly bytes: number;
  /** Else it was made before an update, and is kept until somebody removes it. */
  readonly isNightly: boolean;
}

const oldMs = 3 * msPerDay;
/** By the clock on the wall there: most farms sleep. */
const hourOfNight = 3;

export const nightlyName = (nowMs: number) => `nightly-${stamp(nowMs)}.tar.gz`;

/** @param sinceMs When the newest good one was made, or the data began. @param triedMs The last try of this run. */
export function isDue(at: { readonly nowMs: number; readonly sinceMs: number; readonly triedMs: number | undefined }) {
  if (at.triedMs !== undefined && at.nowMs - at.triedMs < msPerHour) return false;
  return at.sinceMs < lastNightMs(at.nowMs);
}

export function isOld(nowMs: number, sinceMs: number): boolean {
  return nowMs - sinceMs > oldMs;
}

function lastNightMs(nowMs: number): number {
  const night = new Date(nowMs);
  night.setHours(hourOfNight, 0, 0, 0);
  if (night.getTime() > nowMs) night.setDate(night.getDate() - 1);
  return night.getTime();
}

const named = /^(nightly|before-.+)-(\d{4})(\d{2})(\d{2})-(\d{2})(\d{2})(\d{2})\.tar\.gz$/;

/** What of a folder is ours, the newest first. */
export function keptOf(files: readonly { readonly name: string; readonly bytes: number | undefined }[]): Kept[] {
  return files
    .flatMap(({ name, bytes }): Kept[] => {
      const [, what, year, month, day, hour, minute, second] = named.exec(name) ?? [];
      if (what === undefined || bytes === undefined) return [];
      const madeAtMs = Date.parse(`${year}-${month}-${day}T${hour}:${minute}:${second}Z`);
      return [{ name, madeAtMs, bytes, isNightly: what === 'nightly' }];
    })
    .sort((a, b) => b.madeAtMs - a.madeAtMs);
}

/** The nightly ones beyond those that are kept. */
export function spare(kept: readonly Kept[], keep: number): Kept[] {
  return kept.filter(({ isNightly }) => isNightly).slice(keep);
}
