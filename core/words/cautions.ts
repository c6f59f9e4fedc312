/**
 * What can hurt in the work that is being planned. Local codes and licensed practice come first.
 *
 * Sources, all second-hand: NIOSH Alert 94-102 (organic dust), HSE HSG53 (masks for bioaerosols), NIOSH on ammonia (25
 * ppm over a shift), 7 CFR 205.203(c)(1) (raw manure, 90 and 120 days).
 */
import { dustCaution } from './words.ts';

export const mixingCaution = dustCaution;

export const shedCaution =
  'In a shed, air it before going in: a working heap uses up oxygen and gives off carbon dioxide, and ammonia if it is wet.';

export const usingCaution =
  'It is not sanitised: keep it off plant parts that are eaten raw and wash hands after use. Where any manure is in it, ' +
  'your rules on days before harvest apply (in US organic farming 90 or 120).';
