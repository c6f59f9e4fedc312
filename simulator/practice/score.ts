/** A score that says where each point came from. */
import { type Message, message } from '../../shared/messages/message.ts';
import type { StageLimits } from '../../shared/stage.ts';
import type { TruthRow } from './record.ts';
import { hotLayerC } from './scenarios/common.ts';
import type { Goal, Weights } from './scenarios/practice-scenario.ts';

interface ScorePart {
  readonly of: keyof Weights;
  readonly points: number;
  readonly outOf: number;
  readonly why: Message;
}

export interface Score {
  readonly points: number;
  readonly parts: readonly ScorePart[];
  readonly goalReached: boolean;
  /** What of the goal was missed, each by itself. */
  readonly missed: readonly Message[];
}

export interface ScoreInput {
  readonly rows: readonly TruthRow[];
  readonly limits: StageLimits;
  readonly weights: Weights;
  readonly goal: Goal;
  /** Hour at which the keeper ended the run by hand [h]. */
  readonly endedAtH: number | undefined;
}

/** Hour after laying at which the batch was done: its work done, and hardly warmer than the air of the day before; undefined when it never was. */
export function doneAtH(rows: readonly TruthRow[]): number | undefined {
  return rows.find(
    ({ workFrac, coreC }, i) => workFrac >= 0.85 && coreC - meanAirC(rows.slice(Math.max(0, i - 23), i + 1)) < 7,
  )?.afterH;
}

function meanAirC(rows: readonly TruthRow[]): number {
  return rows.reduce((sum, { airC }) => sum + airC, 0) / rows.length;
}

export function scoreOf(input: ScoreInput): Score {
  const { rows, weights } = input;
  const last = rows[rows.length - 1];
  if (last === undefined)
    return { points: 0, parts: [], goalReached: false, missed: [message('practice.score.nothing')] };
  const part = (of: keyof Weights, share: number, why: Message): ScorePart => {
    const outOf = weights[of];
    return { of, outOf, points: Math.round(outOf * Math.min(1, Math.max(0, share))), why };
  };
  const parts = [
    part('culture', cultureShare(last), cultureWhy(rows, last)),
    part('work', (last.workFrac - 0.3) / 0.6, message('practice.score.work', { workFrac: last.workFrac })),
    part('water', waterShare(input), waterWhy(input)),
    part('heat', Math.max(0, 1 - hoursAbove(rows, hotLayerC) / allHeatLostH), heatWhy(rows)),
    part('ending', endingShare(input), endingWhy(input)),
  ].filter(({ outOf }) => outOf > 0);
  const missed = missedOf(input, last);
  return {
    points: parts.reduce((sum, { points }) => sum + points, 0),
    parts,
    goalReached: missed.length === 0,
    missed,
  };
}

/** So many hours with a hot layer cost all points for heat [h]. */
const allHeatLostH = 12;
/** Hotter still, which is said beside [°C]. */
const veryHotC = 60;

function hoursAbove(rows: readonly TruthRow[], tempC: number): number {
  return rows.filter(({ hottestC }) => hottestC > tempC).length;
}

/** Half of the culture dead is no culture; and what never grew cannot be praised for being alive. */
function cultureShare({ aliveFrac, workFrac }: TruthRow): number {
  return Math.max(0, (aliveFrac - 0.5) / 0.45) * Math.min(1, workFrac * 2);
}

function cultureWhy(rows: readonly TruthRow[], { aliveFrac, workFrac }: TruthRow): Message {
  if (workFrac < 0.3) return message('practice.score.culture.hardly-grew');
  if (aliveFrac > 0.9) return message('practice.score.culture.alive', { aliveFrac });
  const worst = rows.reduce((hottest, row) => (row.hottestC > hottest.hottestC ? row : hottest));
  const hottestC = { valueC: worst.hottestC, decimals: 0 } as const;
  return message('practice.score.culture.heat', { aliveFrac, hottestC, hourNumber: worst.afterH });
}

/** The first six hours are as it was laid, whatever the keeper does. */
function judgedForWater({ rows }: ScoreInput): readonly TruthRow[] {
  return rows.filter(({ afterH }) => afterH > 6);
}

