/**
 * Every quantity that a probe can measure, in the order in which they are listed. The bounds never judge a pile: 85 °C in a
 * pile is news, 200 °C is a fault of the probe.
 */
import { dbwToDbm, fahrenheitToCelsius } from '../units.ts';
import type { Convert, QuantityFacts } from './quantity-facts.ts';

const asIs: Convert = (value) => value;
// One millionth of a unit is far below any probe; without it 105.8 °F would be 40.99999999999999 °C.
const rounded =
  (convert: Convert): Convert =>
  (value) =>
    Math.round(convert(value) * 1e6) / 1e6;

export const quantityFacts = {
  // One-wire chips span -55..125 °C (maker's data sheet); thermocouples are not expected in bran.
  temperature: {
    key: 'temperatureC',
    unit: '°C',
    min: -55,
    max: 125,
    from: { Cel: asIs, C: asIs, F: rounded(fahrenheitToCelsius), K: rounded((kelvin) => kelvin - 273.15) },
    isOfPile: true,
    shown: { decimals: 1 },
    alsoCalled: ['temperatures', 'temp', 'celsius', 'fahrenheit', 'degrees', 'degree', 'deg'],
  },
  // Uncropped values of digital chips reach -6..119 % (maker's conversion formula) and show saturation; people read 0..100.
  humidity: {
    key: 'humidityPct',
    unit: '%RH',
    min: -6,
    max: 119,
    from: { '%RH': asIs, '%': asIs, '/': rounded((fraction) => fraction * 100) },
    isOfPile: true,
    shown: { decimals: 0, within: [0, 100], axis: { sign: '%', end: 105 } },
    alsoCalled: ['relative humidity', 'rh'],
  },
  // Volumetric water content; a fraction on the wire becomes per cent here. Limits and recipes are of the wet mass: another thing.
  moisture: {
    key: 'moisturePct',
    unit: '% of volume',
    min: 0,
    max: 100,
    from: { '%': asIs, '/': rounded((fraction) => fraction * 100) },
    isOfPile: true,
    shown: { decimals: 0, axis: { sign: '%', least: 0 } },
    alsoCalled: ['vwc', 'water content'],
    described:
      'Volumetric water content as a soil probe reads it [% of volume]. Not comparable with moistures of recipes, samples, limits and the water balance, which are wet basis: per cent, or a fraction, of the wet mass.',
  },
  co2: {
    key: 'co2Ppm',
    unit: 'ppm',
    min: 0,
    max: 1_000_000,
    from: { ppm: asIs, '%': rounded((pct) => pct * 10_000) },
    isOfPile: true,
    shown: { decimals: 0, axis: { sign: 'ppm', least: 0 } },
    alsoCalled: ['carbon dioxide'],
  },
  battery: {
    key: 'batteryV',
    unit: 'V',
    min: 0,
    max: 60,
    from: { V: asIs, mV: rounded((millivolts) => millivolts / 1000) },
    isOfPile: false,
    shown: { decimals: 2 },
    alsoCalled: ['voltage', 'volts', 'volt'],
  },
  // Per cent of a full battery, where a device tells no voltage (%EL of RFC 8428 section 12.1).
  charge: {
    key: 'chargePct',
    unit: '%',
    min: 0,
    max: 100,
    from: { '%': asIs, '%EL': asIs, '/': rounded((fraction) => fraction * 100) },
    isOfPile: false,
    shown: { decimals: 0 },
    alsoCalled: ['battery percent', 'battery level'],
  },
  rssi: {
    key: 'rssiDbm',
    unit: 'dBm',
    min: -200,
    max: 50,
    from: { dBm: asIs, dBW: rounded(dbwToDbm) },
    isOfPile: false,
    shown: { decimals: 0 },
    alsoCalled: ['signal'],
  },
} as const satisfies Readonly<Record<string, QuantityFacts>>;
