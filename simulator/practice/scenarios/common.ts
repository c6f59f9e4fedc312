/** What most practice piles have in common. */
import type { Fault } from '../../probes/fault.ts';
import type { PracticeActKind, PracticeProbe, Weights } from './practice-scenario.ts';

/** Probes as the grower's guide asks for them: core, top, base and the air beside. */
export function fourProbes(coreFaults: readonly Fault[] = []): PracticeProbe[] {
  return [
    { name: 'core', position: 'core', chip: 'damp-air', faults: coreFaults },
    { name: 'top', position: 'top', chip: 'one-wire', faults: [] },
    { name: 'base', position: 'base', chip: 'one-wire', faults: [] },
    { name: 'air', position: 'air', chip: 'damp-air', faults: [] },
  ];
}

export const handTools: readonly PracticeActKind[] = [
  'squeeze',
  'look-and-smell',
  'turn',
  'water',
  'spread',
  'heap',
  'cover',
  'uncover',
  'finish',
];

/** Above it the culture suffers: layers are counted as hot in goals and points [°C]. */
export const hotLayerC = 50;

/** Keeping the culture alive is what the stage is for. */
export const usualWeights: Weights = { culture: 35, work: 30, water: 20, heat: 15, ending: 0 };
