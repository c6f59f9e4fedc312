/** Likelihoods in words. It never says certain. */

const likelihoodNames = ['very unlikely', 'unlikely', 'about as likely as not', 'likely', 'very likely'] as const;
export type LikelihoodName = (typeof likelihoodNames)[number];

export function likelihoodName(likelihood: number): LikelihoodName {
  if (likelihood >= 0.9) return 'very likely';
  if (likelihood >= 0.66) return 'likely';
  if (likelihood >= 0.33) return 'about as likely as not';
  return likelihood >= 0.1 ? 'unlikely' : 'very unlikely';
}

/** @example chancesInTen(0.78) // => "8 chances in 10" */
export function chancesInTen(likelihood: number): string {
  if (likelihood > 0.95) return 'more than 9 chances in 10';
  if (likelihood < 0.05) return 'less than 1 chance in 10';
  const chances = Math.min(9, Math.max(1, Math.round(likelihood * 10)));
  return `${chances} ${chances === 1 ? 'chance' : 'chances'} in 10`;
}
