/** Likelihoods by name; their words stand where a sentence has one. Nothing is ever called certain. */

const likelihoodNames = ['very-unlikely', 'unlikely', 'even', 'likely', 'very-likely'] as const;
export type LikelihoodName = (typeof likelihoodNames)[number];

export function likelihoodName(likelihood: number): LikelihoodName {
  if (likelihood >= 0.9) return 'very-likely';
  if (likelihood >= 0.66) return 'likely';
  if (likelihood >= 0.33) return 'even';
  return likelihood >= 0.1 ? 'unlikely' : 'very-unlikely';
}

/** @returns 1 to 9; 10 stands for "more than nine". @example chancesInTen(0.78) // => 8 */
export function chancesInTen(likelihood: number): number {
  return likelihood > 0.95 ? 10 : Math.min(9, Math.max(1, Math.round(likelihood * 10)));
}
