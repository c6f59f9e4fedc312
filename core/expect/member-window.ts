/** The ensemble's members without the hours that no forecast looks at any more. It never cuts what lies ahead. */
import type { WorkedBand } from './band.ts';

/** @param fromHour Hours after the start of the batch; what lies before the first hour kept is left as it is. */
export function membersFrom(band: WorkedBand, fromHour: number): WorkedBand {
  const { members } = band;
  if (members === undefined) return band;
  const { count, steps, firstHour, coreCentiC } = members;
  const cut = Math.min(Math.floor(fromHour) - firstHour, steps);
  if (cut <= 0) return band;
  const kept = steps - cut;
  const shorter = new Int16Array(count * kept);
  for (let member = 0; member < count; member += 1) {
    shorter.set(coreCentiC.subarray(member * steps + cut, (member + 1) * steps), member * kept);
  }
  return { ...band, members: { count, steps: kept, firstHour: firstHour + cut, coreCentiC: shorter } };
}
