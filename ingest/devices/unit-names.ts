/** Units as devices write them, as `quantityFacts` names them. */
import type { Quantity } from '../../shared/quantity.ts';

const names: Readonly<Record<Quantity, Readonly<Record<string, string>>>> = {
  temperature: { '°C': 'C', C: 'C', Cel: 'C', '°F': 'F', F: 'F', K: 'K', '℃': 'C', '℉': 'F' },
  humidity: { '%': '%', '%RH': '%RH', '% RH': '%RH' },
  moisture: { '%': '%' },
  co2: { ppm: 'ppm' },
  battery: { V: 'V', mV: 'mV' },
  rssi: { dBm: 'dBm', dB: 'dBm' },
};

/** @returns undefined where the unit is none of this quantity; the kept one where the device says none. */
export function unitNamed(quantity: Quantity, text: string | undefined): string | undefined {
  const known = names[quantity];
  if (text === undefined || text === '') return Object.values(known)[0];
  return Object.hasOwn(known, text) ? known[text] : undefined;
}
