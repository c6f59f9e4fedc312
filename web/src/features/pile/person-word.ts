/** What a person found of a batch's smell and look. */
import type { Entry } from '../../../../shared/contracts/journal.ts';
import type { judgements } from '../../../../shared/entry.ts';
import type { PileWords } from './use-pile-words.ts';

export type Judgement = (typeof judgements)[number];

export interface PersonWord {
  readonly at: string;
  readonly by: string | null;
  readonly note: string | null;
  readonly smell: Judgement;
  readonly look: Judgement;
  readonly ready: boolean;
}

export function lastWordOf(entries: readonly Entry[], batchId: string): PersonWord | undefined {
  for (const { what, withdrawn, batchId: of, at, by, note } of entries) {
    if (what.kind !== 'readiness' || withdrawn || of !== batchId) continue;
    return { at, by, note, smell: what.smell, look: what.look, ready: what.ready };
  }
  return undefined;
}

/** @example "14:10, M.: smell good, look doubtful, not done yet." */
export function wordSentence({ by, smell, look, ready }: PersonWord, timeText: string, { text }: PileWords): string {
  const said = { smell: judgementOf(smell), look: judgementOf(look), ready };
  return text('page-pile.word', { timeText, byWhom: by !== null, personName: by ?? '', ...said });
}

/** For a choice by `select`. */
export function judgementOf(judgement: Judgement): 'good' | 'doubtful' | 'other' {
  return judgement === 'bad' ? 'other' : judgement;
}
