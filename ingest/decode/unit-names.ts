/** Units as devices write them, as `quantityFacts` names them. */
import { type Quantity, quantityFacts } from '../../shared/quantity.ts';

/** Spellings beside those of `quantityFacts`. */
const spellings: Readonly<Partial<Record<Quantity, Readonly<Record<string, string>>>>> = {
  temperature: { '°C': 'C', '℃': 'C', '°F': 'F', '℉': 'F' },
  humidity: { '% RH': '%RH' },
  rssi: { dB: 'dBm' },
};

/** @returns undefined where the unit is none of this quantity; the kept one where the device says none. */
export function unitNamed(quantity: Quantity, text: string | undefined): string | undefined {
  const units = Object.keys(quantityFacts[quantity].from);
  if (text === undefined || text === '') return units[0];
  const spelt = spellings[quantity] ?? {};
  const unit = Object.hasOwn(spelt, text) ? spelt[text] : text;
  return units.find((one) => one === unit);
}
