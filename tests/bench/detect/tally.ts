/**
 * The bench's figures: warnings against what truly was, summed over piles. An alarm is false unless the truth bears it out
 * within the windows written at `borneOut`.
 */

import { isProbeKind } from '../../../shared/conditions/kinds.ts';
import { stageLimits } from '../../../shared/stage.ts';
import type { Case } from './case.ts';
import { firstShown } from './columns.ts';
import type { Fault, Story } from './scenario.ts';
import { done, eatenPerDay, slowPerDay, wantedMoistureFrac } from './truth.ts';
import type { HourSaid, Raised, Watched } from './watch.ts';
import { sampleMin, samplesPerHour, type World } from './world.ts';

const hotC = stageLimits.bran.actC; // of both stages
const byHandH = 12;

interface Errors {
  sum: number;
  count: number;
}

export class Tally {
  piles = 0;
  healthyPiles = 0;
  weeks = 0;
  readonly counts: Record<string, number> = {};
  readonly leadsH: number[] = [];
  readonly delaysH: number[] = [];
  /** From the first reading over the limit until it was said. */
  readonly hotSaidAfterMin: number[] = [];
  readonly changesPerDay: number[] = [];
  readonly falseNames: string[] = [];
  readonly missedNames: string[] = [];
  private readonly errors: Record<string, Errors> = {};

  add(one: Case, watched: Watched): void {
    const { scenario, world, truth } = one;
    this.piles += 1;
    if (truth.healthy) this.healthyPiles += 1;
    this.weeks += scenario.days / 7;
    this.changesPerDay.push(watched.sentenceChanges / scenario.days);
    this.overheating(one, watched.raised);
    this.drying(one, watched.raised);
    this.stalling(one, watched.raised);
    this.probeFaults(one, watched.raised);
    if (one.isSwapped === true) {
      this.bump('swapped');
      if (watched.raised.some(({ kind }) => kind === 'probes-swapped')) this.bump('swapped seen');
    }
    for (const raised of watched.raised) {
      if (borneOut(one, raised)) continue;
      this.bump('false');
      this.bump(`false ${raised.kind}`);
      if (isProbeKind(raised.kind)) this.bump('false of probes');
      const ahead = world.coreC.slice(raised.sample, raised.sample + 24 * samplesPerHour);
      this.falseNames.push(
        `core ${(world.coreC[raised.sample] ?? 0).toFixed(1)} to ${Math.max(...ahead).toFixed(1)}, moisture ${(world.moistureFrac[raised.sample] ?? 0).toFixed(2)}, ` +
          `${scenario.name} ${raised.kind}/${raised.position} @${Math.round(raised.sample / samplesPerHour)}h`,
      );
    }
    for (const hour of watched.hours) this.hour(one, hour);
  }

  private overheating(one: Case, raised: readonly Raised[]): void {
    const { scenario, world, truth, gapH } = one;
    const at = truth.overheatedAt;
    if (at === null || coreUnknown(scenario, at)) return;
    const shownAt = firstShown(one, world, at, hotC);
    if (shownAt !== undefined) this.hotSaid(raised, shownAt, world);
    // Whoever comes by twice a day may come when it is over; a probe is meant to be there.
    if (shownAt === undefined && gapH >= byHandH) {
      this.bump('overheated, no reading shows it');
      return;
    }
    this.bump('overheated');
    const sayableAt = gapH === 0 ? at : (shownAt ?? at);
    const seen = raised.find(
      (alarm) =>
        alarm.kind === 'overheating' && alarm.untilSample >= at && alarm.sample <= sayableAt + 3 * samplesPerHour,
    );
    if (truth.clearlyHot) this.bump('overheated clearly');
    if (seen === undefined) this.missedNames.push(`${scenario.name} overheating @${at / samplesPerHour}h`);
    else {
      this.bump('overheated seen');
      if (truth.clearlyHot) this.bump('overheated clearly seen');
    }
    if (!truth.slowBuildUp) return;
    const first = raised.find(
      ({ kind, sample }) => (kind === 'overheating-soon' || kind === 'overheating') && within(sample, at, -24, 3),
    );
    this.leadsH.push(first === undefined ? 0 : Math.max(0, (at - first.sample) / samplesPerHour));
  }

