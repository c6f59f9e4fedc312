/**
 * Batches laid beside each other: measures, curves, and those that went like a running one. It never keeps anything: a
 * corrected entry or a reading brought in later counts at the next question.
 */
import { fewestSharedHours } from '../../../core/seasons/align.ts';
import { closestBatches, type Laid } from '../../../core/seasons/closest.ts';
import { hourlyCourse, warmingBeganH } from '../../../core/seasons/course.ts';
import { chanceRemark, noCause } from '../../../core/seasons/difference-message.ts';
import { compareGroups, type Group, groupsBy, pairOf } from '../../../core/seasons/groups.ts';
import {
  type AgedCurve,
  type Choice,
  type ClosestAnswer,
  type CompareAnswer,
  type ComparedBatch,
  type DifferenceAnswer,
  type DifferenceQuestion,
  mostCompared,
  mostCurves,
  type SeasonView,
} from '../../../shared/contracts/seasons.ts';
import { type Message, message } from '../../../shared/messages/message.ts';
import { plainEnglish } from '../../../shared/messages/render.ts';
import { msPerHour } from '../../../shared/units.ts';
import { hourMs, readBatchHeat } from './batch-heat.ts';
import { chosen, type Known } from './choose.ts';
import { comparedAll, type SeasonParts, type SeasonRecords, untilOf } from './compared-batches.ts';
import { readSeasonRecords } from './season-records.ts';

/** Enough to look at, and few enough to read what was done. */
const mostClosest = 5;

export async function compare(parts: SeasonParts, choice: Choice): Promise<CompareAnswer> {
  const records = await readSeasonRecords(parts);
  const wanted = chosen(records.known, records.family, choice);
  const shown = wanted.slice(0, mostCompared);
  const ended = records.known.filter(({ batch }) => choice.state === 'all' || batch.endedAtMs !== null);
  return {
    batches: await comparedAll(parts, records, shown),
    leftOut: wanted.length - shown.length,
    offers: {
      seasons: seasonsOf(records),
      years: [...new Set(ended.map(({ year }) => year))].sort((a, b) => b - a),
      sites: distinct(ended.map(({ site }) => ({ id: site.id, name: site.name }))),
      materials: [...new Set(ended.flatMap(({ batch }) => batch.recipe.material ?? []))],
      starters: distinct(ended.flatMap(({ starters }) => starters.map(({ id, name }) => ({ id, name })))),
    },
  };
}

/** Two groups of the batches chosen, as the page tells them in words. */
export async function groupDifference(
  parts: SeasonParts,
  { split, one: oneId, other: otherId, ...choice }: DifferenceQuestion,
): Promise<DifferenceAnswer> {
  const { batches } = await compare(parts, choice);
  const groups = groupsBy(batches, split);
  const counted = ({ id, name, batches: of }: Group) => ({ id, name, batches: of.length });
  const pair = pairOf(groups, oneId, otherId);
  const measures = pair ? compareGroups(...pair) : [];
  const compared = measures.filter(({ interval }) => interval !== null).length;
  const said = [noCause, chanceRemark(compared)].filter((message) => message !== null);
  return {
    groups: groups.map(counted),
    one: pair ? counted(pair[0]) : null,
    other: pair ? counted(pair[1]) : null,
    measures: measures.map(({ counts, interval, ...rest }) => ({
      ...rest,
      counts: [counts[0], counts[1]],
      interval: interval && [interval[0], interval[1]],
    })),
    says: said.map((message) => plainEnglish(message)),
    messages: { says: said },
  };
}

export async function seasons(parts: SeasonParts): Promise<SeasonView[]> {
  return seasonsOf(await readSeasonRecords(parts));
}

export async function curves(parts: SeasonParts, choice: Choice): Promise<AgedCurve[]> {
  const records = await readSeasonRecords(parts);
  const answer: AgedCurve[] = [];
  for (const one of chosen(records.known, records.family, choice).slice(0, mostCurves)) {
    answer.push(await curveOf(parts, records, one));
  }
  return answer;
}

