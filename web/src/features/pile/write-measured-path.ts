import type { Position } from '../../../../shared/names.ts';

/** Where a temperature taken by hand is written down, its place chosen already. */
export function writeMeasuredPath(pileId: string, position: Position | null): string {
  return `/piles/${pileId}/journal?write=measured&at=${position ?? 'core'}`;
}
