import type { PileSummary } from '../../../../shared/contracts/piles.ts';

/** Whether a probe gives the heat of the core, silent just now or not. */
export function isCoreMeasured({ positions }: Pick<PileSummary, 'positions'>): boolean {
  return positions.core?.temperatureC !== undefined;
}
