/**
 * Batches laid beside each other: measures, curves, and those that went like a running one. It never keeps anything: a
 * corrected entry or a reading brought in later counts at the next question.
 */
import { closestBatches, type Laid } from '../../../core/seasons/closest.ts';
import { hourlyCourse, warmingBeganH } from '../../../core/seasons/course.ts';
import { chanceRemark, noCause } from '../../../core/seasons/difference-words.ts';
import { compareGroups, type Group, groupsBy, pairOf } from '../../../core/seasons/groups.ts';
import { type BatchMeasures, measureBatch } from '../../../core/seasons/measure-batch.ts';
import { fillRecipe } from '../../../core/session/fill-recipe.ts';
import type { Clock } from '../../../shared/clock.ts';
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
import { toInstant } from '../../../shared/contracts/time.ts';
import { stageLimits } from '../../../shared/stage.ts';
import type { AlarmRecord, ClaimRecord, Journal } from '../../../shared/store/journal.ts';
import type { ReadingsStore } from '../../../shared/store/readings-store.ts';
import { msPerHour } from '../../../shared/units.ts';
import { inKgOf } from '../../monitor/pile/origin.ts';
import { heardOfPeople } from '../journal/heard-by-judge.ts';
import { batchName, type Family, readFamily } from '../lineage/family.ts';
import { fineMs, hourMs, readBatchHeat } from './batch-heat.ts';
import { chosen, type Known, knownBatches } from './choose.ts';
import { readSeasonNames } from './season-names.ts';

/** Enough to look at, and few enough to read what was done. */
const mostClosest = 5;
const mostAlarms = 2000;

export interface SeasonParts {
  readonly journal: Journal;
  readonly readings: ReadingsStore;
  readonly clock: Clock;
}

interface Service {
  readonly family: Family;
  readonly known: readonly Known[];
  readonly names: ReadonlyMap<string, string>;
  readonly claims: readonly ClaimRecord[];
}

async function openService({ journal }: SeasonParts): Promise<Service> {
  const [family, sites, names, claims] = await Promise.all([
    readFamily(journal),
    journal.sites.list(),
    readSeasonNames(journal),
    journal.claims.list(),
  ]);
  return { family, known: knownBatches(family, sites), names, claims };
}

