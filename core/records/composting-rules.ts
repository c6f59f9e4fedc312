/**
 * What was measured, beside what composting rules ask: facts for the reader. It never says that a rule is met. Rules
 * ask for more than time and heat at one probe (the whole mass, the feedstocks, the papers), and this culture is kept
 * cooler on purpose.
 */
import type { RuleFact } from '../../shared/contracts/records.ts';
import { type Message, message } from '../../shared/messages/message.ts';
import { fahrenheitToCelsius, msPerHour } from '../../shared/units.ts';
import { type HeatBand, type HeatLog, startHeatLog } from './heat-log.ts';

/** One rule beside what was measured, as the API gives it before it has words. */
export type RuleView = Pick<RuleFact, 'standing' | 'messages'>;

const noTop = Number.POSITIVE_INFINITY;
/** 131 to 170 °F, as 7 CFR 205.203(c)(2) writes it. */
const organicBand: HeatBand = { fromC: fahrenheitToCelsius(131), toC: fahrenheitToCelsius(170) };
const atLeast = (fromC: number): HeatBand => ({ fromC, toC: noTop });

/** Shown as plain hours [°C]; our own choice of steps, no rule is read from them. */
const shownFromC = [40, 50, 55, 60, 65, 70] as const;

/** More than 55 °C, as 40 CFR 503, appendix B, asks (`rule.us-sludge-reduce.asks`). */
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
export function ruleFacts(log: HeatLog, turnsAtMs: readonly number[]): RuleView[] {
  return [...rulesOfTheUs(log, turnsAtMs), ...rulesElsewhere(log, turnsAtMs)];
}

function rulesOfTheUs(log: HeatLog, turnsAtMs: readonly number[]): RuleView[] {
  const organic = time(log, organicBand);
  const at55 = time(log, atLeast(55));
  const turnsWithin = ({ firstAtMs, lastAtMs }: { firstAtMs: number | null; lastAtMs: number | null }) =>
    turnsAtMs.filter((atMs) => firstAtMs !== null && lastAtMs !== null && atMs >= firstAtMs && atMs <= lastAtMs).length;
  const longestHours = toHours(organic.longestMs);
  return [
    rule(
      'us-organic-vessel',
      'seen',
      message('rule.us-organic-vessel.asks'),
      message('rule.measured.organic', { longestHours }),
    ),
    rule(
      'us-organic-windrow',
      'seen',
      message('rule.us-organic-windrow.asks'),
      message('rule.measured.organic-turned', { longestHours, turnCount: turnsWithin(organic) }),
    ),
    rule(
      'us-sludge-reduce',
      'seen',
      message('rule.us-sludge-reduce.asks', { lowC: 40, highC: 55 }),
      message('rule.measured.at-and-above', {
        longestHours: toHours(time(log, atLeast(40)).longestMs),
        lowC: 40,
        aboveHours: toHours(time(log, above55).totalMs),
        highC: 55,
      }),
    ),
    rule(
      'us-sludge-windrow',
      'seen',
      message('rule.us-sludge-windrow.asks', { highC: 55 }),
      message('rule.measured.at-turned', {
        longestHours: toHours(at55.longestMs),
        highC: 55,
        turnCount: turnsWithin(at55),
      }),
    ),
  ];
}

function rulesElsewhere(log: HeatLog, turnsAtMs: readonly number[]): RuleView[] {
  const at = (tempC: number) => time(log, atLeast(tempC));
  const longestAt55 = toHours(at(55).longestMs);
  return [
    rule(
      'au-compost',
      'from memory',
      message('rule.au-compost.asks', { highC: 55 }),
      message('rule.measured.at-turned-in-all', { longestHours: longestAt55, highC: 55, turnCount: turnsAtMs.length }),
    ),
    rule(
      'uk-compost',
      'from memory',
      message('rule.uk-compost.asks', { highC: 65 }),
      message('rule.measured.in-all', { totalHours: toHours(at(65).totalMs), highC: 65, turnCount: turnsAtMs.length }),
    ),
    rule(
      'eu-compost',
      'from memory',
      message('rule.eu-compost.asks', { firstC: 70, secondC: 65, thirdC: 60, fourthC: 55 }),
      message('rule.measured.four', {
        firstHours: toHours(at(70).longestMs),
        firstC: 70,
        secondHours: toHours(at(65).longestMs),
        secondC: 65,
        thirdHours: toHours(at(60).longestMs),
        thirdC: 60,
        fourthHours: longestAt55,
        fourthC: 55,
      }),
    ),
  ];
}

type RuleName =
  | 'us-organic-vessel'
  | 'us-organic-windrow'
  | 'us-sludge-reduce'
  | 'us-sludge-windrow'
  | 'au-compost'
  | 'uk-compost'
  | 'eu-compost';

function rule(name: RuleName, standing: RuleFact['standing'], asks: Message, measured: Message): RuleView {
  const messages = { rule: message(`rule.${name}.name`), source: message(`rule.${name}.source`), asks, measured };
  return { standing, messages };
}

/** What a record says of itself before anything else. */
export const recordSays: readonly Message[] = [message('rule.not-sanitised'), message('rule.not-certified')];
