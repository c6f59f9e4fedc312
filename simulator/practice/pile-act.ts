/** An act of practice as an act on the model. */
import type { PileAct } from '../model/acts.ts';
import type { PracticeAct } from './scenarios/practice-scenario.ts';

export function pileAct(act: PracticeAct): PileAct | undefined {
  switch (act.kind) {
    case 'turn':
    case 'uncover':
    case 'shade':
      return { kind: act.kind };
    case 'spread':
    case 'heap':
      return { kind: act.kind, depthM: act.depthM };
    case 'water':
      return { kind: 'water', waterKg: act.litres };
    case 'cover':
      return { kind: 'cover', cover: act.cover };
    case 'close-shed':
      return { kind: 'shed', shed: 'closed' };
    case 'open-shed':
      return { kind: 'shed', shed: 'roof' };
    case 'fan-off':
      return { kind: 'fan', windMS: 0 };
    case 'add-dry-bran':
      return { kind: 'mix', ingredients: [{ material: 'wheat-bran', massKg: act.massKg }] };
    default:
      return undefined;
  }
}
