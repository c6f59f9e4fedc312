/**
 * What can hurt in the work, each said in one way wherever it is said. Local codes and licensed practice come first.
 *
 * | caution | source, all second-hand |
 * |---|---|
 * | spores, colouredMould, smelling | NIOSH Alert 94-102 (organic dust); HSE HSG53 (protection factor 20 and more for bioaerosols) |
 * | dryBran | NIOSH Alert 94-102 |
 * | ammonia | NIOSH (25 ppm over a shift; about 20 ppm is smelt) |
 * | using | 7 CFR 205.203(c)(1) (raw manure, 90 and 120 days) |
 * | foulAir, shedAir, fire, deep, scald, unknownHeat, watering, handful, hotHandful | common practice, no source |
 */
import { message } from '../../shared/messages/message.ts';
import { handInBelowC } from '../../shared/squeeze.ts';

export const cautions = {
  spores: message('caution.spores'),
  colouredMould: message('caution.coloured-mould'),
  dryBran: message('caution.dry-bran'),
  smelling: message('caution.smelling'),
  ammonia: message('caution.ammonia'),
  foulAir: message('caution.foul-air'),
  shedAir: message('caution.shed-air'),
  fire: message('caution.fire'),
  deep: message('caution.deep'),
  scald: message('caution.scald'),
  unknownHeat: message('caution.unknown-heat'),
  watering: message('caution.watering'),
  using: message('caution.using'),
  handful: message('caution.handful'),
  hotHandful: message('caution.handful-by-fork', { hotC: handInBelowC }),
} as const;
