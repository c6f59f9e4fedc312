/** What happened in a practice run, line by line. */

import type { AlarmSummary } from '../../../../shared/contracts/piles.ts';
import type { ActAnswer } from '../../../../simulator/practice/practice.ts';
import type { PracticeAct } from '../../../../simulator/practice/scenarios/practice-scenario.ts';
import { warningTitle } from '../../ui/format/words.ts';
import { actMark, doneWords } from './act-words.ts';

export interface DiaryEntry {
  readonly atMs: number;
  readonly kind: 'act' | 'warning' | 'away';
  readonly words: string;
  /** What hand and nose found, or what the warning asked for. */
  readonly detail?: string | undefined;
  /** A word for the mark on the chart; only what changes the pile has one. */
  readonly mark?: string | undefined;
}

export function actEntry(act: PracticeAct, { view, found }: ActAnswer): DiaryEntry {
  return { atMs: view.atMs, kind: 'act', words: doneWords(act), detail: found, mark: actMark(act) };
}

export function warningEntry(alarm: AlarmSummary, atMs: number): DiaryEntry {
  const title = warningTitle(alarm.kind, alarm.position);
  return {
    atMs,
    kind: 'warning',
    words: `Warning: ${title.charAt(0).toLowerCase()}${title.slice(1)}`,
    detail: alarm.todo,
  };
}

export function awayEntry(hours: number, atMs: number): DiaryEntry {
  return { atMs, kind: 'away', words: `You come to the pile; nobody was here for ${hours} h` };
}
