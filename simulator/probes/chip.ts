/** How real chips misread what they touch. */

export interface Chip {
  /** Spread of the fixed error from chip to chip, and of the jitter from reading to reading [K]. */
  readonly offsetSdK: number;
  readonly noiseSdK: number;
  readonly stepK: number;
  /** Time in which the probe in its sheath closes 63 % of a change [s]. */
  readonly lagS: number;
  /** Value it gives when its sensing end is missing [°C]; undefined when it then gives none. */
  readonly missingC: number | undefined;
  readonly humidity: HumidityChip | undefined;
}

interface HumidityChip {
  readonly offsetSdPct: number;
  readonly noiseSdPct: number;
  readonly stepPct: number;
  readonly lagS: number;
  /** How far it creeps upwards after days of saturation [%RH], and how fast [h]. */
  readonly creepPct: number;
  readonly creepH: number;
}

export const chipNames = ['one-wire', 'damp-air', 'half-degree', 'whole-degree', 'whole-fahrenheit'] as const;
export type ChipName = (typeof chipNames)[number];

/*
 * one-wire: DS18B20 data sheet: ±0.5 °C from -10 to 85 °C, 12 bit = 1/16 °C; -127 is what driver libraries give when
 * the wire is cut (from memory). ±0.5 is taken as 2.5 standard deviations.
 * damp-air: SHT4x data sheet: 0.01 K and 0.01 %RH steps, ±0.2 °C, ±1.8 %RH; creep up to 3 %RH after 60 h above
 * 80 %RH (SHT1x data sheet, same note for its followers from memory). Lags are of the sheath: assumptions.
 * The last three are senders that show coarse steps, and thermometers with a stem; common practice, no source.
 */
const coarse = { offsetSdK: 0.4, noiseSdK: 0.1, lagS: 60, missingC: undefined, humidity: undefined } as const;
export const chips: Record<ChipName, Chip> = {
  'one-wire': { offsetSdK: 0.2, noiseSdK: 0.03, stepK: 0.0625, lagS: 120, missingC: -127, humidity: undefined },
  'damp-air': {
    offsetSdK: 0.08,
    noiseSdK: 0.02,
    stepK: 0.01,
    lagS: 180,
    missingC: undefined,
    humidity: { offsetSdPct: 0.8, noiseSdPct: 0.1, stepPct: 0.01, lagS: 300, creepPct: 3, creepH: 30 },
  },
  'half-degree': { ...coarse, stepK: 0.5 },
  'whole-degree': { ...coarse, stepK: 1 },
  'whole-fahrenheit': { ...coarse, stepK: 5 / 9 },
};

/** Value of a one-wire chip that was read before it had measured: raw 0x0550 (data sheet) [°C]. */
export const powerOnC = 85;
