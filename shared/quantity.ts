/**
 * What a probe can measure, in which unit we keep it, and which values no probe can mean. It never judges a pile: 85 °C
 * in a pile is news, 200 °C is a fault of the probe.
 */
import { z } from 'zod';

export const quantities = ['temperature', 'humidity', 'moisture', 'co2', 'battery', 'rssi'] as const;
export const quantitySchema = z.enum(quantities);
export type Quantity = z.infer<typeof quantitySchema>;

/** Describes a field of the API that holds what a soil probe reads. */
export const volumetric =
  'Volumetric water content as a soil probe reads it [% of volume]. Not comparable with moistures of recipes, samples, limits and the water balance, which are wet basis: per cent, or a fraction, of the wet mass.';

export interface QuantityFacts {
  /** Key under which the value travels in the API. */
  readonly key: string;
  readonly unit: string;
  /** Smallest and largest value a probe of any kind can mean; outside it the reading is refused. */
  readonly min: number;
  readonly max: number;
}

export const quantityFacts = {
  // One-wire chips span -55..125 °C (maker's data sheet); thermocouples are not expected in bran.
  temperature: { key: 'temperatureC', unit: '°C', min: -55, max: 125 },
  // Uncropped values of digital chips reach -6..119 % (maker's conversion formula) and show saturation.
  humidity: { key: 'humidityPct', unit: '%RH', min: -6, max: 119 },
  // Volumetric water content; a fraction on the wire becomes per cent here. Limits and recipes are of the wet mass: another thing.
  moisture: { key: 'moisturePct', unit: '% of volume', min: 0, max: 100 },
  co2: { key: 'co2Ppm', unit: 'ppm', min: 0, max: 1_000_000 },
  battery: { key: 'batteryV', unit: 'V', min: 0, max: 60 },
  rssi: { key: 'rssiDbm', unit: 'dBm', min: -200, max: 50 },
} as const satisfies Record<Quantity, QuantityFacts>;
