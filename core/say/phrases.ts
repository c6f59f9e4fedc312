/** What is wrong with a pile, as one says it in a sentence and on a lock screen. */
import type { Position } from '../../shared/names.ts';
import type { WarningKind } from '../../shared/warning.ts';

interface Phrase {
  /** After the name of the pile or its probe. */
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
  'heat-doubted': {
    is: 'may be too hot: one reading jumped over the limit',
    isOver: 'is no longer in doubt: the next reading has decided',
    short: 'maybe too hot, check',
    shortOver: 'doubtful reading settled',
  },
  'heat-damage': {
    is: 'was too hot for its culture, which may be lost',
    isOver: 'has been smelt or looked at since it was too hot',
    short: 'culture may be lost',
    shortOver: 'judged since it was too hot',
  },
  'overheating-soon': {
    is: 'will soon be too hot',
    isOver: 'is no longer on its way to being too hot',
    short: 'soon too hot',
    shortOver: 'no longer near too hot',
  },
  'bad-smell': {
    is: 'smells bad',
    isOver: 'is no longer said to smell bad',
    short: 'smells bad',
    shortOver: 'no longer smells bad',
  },
  'wrong-growth': {
    is: 'has growth in it that should not be there',
    isOver: 'is no longer said to have wrong growth in it',
    short: 'wrong growth',
    shortOver: 'no more wrong growth',
  },
  'hand-wet': {
    is: 'is too wet by hand',
    isOver: 'is no longer said to be too wet by hand',
    short: 'too wet by hand',
    shortOver: 'no longer too wet by hand',
  },
  'hand-dry': {
    is: 'is too dry by hand',
    isOver: 'is no longer said to be too dry by hand',
    short: 'too dry by hand',
    shortOver: 'no longer too dry by hand',
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

const probePhrases: Record<Extract<WarningKind, `probe-${string}`>, Phrase> = {
  'probe-silent': {
    is: 'has fallen silent',
    isOver: 'speaks again',
    short: 'silent',
    shortOver: 'speaks again',
  },
  'probe-stuck': {
    is: 'says the same number over and over',
    isOver: 'says numbers that change again',
    short: 'stuck',
    shortOver: 'no longer stuck',
  },
  'probe-out': {
    is: 'has come out of its place, or is failing',
    isOver: 'reads like the pile again',
    short: 'out of the pile',
    shortOver: 'back in place',
  },
};

/** A phrase with whatever it is about: the pile, or a probe of it. */
export interface Clause {
  /** @example clauseOf('probe-silent', 'core').is('Shed') // => "the core probe of Shed has fallen silent" */
  readonly is: (pile: string) => string;
  readonly isOver: (pile: string) => string;
  readonly short: string;
  readonly shortOver: string;
}

/** @example clauseOf('probe-silent', 'core').short // => "core probe silent" */
export function clauseOf(kind: WarningKind, position: Position | null): Clause {
  switch (kind) {
    case 'probe-silent':
    case 'probe-stuck':
    case 'probe-out': {
      const probe = `${position === null ? '' : `${position} `}probe`;
      const { is, isOver, short, shortOver } = probePhrases[kind];
      return {
        is: (pile) => `the ${probe} of ${pile} ${is}`,
        isOver: (pile) => `the ${probe} of ${pile} ${isOver}`,
        short: `${probe} ${short}`,
        shortOver: `${probe} ${shortOver}`,
      };
    }
    default: {
      const { is, isOver, short, shortOver } = phrases[kind];
      return { is: (pile) => `${pile} ${is}`, isOver: (pile) => `${pile} ${isOver}`, short, shortOver };
    }
  }
}

/** Only the first letter, and only of our own words: a pile keeps the name it was given. */
export function atStart(sentence: string): string {
  return sentence.startsWith('the ') ? `T${sentence.slice(1)}` : sentence;
}
