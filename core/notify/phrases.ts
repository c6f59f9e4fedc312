/**
 * core/notify/phrases.ts: what is wrong with a pile, as one says it in a sentence and on a lock screen.
 *
 * Takes:  a kind of warning, and the place in the pile.
 * Gives:  halves of sentences: "is too hot", "is no longer too hot", "too hot".
 */
import type { Position } from '../../shared/names.ts';
import type { WarningKind } from '../../shared/warning.ts';

export interface Phrase {
  /** After the pile's name. */
  readonly is: string;
  readonly isOver: string;
  /** For a title with little room. */
  readonly short: string;
}

const phrases: Record<Exclude<WarningKind, `probe-${string}`>, Phrase> = {
  'self-heating': {
    is: 'is heating dangerously',
    isOver: 'has come down from dangerous heat, as far as its probes tell',
    short: 'heating dangerously',
  },
  overheating: { is: 'is too hot', isOver: 'is no longer too hot', short: 'too hot' },
  'overheating-soon': {
    is: 'will soon be too hot',
    isOver: 'is no longer on its way to being too hot',
    short: 'soon too hot',
  },
  drying: { is: 'is drying out', isOver: 'is no longer drying out', short: 'drying out' },
  stalling: {
    is: 'has stopped warming before its work was done',
    isOver: 'is working again after it had stopped warming',
    short: 'stopped warming',
  },
  chilled: { is: 'is too cold to work', isOver: 'is no longer too cold to work', short: 'too cold' },
  waterlogged: { is: 'is too wet to breathe', isOver: 'is no longer too wet to breathe', short: 'too wet' },
  uneven: { is: 'is working unevenly', isOver: 'is working evenly again', short: 'working unevenly' },
};

const probePhrases: Record<Extract<WarningKind, `probe-${string}`>, (probe: string) => Phrase> = {
  'probe-silent': (probe) => ({
    is: `has not been heard from by its ${probe}`,
    isOver: `is heard from by its ${probe} again`,
    short: `${probe} silent`,
  }),
  'probe-stuck': (probe) => ({
    is: `has a ${probe} that says the same number over and over`,
    isOver: `has a ${probe} whose number changes again`,
    short: `${probe} stuck`,
  }),
  'probe-out': (probe) => ({
    is: `has a ${probe} that has come out, or is failing`,
    isOver: `has a ${probe} that reads like the pile again`,
    short: `${probe} out of the pile`,
  }),
};

/** @example phraseOf('probe-silent', 'core').short // => "core probe silent" */
export function phraseOf(kind: WarningKind, position: Position | null): Phrase {
  switch (kind) {
    case 'probe-silent':
    case 'probe-stuck':
    case 'probe-out':
      return probePhrases[kind](`${position === null ? '' : `${position} `}probe`);
    default:
      return phrases[kind];
  }
}
