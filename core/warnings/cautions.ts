/** What can hurt while a warning is seen to. Local codes and licensed practice come first. */
import { message } from '../../shared/messages/message.ts';

/** NIOSH Alert 94-102 (organic dust), HSE HSG53 (protection factor 20 and more for bioaerosols); both read second-hand. */
export const dustCaution = message('warnings.caution.dust');

export const wateringCaution = message('warnings.caution.watering');

export const fireCaution = message('warnings.caution.fire');

/** About 20 ppm is smelt, 25 ppm is the most for a working day (NIOSH; both read second-hand). */
export const ammoniaCaution = message('warnings.caution.ammonia');

export const sporeCaution = message('warnings.caution.spores');

export const foulCaution = message('warnings.caution.foul');

export const sourCaution = message('warnings.caution.sour');

/** Of a core whose probe cannot be believed. */
export const unknownHeatCaution = message('warnings.caution.unknown-heat');