  private hotSaid(raised: readonly Raised[], shownAt: number, { samples }: World): void {
    const said = raised.find(
      ({ kind, untilSample }) => (kind === 'overheating' || kind === 'self-heating') && untilSample >= shownAt,
    );
    this.hotSaidAfterMin.push(Math.max(0, (said?.sample ?? samples) - shownAt) * sampleMin);
  }

  private drying({ scenario, truth }: Case, raised: readonly Raised[]): void {
    const at = truth.driedAt;
    if (at === null || coreUnknown(scenario, at)) return;
    if (at === 0 && scenario.told.moistureFrac === undefined) {
      this.bump('laid dry, nobody said'); // the judge cannot know it, nor could anybody without a handful
      return;
    }
    this.bump('dried');
    const seen = raised.find((one) => one.kind === 'drying' && stoodAt(one, at, 48));
    if (seen === undefined) {
      this.missedNames.push(`${scenario.name} drying @${Math.round(at / samplesPerHour)}h`);
    } else this.bump('dried seen');
    if (truth.dried10At === null || truth.dried10At === 0) return; // laid that dry: nobody can be before it
    this.bump('dried10');
    if (seen !== undefined && seen.sample <= truth.dried10At) this.bump('dried10 before');
  }

  private stalling({ scenario, truth, gapH }: Case, raised: readonly Raised[]): void {
    const at = truth.stalledAt;
    if (at === null || coreUnknown(scenario, at)) return;
    if (scenario.days * 24 - at / samplesPerHour < 24) return; // the run ends before anybody could tell
    this.bump('stalled');
    const seen = raised.find((one) => one.kind === 'stalling' && stoodAt(one, at, 36 + gapH));
    if (seen === undefined) this.missedNames.push(`${scenario.name} stalling @${Math.round(at / samplesPerHour)}h`);
    else {
      this.bump('stalled seen');
      this.delaysH.push((seen.sample - at) / samplesPerHour);
    }
  }

  private probeFaults({ scenario, world }: Case, raised: readonly Raised[]): void {
    for (const fault of scenario.faults) {
      if (fault.kind === 'moved') continue;
      const at = fault.hour * samplesPerHour;
      const until = Math.min(world.samples, (fault.untilHour ?? Number.POSITIVE_INFINITY) * samplesPerHour);
      if (until - at < 24 * samplesPerHour) continue; // a probe may honestly repeat one value for half of that
      this.bump(`fault ${fault.kind}`);
      this.bump('fault');
      const wanted = fault.kind === 'silent' ? 'probe-silent' : fault.kind === 'stuck' ? 'probe-stuck' : 'probe-out';
      const seen = raised.some(({ kind, position, sample }) => {
        // Whatever kind names the fault at that probe: a pulled probe may be called out of the pile, a stuck one stuck.
        const named = kind === wanted || (fault.kind !== 'silent' && (kind === 'probe-out' || kind === 'probe-stuck'));
        return named && position === fault.position && within(sample, at, 0, 48);
      });
      if (seen) {
        this.bump('fault seen');
        this.bump(`fault ${fault.kind} seen`);
      } else this.missedNames.push(`${scenario.name} ${fault.kind}/${fault.position} @${Math.round(fault.hour)}h`);
    }
  }

