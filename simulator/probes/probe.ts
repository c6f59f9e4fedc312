/** A probe that feels with a lag, misreads like its chip and fails on demand. */
import type { Position } from '../../shared/names.ts';
import type { Quantity } from '../../shared/quantity.ts';
import type { Random } from '../model/random.ts';
import { type Chip, type ChipName, chips, powerOnC } from './chip.ts';
import { type Fault, faultAt } from './fault.ts';
import { mixed, type Truth } from './truth.ts';

export interface ProbeSetup {
  readonly name: string;
  readonly position: Position;
  /** Below the surface [m]; by position when left out. */
  readonly depthM?: number | undefined;
  readonly chip: ChipName;
  readonly everyS: number;
  /** Quantities beside those of its chip. */
  readonly also: readonly ('moisture' | 'co2')[];
  readonly faults: readonly Fault[];
}

export type Values = Partial<Record<Quantity, number>>;

export interface Probe {
  readonly setup: ProbeSetup;
  readonly chip: Chip;
  readonly random: Random;
  readonly offsetK: number;
  readonly offsetPct: number;
  /** How prone this one is to creep, as a share of the chip's worst [-]. */
  readonly creepShare: number;
  /** What the sensing end has come to [°C, %RH], and how far humidity has crept [%RH]. */
  feltC: number;
  feltPct: number;
  creptPct: number;
  lastAtMs: number;
  lastValues: Values;
  batteryV: number;
}

export function createProbe(setup: ProbeSetup, random: Random): Probe {
  const chip = chips[setup.chip];
  return {
    setup,
    chip,
    random,
    offsetK: random.normal() * chip.offsetSdK,
    offsetPct: random.normal() * (chip.humidity?.offsetSdPct ?? 0),
    creepShare: random.between(0.2, 1),
    feltC: Number.NaN,
    feltPct: Number.NaN,
    creptPct: 0,
    lastAtMs: Number.NaN,
    lastValues: {},
    batteryV: random.between(3.05, 3.3),
  };
}

/**
 * Measures once.
 *
 * @param truth At the probe's place.
 * @param aside In the air beside the pile, where a probe that was pulled out lies.
 * @param afterH Since the pile was laid [h].
 * @returns Values to send; undefined when the probe is out of power.
 */
export function measure(probe: Probe, truth: Truth, aside: Truth, atMs: number, afterH: number): Values | undefined {
  const { chip, setup, random } = probe;
  const { faults } = setup;
  const flat = faultAt(faults, 'flat-battery', afterH);
  if (flat !== undefined && afterH >= flat.fromH + 24) return undefined;

  const felt = faultAt(faults, 'pulled-out', afterH) === undefined ? truth : mixed(truth, aside, 1);
  feel(probe, felt, atMs);
  const stuck = faultAt(faults, 'stuck', afterH);
  if (stuck !== undefined && probe.lastValues.temperature !== undefined) return { ...probe.lastValues };

  const values: Values = {};
  const drift = faultAt(faults, 'drifting', afterH);
  const drifted = drift === undefined ? 0 : (drift.perDayK * (afterH - drift.fromH)) / 24;
  const tempC = probe.feltC + probe.offsetK + drifted + random.normal() * chip.noiseSdK;
  values.temperature = rounded(tempC, chip.stepK);
  if (chip.humidity !== undefined) {
    const { noiseSdPct, stepPct } = chip.humidity;
    // Even good chips read high near saturation; the uncropped value may pass 100.
    const high = Math.max(0, probe.feltPct - 90) * 0.05;
    const rh = probe.feltPct + high + probe.offsetPct + probe.creptPct + random.normal() * noiseSdPct;
    values.humidity = rounded(Math.min(119, Math.max(0, rh)), stepPct);
  }
  if (setup.also.includes('moisture'))
    values.moisture = rounded(Math.min(100, Math.max(0, felt.moisturePct + random.normal())), 0.1);
  if (setup.also.includes('co2')) values.co2 = rounded(Math.max(400, felt.co2Ppm * (1 + 0.03 * random.normal())), 10);
  probe.lastValues = { ...values };

  const powerOn = faultAt(faults, 'power-on', afterH);
  if (powerOn !== undefined && random.next() < powerOn.share) values.temperature = powerOnC;
  if (faultAt(faults, 'unplugged', afterH) !== undefined) {
    delete values.humidity;
    if (chip.missingC === undefined) delete values.temperature;
    else values.temperature = chip.missingC;
  }
  // A fresh pair of cells loses about half a millivolt a day; a dying one falls by 0.7 V in its last day.
  const dying = flat === undefined ? 0 : (0.7 * (afterH - flat.fromH)) / 24;
  values.battery = rounded(probe.batteryV - 0.0005 * (afterH / 24) - dying + 0.003 * random.normal(), 0.01);
  return values;
}

/** First-order lag towards what is true, exact for a truth that stays. */
function feel(probe: Probe, truth: Truth, atMs: number): void {
  const { chip } = probe;
  if (Number.isNaN(probe.lastAtMs)) {
    probe.feltC = truth.tempC;
    probe.feltPct = truth.rhPct;
  } else {
    const dtS = (atMs - probe.lastAtMs) / 1000;
    probe.feltC += (truth.tempC - probe.feltC) * -Math.expm1(-dtS / chip.lagS);
    if (chip.humidity !== undefined) {
      const { lagS, creepPct, creepH } = chip.humidity;
      probe.feltPct += (truth.rhPct - probe.feltPct) * -Math.expm1(-dtS / lagS);
      const towards = probe.feltPct > 80 ? creepPct * probe.creepShare : 0;
      probe.creptPct += (towards - probe.creptPct) * -Math.expm1(-dtS / (creepH * 3600));
    }
  }
  probe.lastAtMs = atMs;
}

/** To the chip's step, without the tail that binary fractions leave. */
function rounded(value: number, step: number): number {
  return Number((Math.round(value / step) * step).toFixed(4));
}
