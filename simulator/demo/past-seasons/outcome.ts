/**
 * How a keeper of Saltmere put it when a batch was over: in words, by nose and eyes, and whether they called it ready. A
 * keeper sees a pile, never what the judge made of it.
 */
import type { Verdict, VerdictReason } from '../../../shared/verdict.ts';
import type { PileTruth } from '../../farm/pile-truth.ts';

export interface Outcome {
  readonly words: string;
  readonly smell: 'good' | 'doubtful' | 'bad';
  readonly look: 'good' | 'doubtful' | 'bad';
  readonly ready: boolean;
  readonly verdict: Verdict;
  readonly why: VerdictReason;
}

export function outcomeOf(truth: PileTruth): Outcome {
  const { stage, peakC, hoursAbove50, driedAtH, stalledAtH, moistureFracAtEnd } = truth;
  if (peakC > 60) {
    return {
      words: 'Went far too hot: grey and burnt in the middle, only the skin is white. Spread on the compost.',
      smell: 'doubtful',
      look: 'bad',
      ready: false,
      verdict: 'lost',
      why: 'too-hot',
    };
  }
  if (hoursAbove50 > 4) {
    return {
      words: 'Too hot for a night or two. White outside, pale grey inside; usable.',
      smell: 'good',
      look: 'doubtful',
      ready: true,
      verdict: 'usable',
      why: 'too-hot',
    };
  }
  if (stage === 'bran' && peakC < 32) {
    return {
      words: 'Hardly warmed. Sour and patchy; mixed into the compost heap.',
      smell: 'bad',
      look: 'doubtful',
      ready: false,
      verdict: 'poor',
      why: 'too-cool',
    };
  }
  if (driedAtH !== null && moistureFracAtEnd < 0.45) {
    return {
      words: 'Dried out before it was through; dusty at the edges, good in the middle.',
      smell: 'good',
      look: 'doubtful',
      ready: true,
      verdict: 'usable',
      why: 'too-dry',
    };
  }
  if (stage === 'bran' && peakC < 37) {
    return {
      words: 'Slow to come and never properly warm; thin white growth. Good enough for the compost.',
      smell: 'good',
      look: 'doubtful',
      ready: true,
      verdict: 'poor',
      why: 'too-cool',
    };
  }
  if (stalledAtH !== null && stage === 'bran') {
    return {
      words: 'Stopped half way, a little sour underneath. Used up on the lower beds.',
      smell: 'doubtful',
      look: 'doubtful',
      ready: true,
      verdict: 'usable',
      why: 'uneven',
    };
  }
  return stage === 'bran'
    ? { ...fine, words: 'White all through, smells sweet and of mushrooms.', why: 'grew-white' }
    : { ...fine, words: 'Crumbly, dark, smells of the forest floor.', why: 'smelt-good' };
}

const fine = { smell: 'good', look: 'good', ready: true, verdict: 'good' } as const;