  private hour({ scenario, world, gapH }: Case, said: HourSaid): void {
    const at = said.sample;
    if (at < firstFault(scenario)) {
      if (said.band !== null && at > 6 * samplesPerHour) {
        const core = world.coreC[at] ?? 0;
        this.err('expected band', core >= said.band.p10C && core <= said.band.p90C ? 1 : 0);
      }
    }
    // Where nothing of the bed stands behind an estimate, none is given.
    if (!Number.isNaN(said.moistureFrac)) {
      this.err('moisture', Math.abs(said.moistureFrac - (world.moistureFrac[at] ?? 0)) * 100);
    }
    const ageH = at / samplesPerHour;
    const later = at + 12 * samplesPerHour;
    if (ageH < 12 || ageH % 3 !== 0 || later >= world.samples) return;
    if (gapH === 0 && (said.coreC === null || said.riseKPerH === null || said.forecast12 === null)) return;
    if (later >= firstFault(scenario)) return;
    // Nobody can foresee a hand: forecasts over which a turn or a watering fell are left out, for every method alike.
    const handled = scenario.hands.some(({ hour }) => hour * 6 >= at - 1 && hour * 6 <= later);
    if (handled) return;
    if (gapH > 0) this.err('forecast given', said.forecast12 === null ? 0 : 1);
    if (said.coreC === null || said.forecast12 === null) return;
    const truth = world.coreC[later] ?? 0;
    this.err('forecast', Math.abs(said.forecast12.p50C - truth));
    this.err('persistence', Math.abs(said.coreC - truth));
    this.err('trend', Math.abs(said.coreC + 12 * (said.riseKPerH ?? 0) - truth));
    this.err('coverage', truth >= said.forecast12.p10C && truth <= said.forecast12.p90C ? 1 : 0);
  }

  figures(): Record<string, number> {
    const forecast = this.mean('forecast');
    return {
      piles: this.piles,
      healthy_piles: this.healthyPiles,
      overheating_recall: this.share('overheated seen', 'overheated'),
      overheating_clear_recall: this.share('overheated clearly seen', 'overheated clearly'),
      overheating_lead_h_median: median(this.leadsH),
      drying_recall: this.share('dried seen', 'dried'),
      drying_before_40pct_share: this.share('dried10 before', 'dried10'),
      stalling_recall: this.share('stalled seen', 'stalled'),
      stalling_delay_h_median: median(this.delaysH),
      probe_fault_recall: this.share('fault seen', 'fault'),
      false_alarms_per_pile_week: round((this.counts.false ?? 0) / this.weeks),
      forecast12h_mae_c: forecast,
      forecast12h_skill_persistence: round(1 - forecast / this.mean('persistence')),
      forecast12h_skill_trend: round(1 - forecast / this.mean('trend')),
      band_coverage: this.mean('coverage'),
      expected_band_coverage: this.mean('expected band'),
      moisture_mae_pct: this.mean('moisture'),
    };
  }

  /** What matters besides where readings are seldom or bad. */
  figuresOfReading(): Record<string, number> {
    return {
      ...this.figures(),
      hot_said_after_min_median: median(this.hotSaidAfterMin),
      hot_said_after_min_p90: quantile(this.hotSaidAfterMin, 0.9),
      false_probe_faults_per_pile_week: round((this.counts['false of probes'] ?? 0) / this.weeks),
      sentence_changes_per_day_median: median(this.changesPerDay),
      forecast12h_given_share: this.mean('forecast given'),
    };
  }

  /** A count, by name; names are for the table. */
  private bump(name: string): void {
    this.counts[name] = (this.counts[name] ?? 0) + 1;
  }

  private err(name: string, value: number): void {
    this.errors[name] ??= { sum: 0, count: 0 };
    const errors = this.errors[name];
    errors.sum += value;
    errors.count += 1;
  }

  private mean(name: string): number {
    const errors = this.errors[name];
    return errors === undefined || errors.count === 0 ? Number.NaN : round(errors.sum / errors.count);
  }

  private share(part: string, whole: string): number {
    return round((this.counts[part] ?? 0) / (this.counts[whole] ?? Number.NaN));
  }
}

