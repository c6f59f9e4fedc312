/** How each act of practice is named: to do, done, and as a mark on a chart. */
import type { PracticeAct, PracticeActKind } from '../../../../simulator/practice/scenarios/practice-scenario.ts';

const cm = (depthM: number) => `${Math.round(depthM * 100)}\u00a0cm`;

/** On the button. */
export function toDoWords(act: PracticeAct): string {
  switch (act.kind) {
    case 'turn':
      return 'Turn it';
    case 'water':
      return `Water: ${act.litres}\u00a0litres`;
    case 'spread':
      return `Spread to ${cm(act.depthM)}`;
    case 'heap':
      return `Heap up to ${cm(act.depthM)}`;
    case 'cover':
      return act.cover === 'breathable' ? 'Cover with straw or mats' : 'Cover with a sheet';
    case 'uncover':
      return 'Take the cover off';
    case 'shade':
      return 'Move it to the shade';
    case 'close-shed':
      return 'Close the shed';
    case 'open-shed':
      return 'Air the shed';
    case 'fan-off':
      return 'Switch the fan off';
    case 'add-dry-bran':
      return `Stir in dry bran: ${act.massKg}\u00a0kg`;
    case 'reseat-probe':
      return `Push back the ${act.probe} probe`;
    case 'squeeze':
      return 'Squeeze a handful';
    case 'look-and-smell':
      return 'Look and smell';
    case 'finish':
      return 'Say it is done';
  }
}

/** In the diary. */
export function doneWords(act: PracticeAct): string {
  switch (act.kind) {
    case 'turn':
      return 'Turned';
    case 'water':
      return `Watered, ${act.litres}\u00a0litres`;
    case 'spread':
      return `Spread thinner, to ${cm(act.depthM)}`;
    case 'heap':
      return `Heaped up, to ${cm(act.depthM)}`;
    case 'cover':
      return act.cover === 'breathable' ? 'Covered with straw or mats' : 'Covered with a sheet';
    case 'uncover':
      return 'Uncovered';
    case 'shade':
      return 'Moved to the shade';
    case 'close-shed':
      return 'Shed closed';
    case 'open-shed':
      return 'Shed aired';
    case 'fan-off':
      return 'Fan switched off';
    case 'add-dry-bran':
      return `Dry bran stirred in, ${act.massKg}\u00a0kg`;
    case 'reseat-probe':
      return `Looked after the ${act.probe} probe`;
    case 'squeeze':
      return 'Squeezed a handful';
    case 'look-and-smell':
      return 'Looked and smelled';
    case 'finish':
      return 'Said it is done';
  }
}

const marks: Partial<Record<PracticeActKind, string>> = {
  turn: 'turned',
  water: 'watered',
  spread: 'spread',
  heap: 'heaped up',
  cover: 'covered',
  uncover: 'uncovered',
  shade: 'to the shade',
  'close-shed': 'shed closed',
  'open-shed': 'shed aired',
  'fan-off': 'fan off',
  'add-dry-bran': 'bran stirred in',
  'reseat-probe': 'probe seen to',
};

export function actMark({ kind }: PracticeAct): string | undefined {
  return marks[kind];
}
