/** An act of practice as a grower's journal holds it, for the same judge as a real pile's. */
import type { Act, ActKind } from '../../shared/contracts/domain/batch.ts';
import type { PracticeAct } from './scenarios/practice-scenario.ts';

const journalKinds: Partial<Record<PracticeAct['kind'], ActKind>> = {
  turn: 'turned',
  water: 'watered',
  spread: 'spread',
  heap: 'heaped',
  cover: 'covered',
  uncover: 'uncovered',
  shade: 'moved',
  'close-shed': 'note',
  'open-shed': 'note',
  'fan-off': 'note',
  // Stirring dry bran in is a turn as well, and explains a drop as a turn does.
  'add-dry-bran': 'turned',
};

export function journalEntry(act: PracticeAct, atMs: number): Act | undefined {
  const kind = journalKinds[act.kind];
  if (kind === undefined) return undefined;
  if (act.kind === 'water') return { kind, atMs, amountL: act.litres };
  if (act.kind === 'spread' || act.kind === 'heap') return { kind, atMs, depthM: act.depthM };
  return { kind, atMs };
}
