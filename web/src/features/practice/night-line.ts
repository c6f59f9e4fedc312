/** The nights of a run as stretches along a line of hours. */
import { msPerDay, msPerHour } from '../../../../shared/units.ts';

const duskH = 21;
const dawnH = 6;

export interface Stretch {
  readonly fromH: number;
  readonly toH: number;
}

export function nightsOf(startedAtMs: number, hours: number): Stretch[] {
  const startHour = (startedAtMs % msPerDay) / msPerHour;
  const nights: Stretch[] = [];
  for (let fromH = duskH - 24 - startHour; fromH < hours; fromH += 24) {
    const night = { fromH: Math.max(0, fromH), toH: Math.min(hours, fromH + 24 - duskH + dawnH) };
    if (night.toH > night.fromH) nights.push(night);
  }
  return nights;
}

/** Hours after laying at which each midnight comes. */
export function midnightsOf(startedAtMs: number, hours: number): number[] {
  const firstH = 24 - (startedAtMs % msPerDay) / msPerHour;
  return Array.from({ length: Math.max(0, Math.ceil((hours - firstH) / 24)) }, (_, i) => firstH + i * 24);
}
