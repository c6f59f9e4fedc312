/** Figures as a grower reads them, and the cautions that several warnings share. */
import { msPerHour, msPerMinute } from '../../shared/units.ts';

/** @example degrees(52.34) // => "52.3 °C" */
export function degrees(tempC: number): string {
  return `${tenths(tempC)} °C`;
}

export function tenths(value: number): string {
  return String(Math.round(value * 10) / 10);
}

export function percent(frac: number): string {
  return `${Math.round(frac * 100)} %`;
}

/** @example duration(3 * 3600e3) // => "3 hours" */
export function duration(ms: number): string {
  if (ms < 1.5 * msPerHour) return counted(Math.max(1, Math.round(ms / msPerMinute)), 'minute');
  if (ms < 48 * msPerHour) return counted(Math.round(ms / msPerHour), 'hour');
  return counted(Math.round(ms / (24 * msPerHour)), 'day');
}

function counted(count: number, one: string): string {
  return `${count} ${one}${count === 1 ? '' : 's'}`;
}

/** NIOSH Alert 94-102 (organic dust), HSE HSG53 (protection factor 20 and more for bioaerosols); both read second-hand. */
export const dustCaution =
  'Turning throws up mould spores and steam, and so does mixing: stand upwind, wear gloves and a close-fitting dust mask ' +
  '(FFP3, or at least N95), and wash afterwards. People with asthma, lung trouble or a weak immune system should leave it ' +
  'to others.';

export const wateringCaution =
  'Water cannot be taken out again: give a little at a time, mix it in, and squeeze a handful before giving more.';

export const fireCaution =
  'Hot, dry material can catch fire when it is opened to the air. Keep people back, have water at hand, and follow your fire service.';
