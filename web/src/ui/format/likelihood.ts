/**
 * web/format/likelihood.ts: likelihoods in words.
 *
 * Takes:  a likelihood from 0 to 1.
 * Gives:  the words of the IPCC's calibrated scale (Mastrandrea et al. 2010, bounds from memory), and chances in ten.
 * Never:  says certain.
 */
export { chancesInTen } from '../../../../core/forecast/chances.ts';

export const likelihoodNames = [
  'very unlikely',
  'unlikely',
  'about as likely as not',
  'likely',
  'very likely',
] as const;
export type LikelihoodName = (typeof likelihoodNames)[number];

export function likelihoodName(likelihood: number): LikelihoodName {
  if (likelihood >= 0.9) return 'very likely';
  if (likelihood >= 0.66) return 'likely';
  if (likelihood >= 0.33) return 'about as likely as not';
  return likelihood >= 0.1 ? 'unlikely' : 'very unlikely';
}
