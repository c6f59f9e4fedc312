/** Likelihoods in words. It never says certain. */
export { chancesInTen } from '../../../../core/forecast/chances.ts';

const likelihoodNames = ['very unlikely', 'unlikely', 'about as likely as not', 'likely', 'very likely'] as const;
export type LikelihoodName = (typeof likelihoodNames)[number];

export function likelihoodName(likelihood: number): LikelihoodName {
  if (likelihood >= 0.9) return 'very likely';
  if (likelihood >= 0.66) return 'likely';
  if (likelihood >= 0.33) return 'about as likely as not';
  return likelihood >= 0.1 ? 'unlikely' : 'very unlikely';
}
