/**
 * What was measured, beside what composting rules ask: facts for the reader. It never says that a rule is met. Rules
 * ask for more than time and heat at one probe (the whole mass, the feedstocks, the papers), and this culture is kept
 * cooler on purpose.
 */
import type { RuleFact } from '../../shared/contracts/records.ts';
import { fahrenheitToCelsius, msPerHour } from '../../shared/units.ts';
import { type HeatBand, type HeatLog, startHeatLog } from './heat-log.ts';

const noTop = Number.POSITIVE_INFINITY;
/** 131 to 170 °F, as 7 CFR 205.203(c)(2) writes it. */
const organicBand: HeatBand = { fromC: fahrenheitToCelsius(131), toC: fahrenheitToCelsius(170) };
const atLeast = (fromC: number): HeatBand => ({ fromC, toC: noTop });

/** Shown as plain hours; the first is where the culture is told to be turned. */
const shownFromC = [40, 50, 55, 60, 65, 70] as const;

const above55: HeatBand = { fromC: 55, toC: noTop, above: true };

/** Bands in the order of the log below. */
const bands: readonly HeatBand[] = [...shownFromC.map(atLeast), organicBand, above55];

export function startRuleLog(): HeatLog {
  return startHeatLog(bands);
}

/** @returns The same band of the log, which startRuleLog made. */
function time(log: HeatLog, band: HeatBand) {
  const found = log.bands.find(
    (one) => one.band.fromC === band.fromC && one.band.toC === band.toC && one.band.above === band.above,
  );
  if (!found)
    throw new RangeError(`Cannot read a heat log as its bands must be those of the rules: no ${band.fromC} °C`);
  return found;
}

export function hoursAtLeast(log: HeatLog): { tempC: number; totalH: number; longestRunH: number }[] {
  return shownFromC.map((tempC) => {
    const { totalMs, longestMs } = time(log, atLeast(tempC));
    return { tempC, totalH: toHours(totalMs), longestRunH: toHours(longestMs) };
  });
}

/** Hours to a hundredth, rounded down: 71 h 59 min must not be shown as 72. */
export function toHours(spanMs: number): number {
  return Math.floor(spanMs / (msPerHour / 100)) / 100;
}

/** @param turnsAtMs When turns were logged. */
export function ruleFacts(log: HeatLog, turnsAtMs: readonly number[]): RuleFact[] {
  const organic = time(log, organicBand);
  const at = (tempC: number) => time(log, atLeast(tempC));
  const over = time(log, above55);
  const turnsWithin = ({ firstAtMs, lastAtMs }: { firstAtMs: number | null; lastAtMs: number | null }) =>
    turnsAtMs.filter((atMs) => firstAtMs !== null && lastAtMs !== null && atMs >= firstAtMs && atMs <= lastAtMs).length;
  const longest = (spanMs: number, band: string) => `longest run ${hours(spanMs)} ${band}`;
  const inBand = longest(organic.longestMs, 'within 131 to 170 °F');
  return [
    {
      rule: 'US organic, in-vessel or static aerated pile',
      source: '7 CFR 205.203(c)(2)(ii)',
      standing: 'seen',
      asks: '131 to 170 °F (55 to 76.7 °C) for 3 days (72 h)',
      measured: inBand,
    },
    {
      rule: 'US organic, windrow',
      source: '7 CFR 205.203(c)(2)(iii)',
      standing: 'seen',
      asks: '131 to 170 °F (55 to 76.7 °C) for 15 days (360 h), turned at least 5 times in that time',
      measured: `${inBand}; ${turned(turnsWithin(organic))} between the first and last reading there`,
    },
    {
      rule: 'US sewage sludge, composting to significantly reduce pathogens',
      source: '40 CFR 503 Appendix B(A)(4), read in 40 CFR 257 Appendix II',
      standing: 'seen',
      asks: '40 °C or more for 5 days (120 h), and above 55 °C for 4 hours within them',
      measured: `${longest(at(40).longestMs, 'at or above 40 °C')}; ${hours(over.totalMs)} above 55 °C in all`,
    },
    {
      rule: 'US sewage sludge, windrow composting to further reduce pathogens',
      source: '40 CFR 503 Appendix B(B)(1), read in 40 CFR 257 Appendix II',
      standing: 'seen',
      asks: '55 °C or more for 15 days (360 h), turned at least 5 times (in vessel or aerated: 3 days)',
      measured: `${longest(at(55).longestMs, 'at or above 55 °C')}; ${turned(turnsWithin(at(55)))} between the first and last reading there`,
    },
    {
      rule: 'Australian standard for composts',
      source: 'AS 4454-2012, clause 3.2.1',
      standing: 'from memory',
      asks: 'the whole mass at 55 °C or more for 3 days in a row, turned at least 3 times',
      measured: `${longest(at(55).longestMs, 'at or above 55 °C')}; ${turned(turnsAtMs.length)} in all`,
    },
    {
      rule: 'UK specification for composted materials',
      source: 'BSI PAS 100',
      standing: 'from memory',
      asks: '65 °C or more for 7 days (168 h), not necessarily in a row, with at least 2 turns',
      measured: `${hours(at(65).totalMs)} at or above 65 °C in all; ${turned(turnsAtMs.length)} in all`,
    },
    {
      rule: 'EU fertilising products, compost (CMC 3)',
      source: 'Regulation (EU) 2019/1009, Annex II Part II',
      standing: 'from memory',
      asks: 'one of 70 °C for 3 days, 65 °C for 5, 60 °C for 7, 55 °C for 14',
      measured: `${[70, 65, 60, 55].map((tempC) => `${hours(at(tempC).longestMs)} at ${tempC} °C`).join(', ')} (longest runs)`,
    },
  ];
}

export const recordSays = [
  'Not sanitised. The culture is kept cooler than any of these rules ask, so nothing here shows that pathogens or seeds were killed.',
  'This is not a certification: it tells what was measured at one place of the heap and what people wrote down. Ask your certifier or authority what your own rules want.',
] as const;

function hours(spanMs: number): string {
  return `${toHours(spanMs)} h`;
}

function turned(count: number): string {
  return count === 1 ? '1 turn logged' : `${count} turns logged`;
}
