/** How a person found a batch once it was over, and the one reason that weighed most. */

/** The best first. */
export const verdicts = ['good', 'usable', 'poor', 'lost'] as const;
export type Verdict = (typeof verdicts)[number];

/** What went well, then what went wrong; what is none of these stands in the person's own words. */
export const goodReasons = ['smelt-good', 'grew-white', 'kept-warm'] as const;
export const badReasons = [
  'too-hot',
  'too-cool',
  'too-wet',
  'too-dry',
  'smelt-bad',
  'other-growth',
  'pests',
  'uneven',
] as const;
export const verdictReasons = [...goodReasons, ...badReasons] as const;
export type VerdictReason = (typeof verdictReasons)[number];
