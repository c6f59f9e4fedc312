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
  readonly shortOver: string;
}

const phrases: Record<Exclude<WarningKind, `probe-${string}`>, Phrase> = {
  'self-heating': {
    is: 'is heating dangerously',
    isOver: 'has come down from dangerous heat, as far as its probes tell',
    short: 'heating dangerously',
    shortOver: 'down from dangerous heat',
  },
  overheating: { is: 'is too hot', isOver: 'is no longer too hot', short: 'too hot', shortOver: 'no longer too hot' },
  'overheating-soon': {
    is: 'will soon be too hot',
    isOver: 'is no longer on its way to being too hot',
    short: 'soon too hot',
    shortOver: 'no longer near too hot',
  },
  drying: {
    is: 'is drying out',
    isOver: 'is no longer drying out',
    short: 'drying out',
    shortOver: 'no longer drying out',
  },
  stalling: {
    is: 'has stopped warming before its work was done',
    isOver: 'is working again after it had stopped warming',
    short: 'stopped warming',
    shortOver: 'working again',
  },
  chilled: {
    is: 'is too cold to work',
    isOver: 'is no longer too cold to work',
    short: 'too cold',
    shortOver: 'no longer too cold',
  },
  waterlogged: {
    is: 'is too wet to breathe',
    isOver: 'is no longer too wet to breathe',
    short: 'too wet',
    shortOver: 'no longer too wet',
  },
  uneven: {
    is: 'is working unevenly',
    isOver: 'is working evenly again',
    short: 'working unevenly',
    shortOver: 'working evenly again',
  },
};

const probePhrases: Record<Extract<WarningKind, `probe-${string}`>, (probe: string) => Phrase> = {
  'probe-silent': (probe) => ({
    is: `has not been heard from by its ${probe}`,
    isOver: `is heard from by its ${probe} again`,
    short: `${probe} silent`,
    shortOver: `${probe} speaks again`,
  }),
  'probe-stuck': (probe) => ({
    is: `has a ${probe} that says the same number over and over`,
    isOver: `has a ${probe} whose number changes again`,
    short: `${probe} stuck`,
    shortOver: `${probe} no longer stuck`,
  }),
  'probe-out': (probe) => ({
    is: `has a ${probe} that has come out, or is failing`,
    isOver: `has a ${probe} that reads like the pile again`,
    short: `${probe} out of the pile`,
    shortOver: `${probe} back in place`,
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
