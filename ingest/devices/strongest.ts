/** How strongly the best of several gateways heard a device. */
import { type DeviceValue, isObject } from './family.ts';

const mostGateways = 64;

export function strongest(heardBy: unknown, where: string): DeviceValue[] {
  if (!Array.isArray(heardBy)) return [];
  const all = heardBy
    .slice(0, mostGateways)
    .flatMap((one: unknown) => (isObject(one) && typeof one.rssi === 'number' ? [one.rssi] : []));
  return all.length === 0 ? [] : [{ quantity: 'rssi', part: '', found: Math.max(...all), unit: 'dBm', where }];
}
