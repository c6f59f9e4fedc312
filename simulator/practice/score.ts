/** A score that says where each point came from. */
import type { StageLimits } from '../../shared/stage.ts';
import type { TruthRow } from './record.ts';
import type { Goal, Weights } from './scenarios/practice-scenario.ts';

interface ScorePart {
  readonly name: string;
  readonly points: number;
  readonly outOf: number;
  readonly why: string;
}

export interface Score {
  readonly points: number;
  readonly parts: readonly ScorePart[];
  readonly goalReached: boolean;
  /** What of the goal was missed, one sentence each. */
  readonly missed: readonly string[];
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
  if (last === undefined) return { points: 0, parts: [], goalReached: false, missed: ['Nothing happened yet.'] };
  const parts = [
    part('Culture', weights.culture, cultureShare(last), cultureWhy(input)),
    part(
      'Work',
      weights.work,
      (last.workFrac - 0.3) / 0.6,
      `${percent(last.workFrac)} of the food it was laid for has been worked through.`,
    ),
    part('Water', weights.water, waterShare(input), waterWhy(input)),
    part('Heat', weights.heat, Math.max(0, 1 - hoursAbove(rows, 50) / 12), heatWhy(rows)),
    part('Ending', weights.ending, endingShare(input), endingWhy(input)),
  ].filter(({ outOf }) => outOf > 0);
  const missed = missedOf(input);
  return {
    points: parts.reduce((sum, { points }) => sum + points, 0),
    parts,
    goalReached: missed.length === 0,
    missed,
  };
}

function part(name: string, outOf: number, share: number, why: string): ScorePart {
  return { name, outOf, points: Math.round(outOf * Math.min(1, Math.max(0, share))), why };
}

function hoursAbove(rows: readonly TruthRow[], tempC: number): number {
  return rows.filter(({ hottestC }) => hottestC > tempC).length;
}

/** Half of the culture dead is no culture; and what never grew cannot be praised for being alive. */
function cultureShare({ aliveFrac, workFrac }: TruthRow): number {
  return Math.max(0, (aliveFrac - 0.5) / 0.45) * Math.min(1, workFrac * 2);
}

function cultureWhy({ rows }: ScoreInput): string {
  const last = rows[rows.length - 1];
  const alive = last?.aliveFrac ?? 0;
  if ((last?.workFrac ?? 0) < 0.3) return 'The culture hardly grew.';
  const start = `${percent(alive)} of the wanted culture that grew is alive.`;
  if (alive > 0.9) return start;
  const worst = rows.reduce((hottest, row) => (row.hottestC > hottest.hottestC ? row : hottest));
  return `${start} Heat killed the rest; the hottest layer came to ${worst.hottestC.toFixed(0)} °C at hour ${worst.afterH}.`;
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

function waterWhy(input: ScoreInput): string {
  const { moistureMinFrac, moistureMaxFrac } = input.limits;
  const rows = judgedForWater(input);
  const dry = rows.filter(({ moistureFrac }) => moistureFrac < moistureMinFrac).length;
  const wet = rows.filter(({ moistureFrac }) => moistureFrac > moistureMaxFrac).length;
  const band = `${percent(moistureMinFrac)} to ${percent(moistureMaxFrac)}`;
  if (dry + wet === 0) return `It stayed within ${band} moisture all the time.`;
  const said = [dry > 0 ? `too dry for ${dry} h` : '', wet > 0 ? `too wet for ${wet} h` : ''].filter(
    (text) => text !== '',
  );
  return `It should keep within ${band} moisture; it was ${said.join(' and ')}.`;
}

function heatWhy(rows: readonly TruthRow[]): string {
  const above50 = hoursAbove(rows, 50);
  if (above50 === 0) return 'No layer went above 50 °C.';
  const above60 = hoursAbove(rows, 60);
  const worse = above60 > 0 ? `, ${above60} of them above 60 °C` : '';
  return `Some layer was above 50 °C for ${above50} h${worse}; 12 h cost all points.`;
}

function endingShare({ rows, endedAtH }: ScoreInput): number {
  const done = doneAtH(rows);
  if (endedAtH === undefined) return 0;
  if (done === undefined) return 0.3;
  return Math.max(0, 1 - Math.max(0, endedAtH - done - 12) / 48);
}

function endingWhy({ rows, endedAtH }: ScoreInput): string {
  const done = doneAtH(rows);
  if (endedAtH === undefined)
    return done === undefined ? 'It was not ended, and was not done.' : `It was done at hour ${done}, and never ended.`;
  if (done === undefined)
    return `It was ended at hour ${endedAtH}, before it was done: food was left, or it was still warm.`;
  const waited = endedAtH - done;
  return waited <= 12
    ? `It was done at hour ${done} and ended at hour ${endedAtH}: well seen.`
    : `It was done at hour ${done} and ended ${waited} h later, at hour ${endedAtH}: it only dried meanwhile.`;
}

function missedOf({ rows, goal, endedAtH }: ScoreInput): string[] {
  const last = rows[rows.length - 1];
  if (last === undefined) return [];
  const missed: string[] = [];
  const { aliveFracMin, workFracMin, hoursAbove50Max, moistureFracMin, moistureFracMax, endedWithinH } = goal;
  if (aliveFracMin !== undefined && last.aliveFrac < aliveFracMin) {
    missed.push(`${percent(aliveFracMin)} of the culture should be alive, and ${percent(last.aliveFrac)} is.`);
  }
  if (workFracMin !== undefined && last.workFrac < workFracMin) {
    missed.push(`${percent(workFracMin)} of the work should be done, and ${percent(last.workFrac)} is.`);
  }
  if (hoursAbove50Max !== undefined && hoursAbove(rows, 50) > hoursAbove50Max) {
    missed.push(`At most ${hoursAbove50Max} h above 50 °C were asked for, and it was ${hoursAbove(rows, 50)} h.`);
  }
  if (moistureFracMin !== undefined && last.moistureFrac < moistureFracMin) {
    missed.push(
      `It should end at ${percent(moistureFracMin)} moisture or more, and has ${percent(last.moistureFrac)}.`,
    );
  }
  if (moistureFracMax !== undefined && last.moistureFrac > moistureFracMax) {
    missed.push(
      `It should end at ${percent(moistureFracMax)} moisture or less, and has ${percent(last.moistureFrac)}.`,
    );
  }
  const done = doneAtH(rows);
  if (endedWithinH !== undefined && (endedAtH === undefined || done === undefined || endedAtH - done > endedWithinH)) {
    missed.push(`It should be ended within ${endedWithinH} h of being done.`);
  }
  return missed;
}

function percent(frac: number): string {
  return `${Math.round(100 * frac)} %`;
}