/** @returns Undefined when there is no such batch. */
export async function closest(parts: SeasonParts, batchId: string): Promise<ClosestAnswer | undefined> {
  const records = await readSeasonRecords(parts);
  const one = records.known.find(({ batch }) => batch.id === batchId);
  if (!one) return undefined;
  const past = records.known.filter(
    ({ batch }) => batch.stage === one.batch.stage && batch.endedAtMs !== null && batch.id !== batchId,
  );
  const running = await curveOf(parts, records, one);
  const laid = new Map<string, AgedCurve>();
  for (const other of past.slice(0, mostCompared)) laid.set(other.batch.id, await curveOf(parts, records, other));
  const hours = Math.max(0, (untilOf(parts, one) - one.batch.startedAtMs) / msPerHour);
  const asLaid = (known: Known, curve: AgedCurve): Laid => ({ ...curve, recipe: known.batch.recipe });
  const near = closestBatches(
    asLaid(one, running),
    past.flatMap((other) => {
      const curve = laid.get(other.batch.id);
      return curve ? [asLaid(other, curve)] : [];
    }),
    Math.floor(hours),
  ).slice(0, mostClosest);
  const found = near.flatMap((distance) => {
    const other = past.find(({ batch }) => batch.id === distance.id);
    return other ? [{ distance, other }] : [];
  });
  const compared = await comparedAll(parts, records, [one, ...found.map(({ other }) => other)]);
  const [batch, ...batches] = compared;
  if (!batch) return undefined;
  const says = saysOf(found.length, past.length, hours);
  return {
    batch,
    hours,
    closest: await Promise.all(
      found.map(async ({ distance: { curveK, conditionK, distanceK }, other }, i) => ({
        batch: batches[i] as ComparedBatch,
        curveK,
        conditionK,
        distanceK,
        acts: await actsOf(parts, other, hours),
      })),
    ),
    curves: [running, ...found.flatMap(({ other }) => laid.get(other.batch.id) ?? [])],
    says: plainEnglish(says),
    messages: { says },
  };
}

function saysOf(found: number, past: number, hours: number): Message {
  if (past === 0) return message('season.closest.none-ended');
  if (found === 0) {
    return message(hours < fewestSharedHours ? 'season.closest.too-young' : 'season.closest.other-hours');
  }
  return message('season.closest.alike');
}

async function actsOf({ journal }: SeasonParts, { batch }: Known, hours: number) {
  const acts = await journal.acts.list(batch.pileId, batch.startedAtMs);
  return acts
    .filter(({ atMs, kind }) => atMs <= (batch.endedAtMs ?? atMs) && kind !== 'note')
    .sort((a, b) => a.atMs - b.atMs)
    .map(({ atMs, kind, amountL, depthM, note }) => {
      const afterH = (atMs - batch.startedAtMs) / msPerHour;
      return { afterH, kind, amountL: amountL ?? null, depthM: depthM ?? null, note, ahead: afterH > hours };
    });
}

async function curveOf(parts: SeasonParts, records: SeasonRecords, one: Known): Promise<AgedCurve> {
  const { batch, site } = one;
  const untilMs = untilOf(parts, one);
  const heat = await readBatchHeat(parts.readings, {
    batch,
    siteId: site.id,
    claims: records.claims,
    untilMs,
    stepMs: hourMs,
  });
  const hours = Math.max(0, Math.floor((untilMs - batch.startedAtMs) / msPerHour));
  const coreC = hourlyCourse(heat.core, batch.startedAtMs, hours).map(rounded);
  const airC = hourlyCourse(heat.air, batch.startedAtMs, hours).map(rounded);
  return { id: batch.id, warmingAfterH: warmingBeganH(coreC, airC), coreC, airC };
}

function seasonsOf({ known, names }: SeasonRecords): SeasonView[] {
  const found = new Map<string, SeasonView>();
  for (const { season } of known) {
    const before = found.get(season.id);
    const name = names.get(season.id) ?? season.name;
    found.set(season.id, { id: season.id, name, usualName: season.name, batches: (before?.batches ?? 0) + 1 });
  }
  return [...found.values()];
}

function distinct<T extends { readonly id: string }>(all: readonly T[]): T[] {
  return [...new Map(all.map((one) => [one.id, one])).values()];
}

function rounded(value: number | null): number | null {
  return value === null ? null : Math.round(value * 100) / 100;
}