/** Whether the truth bears an alarm out. */
function borneOut(
  { scenario, world, truth, gapH, isSwapped = false }: Case,
  { kind, position, sample }: Raised,
): boolean {
  const any = (series: Float64Array, fromH: number, toH: number, holds: (value: number) => boolean): boolean => {
    const from = Math.max(0, Math.round(sample + fromH * samplesPerHour));
    const to = Math.min(world.samples - 1, Math.round(sample + toH * samplesPerHour));
    for (let at = from; at <= to; at += 1) if (holds(series[at] ?? Number.NaN)) return true;
    return false;
  };
  const hotter = (fromH: number, toH: number, limitC: number): boolean =>
    [world.coreC, world.topC, world.baseC].some((series) => any(series, fromH, toH, (value) => value > limitC));
  switch (kind) {
    case 'self-heating':
      return hotter(-3, 1, 64.5);
    case 'overheating':
      // Half a degree is the chip's own error.
      return hotter(-3, 1, 49.5);
    case 'heat-doubted':
      return hotter(-1, 0, 49.5);
    case 'heat-damage':
      // An hour and a half of heat by the truth: the probe may read half a degree high.
      return [world.coreC, world.topC, world.baseC].some(
        (series) =>
          series.subarray(0, sample + 1).filter((value) => value >= stageLimits[scenario.stage].lossC - 0.5).length >=
          1.5 * samplesPerHour,
      );
    case 'overheating-soon':
      // Somebody's hand on the pile may have kept it from happening; then 47 °C is near enough.
      return (
        hotter(0, 24, 49) || (scenario.hands.some(({ hour }) => within(hour * 6, sample, 0, 24)) && hotter(0, 24, 47))
      );
    case 'bad-smell':
    case 'wrong-growth':
    case 'hand-wet':
    case 'hand-dry':
      return false; // nobody notes anything here
    case 'probes-swapped':
      return isSwapped;
    case 'drying':
      return any(world.moistureFrac, -1, 24, (value) => value < wantedMoistureFrac[scenario.stage]);
    case 'stalling':
      return (
        (truth.stalledAt !== null && within(sample, truth.stalledAt, -24, 1000)) ||
        (eatenPerDay(world, sample) < slowPerDay && !done(scenario, world, sample, 0.85))
      );
    case 'chilled':
      return any(world.coreC, -6, 6, (value) => value < 16);
    case 'waterlogged':
      // Below 5 % oxygen composting is no longer well aired (Cooperband 2002, second-hand).
      return any(world.oxygenFrac, -12, 12, (value) => value < 0.05);
    case 'uneven':
      return spreadNear(world, sample) > 9;
    case 'probe-silent':
      return scenario.faults.some(
        (fault) => fault.kind === 'silent' && fault.position === position && atWork(fault, sample, 0.5 + gapH),
      );
    case 'probe-stuck':
    case 'probe-out':
      // Known only after hours of it, it may be said when it has just passed.
      return scenario.faults.some(
        (fault) => fault.kind !== 'silent' && fault.position === position && atWork(fault, sample, 12 + gapH),
      );
  }
}

function spreadNear(world: World, sample: number): number {
  const values = [world.coreC[sample] ?? 0, world.topC[sample] ?? 0, world.baseC[sample] ?? 0];
  return Math.max(...values) - Math.min(...values);
}

/** Nobody can tell what a core does whose probe does not; nor in the half day that the judge needs to find back into it. */
function coreUnknown({ faults }: Story, at: number): boolean {
  return faults.some((fault) => fault.position === 'core' && atWork(fault, at + samplesPerHour, 12));
}

function atWork({ hour, untilHour = Number.POSITIVE_INFINITY }: Fault, sample: number, afterH: number): boolean {
  return sample >= hour * samplesPerHour && sample < (untilHour + afterH) * samplesPerHour;
}

/** Sample from which on a probe of the pile is or was at fault. */
function firstFault({ faults }: Story): number {
  return Math.min(...faults.map(({ hour }) => hour * samplesPerHour), Number.POSITIVE_INFINITY);
}

/** Whether an alarm stood when the trouble began, or came within so many hours of it. */
function stoodAt({ sample, untilSample }: Raised, at: number, lateH: number): boolean {
  return untilSample >= at && sample <= at + lateH * samplesPerHour;
}

function within(sample: number, at: number, fromH: number, toH: number): boolean {
  const hours = (sample - at) / samplesPerHour;
  return hours >= fromH && hours <= toH;
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((one, other) => one - other);
  const middle = sorted.length / 2;
  const value =
    sorted.length % 2 === 1
      ? sorted[Math.floor(middle)]
      : ((sorted[middle - 1] ?? Number.NaN) + (sorted[middle] ?? Number.NaN)) / 2;
  return value === undefined ? Number.NaN : round(value);
}

function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((one, other) => one - other);
  return sorted[Math.floor(share * (sorted.length - 1))] ?? Number.NaN;
}

function round(value: number): number {
  return Math.round(value * 1000) / 1000;
}
