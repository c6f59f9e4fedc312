/**
 * An expected band as thousands of piles keep it from one working out to the next. It never changes what is foretold:
 * members come back as they were, and lines are good to a ten-thousandth of a degree.
 */
import type { BandLines, ExpectedBand, WorkedBand } from './band.ts';
import { packMembers } from './packed-members.ts';

export function compactBand(band: WorkedBand): ExpectedBand {
  const { sources, airC, members, ...rest } = band;
  const packed = members && packMembers(members);
  const all = [rest, ...(sources ? [sources.model, sources.own] : [])].flatMap(({ p10C, p50C, p90C }) => [
    p10C,
    p50C,
    p90C,
  ]);
  const values = [...all, airC ?? []].reduce((sum, { length }) => sum + length, 0);
  const piece = new ArrayBuffer(4 * values + (packed?.packed.length ?? 0));
  let used = 0;
  const kept = (line: ArrayLike<number>): Float32Array => {
    const view = new Float32Array(piece, used, line.length);
    view.set(line);
    used += view.byteLength;
    return view;
  };
  const lines = ({ p10C, p50C, p90C }: Pick<BandLines, 'p10C' | 'p50C' | 'p90C'>) => ({
    p10C: kept(p10C),
    p50C: kept(p50C),
    p90C: kept(p90C),
  });
  const short: ExpectedBand = {
    ...rest,
    ...lines(rest),
    ...(airC && { airC: kept(airC) }),
    ...(sources && {
      sources: {
        ...sources,
        model: { ...sources.model, ...lines(sources.model) },
        own: { ...sources.own, ...lines(sources.own) },
      },
    }),
  };
  if (!packed) return short;
  const bytes = new Uint8Array(piece, used);
  bytes.set(packed.packed);
  return { ...short, members: { ...packed, packed: bytes } };
}