function waterShare(input: ScoreInput): number {
  const rows = judgedForWater(input);
  const { moistureMinFrac, moistureMaxFrac } = input.limits;
  const right = rows.filter(({ moistureFrac }) => moistureFrac >= moistureMinFrac && moistureFrac <= moistureMaxFrac);
  return rows.length === 0 ? 1 : right.length / rows.length;
}

function waterWhy(input: ScoreInput): Message {
  const { moistureMinFrac: leastFrac, moistureMaxFrac: mostFrac } = input.limits;
  const rows = judgedForWater(input);
  const dryHours = rows.filter(({ moistureFrac }) => moistureFrac < leastFrac).length;
  const wetHours = rows.filter(({ moistureFrac }) => moistureFrac > mostFrac).length;
  if (dryHours + wetHours === 0) return message('practice.score.water.kept', { leastFrac, mostFrac });
  const side = wetHours === 0 ? 'dry' : dryHours === 0 ? 'wet' : 'other';
  return message('practice.score.water.strayed', { leastFrac, mostFrac, side, dryHours, wetHours });
}

function heatWhy(rows: readonly TruthRow[]): Message {
  const hotHours = hoursAbove(rows, hotLayerC);
  if (hotHours === 0) return message('practice.score.heat.none', { hotC: hotLayerC });
  const worseHours = hoursAbove(rows, veryHotC);
  return message('practice.score.heat.some', {
    hotC: hotLayerC,
    hotHours,
    isWorse: worseHours > 0,
    worseHours,
    worseC: veryHotC,
    allHours: allHeatLostH,
  });
}

function endingShare({ rows, endedAtH }: ScoreInput): number {
  const done = doneAtH(rows);
  if (endedAtH === undefined) return 0;
  if (done === undefined) return 0.3;
  return Math.max(0, 1 - Math.max(0, endedAtH - done - 12) / 48);
}

function endingWhy({ rows, endedAtH: endedNumber }: ScoreInput): Message {
  const doneNumber = doneAtH(rows);
  if (endedNumber === undefined)
    return doneNumber === undefined
      ? message('practice.score.ending.neither')
      : message('practice.score.ending.never', { doneNumber });
  if (doneNumber === undefined) return message('practice.score.ending.too-soon', { endedNumber });
  const lateHours = endedNumber - doneNumber;
  return lateHours <= 12
    ? message('practice.score.ending.in-time', { doneNumber, endedNumber })
    : message('practice.score.ending.late', { doneNumber, endedNumber, lateHours });
}

function missedOf({ rows, goal, endedAtH }: ScoreInput, { aliveFrac, workFrac, moistureFrac }: TruthRow): Message[] {
  const missed: Message[] = [];
  const { aliveFracMin, workFracMin, hoursAbove50Max, moistureFracMin, moistureFracMax, endedWithinH } = goal;
  const hotHours = hoursAbove(rows, hotLayerC);
  if (aliveFracMin !== undefined && aliveFrac < aliveFracMin)
    missed.push(message('practice.missed.alive', { wantedFrac: aliveFracMin, isFrac: aliveFrac }));
  if (workFracMin !== undefined && workFrac < workFracMin)
    missed.push(message('practice.missed.work', { wantedFrac: workFracMin, isFrac: workFrac }));
  if (hoursAbove50Max !== undefined && hotHours > hoursAbove50Max)
    missed.push(message('practice.missed.hot', { mostHours: hoursAbove50Max, hotC: hotLayerC, hotHours }));
  if (moistureFracMin !== undefined && moistureFrac < moistureFracMin)
    missed.push(message('practice.missed.too-dry', { wantedFrac: moistureFracMin, isFrac: moistureFrac }));
  if (moistureFracMax !== undefined && moistureFrac > moistureFracMax)
    missed.push(message('practice.missed.too-wet', { wantedFrac: moistureFracMax, isFrac: moistureFrac }));
  const done = doneAtH(rows);
  if (endedWithinH !== undefined && (endedAtH === undefined || done === undefined || endedAtH - done > endedWithinH))
    missed.push(message('practice.missed.ending', { withinHours: endedWithinH }));
  return missed;
}
