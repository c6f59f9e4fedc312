/** How each act of practice is named: to do, done, and as a mark on a chart. */
import type { Position } from '../../../../shared/names.ts';
import type { PracticeAct, PracticeActKind } from '../../../../simulator/practice/scenarios/practice-scenario.ts';
import type { PracticeWords } from './use-practice-words.ts';

/** @param form On a button, or in the diary. */
export function actWords(form: 'do' | 'done', act: PracticeAct, { text }: PracticeWords): string {
  switch (act.kind) {
    case 'water':
      return text(`page-practice.${form}.water`, { waterL: act.litres });
    case 'spread':
    case 'heap':
      return text(`page-practice.${form}.${act.kind}`, { depthCm: Math.round(100 * act.depthM) });
    case 'cover':
      return text(`page-practice.${form}.cover`, { cover: act.cover === 'breathable' ? 'breathable' : 'other' });
    case 'add-dry-bran':
      return text(`page-practice.${form}.add-dry-bran`, { branKg: act.massKg });
    case 'reseat-probe':
      return text(`page-practice.${form}.reseat-probe`, { place: placeOf(act.probe) });
    default:
      return text(`page-practice.${form}.${act.kind}`);
  }
}

const places: readonly string[] = ['core', 'top', 'base', 'edge', 'air'] satisfies Position[];

/** Probes of practice are named by the place that they belong to. */
function placeOf(probe: string): Position | 'other' {
  return places.includes(probe) ? (probe as Position) : 'other';
}

const findsOnly = ['squeeze', 'look-and-smell', 'finish'] as const;
type MarkedKind = Exclude<PracticeActKind, (typeof findsOnly)[number]>;

/** Only what changes the pile, or its probes, has a mark on the chart. */
export function isMarked(kind: PracticeActKind): kind is MarkedKind {
  return !findsOnly.some((one) => one === kind);
}

/** @param kind Of an act of a practice pile. */
export function markWords(kind: string, { text }: PracticeWords): string {
  return text(`page-practice.mark.${kind as MarkedKind}`);
}