export async function compare(parts: SeasonParts, choice: Choice): Promise<CompareAnswer> {
  const service = await openService(parts);
  const wanted = chosen(service.known, service.family, choice);
  const shown = wanted.slice(0, mostCompared);
  const ended = service.known.filter(({ batch }) => choice.state === 'all' || batch.endedAtMs !== null);
  return {
    batches: await comparedAll(parts, service, shown),
    leftOut: wanted.length - shown.length,
    offers: {
      seasons: seasonsOf(service),
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
  return {
    groups: groups.map(counted),
    one: pair ? counted(pair[0]) : null,
    other: pair ? counted(pair[1]) : null,
    measures: measures.map(({ counts, interval, ...rest }) => ({
      ...rest,
      counts: [counts[0], counts[1]],
      interval: interval && [interval[0], interval[1]],
    })),
    says: [noCause, chanceRemark(compared)].filter((says) => says !== ''),
  };
}

export async function seasons(parts: SeasonParts): Promise<SeasonView[]> {
  return seasonsOf(await openService(parts));
}

export async function curves(parts: SeasonParts, choice: Choice): Promise<AgedCurve[]> {
  const service = await openService(parts);
  const answer: AgedCurve[] = [];
  for (const one of chosen(service.known, service.family, choice).slice(0, mostCurves)) {
    answer.push(await curveOf(parts, service, one));
  }
  return answer;
}

/** @returns Undefined when there is no such batch. */
export async function closest(parts: SeasonParts, batchId: string): Promise<ClosestAnswer | undefined> {
  const service = await openService(parts);
  const one = service.known.find(({ batch }) => batch.id === batchId);
  if (!one) return undefined;
  const past = service.known.filter(
    ({ batch }) => batch.stage === one.batch.stage && batch.endedAtMs !== null && batch.id !== batchId,
  );
  const running = await curveOf(parts, service, one);
  const laid = new Map<string, AgedCurve>();
  for (const other of past.slice(0, mostCompared)) laid.set(other.batch.id, await curveOf(parts, service, other));
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
  const compared = await comparedAll(parts, service, [one, ...found.map(({ other }) => other)]);
  const [batch, ...batches] = compared;
  if (!batch) return undefined;
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
    says: saysOf(found.length, past.length, hours),
  };
}

function saysOf(found: number, past: number, hours: number): string {
  if (past === 0) return 'No batch of this stage has ended yet, so there is nothing to lay beside it.';
  if (found === 0) {
    return hours < 12
      ? 'It is too young: twelve hours must have been measured before its curve says whom it is like.'
      : 'None of the past batches was measured in the same hours of its age.';
  }
  return 'They went alike so far and were laid alike. That does not say that this one will end as they did.';
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

async function comparedAll(parts: SeasonParts, service: Service, wanted: readonly Known[]): Promise<ComparedBatch[]> {
  const alarms = new Map<string, readonly AlarmRecord[]>();
  const answer: ComparedBatch[] = [];
  for (const one of wanted) {
    const { pileId } = one.batch;
    const stood = alarms.get(pileId) ?? (await parts.journal.alarms.forPile(pileId, mostAlarms));
    alarms.set(pileId, stood);
    answer.push(comparedView(service, one, await measuresOf(parts, service, one, stood)));
  }
  return answer;
}

async function measuresOf(
  parts: SeasonParts,
  service: Service,
  one: Known,
  alarms: readonly AlarmRecord[],
): Promise<BatchMeasures> {
  const { batch, site } = one;
  const untilMs = untilOf(parts, one);
  const limits = { ...stageLimits[batch.stage], ...batch.limits };
  const acts = await parts.journal.acts.list(batch.pileId, batch.startedAtMs);
  const ending = service.family.stories.get(batch.id)?.ending ?? (batch.endedAtMs === null ? null : 'finished');
  return measureBatch({
    setup: {
      stage: batch.stage,
      startedAtMs: batch.startedAtMs,
      limits,
      ...fillRecipe(batch.stage, batch.recipe, limits, inKgOf(service.family.flows, batch.id)),
      acts: acts.filter(({ atMs }) => atMs <= untilMs).sort((a, b) => a.atMs - b.atMs),
      ...within(await heardOfPeople(parts.journal, batch), untilMs),
    },
    untilMs,
    ended: ending === 'finished' || ending === 'continued',
    ...(await readBatchHeat(parts.readings, {
      batch,
      siteId: site.id,
      claims: service.claims,
      untilMs,
      stepMs: fineMs,
    })),
    alarms: alarms
      .filter(({ raisedAtMs, closedAtMs }) => raisedAtMs < untilMs && (closedAtMs ?? untilMs) > batch.startedAtMs)
      .map(({ kind, raisedAtMs, closedAtMs }) => ({ kind, fromMs: raisedAtMs, toMs: closedAtMs })),
  });
}

/** The next batch on the same pile has its own words. */
function within(heard: Awaited<ReturnType<typeof heardOfPeople>>, untilMs: number): typeof heard {
  const { noted = [], confirmedAtMs } = heard;
  return {
    noted: noted.filter(({ atMs }) => atMs <= untilMs),
    ...(confirmedAtMs !== undefined && confirmedAtMs <= untilMs && { confirmedAtMs }),
  };
}

async function curveOf(parts: SeasonParts, service: Service, one: Known): Promise<AgedCurve> {
  const { batch, site } = one;
  const untilMs = untilOf(parts, one);
  const heat = await readBatchHeat(parts.readings, {
    batch,
    siteId: site.id,
    claims: service.claims,
    untilMs,
    stepMs: hourMs,
  });
  const hours = Math.max(0, Math.floor((untilMs - batch.startedAtMs) / msPerHour));
  const coreC = hourlyCourse(heat.core, batch.startedAtMs, hours).map(rounded);
  const airC = hourlyCourse(heat.air, batch.startedAtMs, hours).map(rounded);
  return { id: batch.id, warmingAfterH: warmingBeganH(coreC, airC), coreC, airC };
}

function untilOf({ clock }: SeasonParts, { batch }: Known): number {
  return batch.endedAtMs ?? clock.nowMs();
}

function comparedView({ family, names }: Service, one: Known, measures: BatchMeasures): ComparedBatch {
  const { batch, site, season, year, starters } = one;
  const story = family.stories.get(batch.id);
  return {
    id: batch.id,
    name: batchName(family, batch),
    pileId: batch.pileId,
    pileName: family.piles.get(batch.pileId)?.name ?? batch.pileId,
    site: site.id,
    siteName: site.name,
    stage: batch.stage,
    startedAt: toInstant(batch.startedAtMs),
    endedAt: batch.endedAtMs === null ? null : toInstant(batch.endedAtMs),
    ending: story?.ending ?? (batch.endedAtMs === null ? null : 'finished'),
    reason: story?.reason ?? null,
    outcome: batch.outcome,
    season: { id: season.id, name: names.get(season.id) ?? season.name },
    year,
    material: batch.recipe.material ?? null,
    cover: batch.recipe.cover ?? null,
    depthM: batch.recipe.depthM ?? null,
    starters: starters.map(({ id, name }) => ({ id, name })),
    measures: { ...measures, alarms: [...measures.alarms] },
  };
}

function seasonsOf({ known, names }: Service): SeasonView[] {
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
