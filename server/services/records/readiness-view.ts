/** Whether a batch may be ready: signs of heat beside a person's newest word. */
import { handSigns } from '../../../core/by-hand/hand-signs.ts';
import type { PastHeat } from '../../../core/estimate/heat-memory.ts';
import { heatSigns } from '../../../core/readiness/heat-signs.ts';
import { lookFor, readinessMessage } from '../../../core/readiness/readiness-message.ts';
import { type SmellAndLook, smellAndLook } from '../../../core/readiness/smell-and-look.ts';
import type { Readiness } from '../../../shared/contracts/readiness.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import type { Message } from '../../../shared/messages/message.ts';
import { plainEnglish } from '../../../shared/messages/render.ts';
import { stageLimits } from '../../../shared/stage.ts';
import type { BatchRecord, EntryRecord } from '../../../shared/store/journal.ts';
import type { ReadingsStore } from '../../../shared/store/readings-store.ts';
import { msPerHour } from '../../../shared/units.ts';
import { heardIn } from '../../pile/heard-by-judge.ts';
import type { PileSource } from '../../pile/pile-sources.ts';
import { hourlyTemperatures } from './batch-temperatures.ts';

/** @param entries Of the batch, in any order. @param heat What its places have been through (batch-heat-history.ts). */
export async function readinessView(
  readings: ReadingsStore,
  batch: BatchRecord,
  sources: readonly PileSource[],
  entries: readonly EntryRecord[],
  untilMs: number,
  heat: readonly PastHeat[],
): Promise<Readiness> {
  const { lossC } = { ...stageLimits[batch.stage], ...batch.limits };
  const hourly = await hourlyTemperatures(readings, sources, { fromMs: batch.startedAtMs, toMs: untilMs });
  const turnsAtH = entries
    .filter(({ what }) => what.kind === 'turned')
    .map(({ atMs }) => (atMs - hourly.firstMs) / msPerHour)
    .filter((hour) => hour >= 0)
    .sort((a, b) => a - b);
  const signs = heatSigns({ coreC: hourly.coreC, airC: hourly.airC, turnsAtH, heat, lossC });
  const isHeatJudged = heat.every(({ unjudged }) => unjudged === null);
  const person = personsWord(entries);
  const judged = judgedBy(batch, entries, untilMs);
  const isSpoilt = person !== null && judged.badAtMs !== null && judged.badAtMs > Date.parse(person.at);
  const says = readinessMessage(signs, person, judged, isSpoilt, isHeatJudged);
  const { good, bad, cautions } = lookFor[batch.stage];
  return {
    batchId: batch.id,
    signs: signs.map(({ says, ...sign }) => ({ ...sign, says: plainEnglish(says), messages: { says } })),
    person,
    ready: (person?.ready ?? false) && !isSpoilt,
    says: plainEnglish(says),
    good: good.map(said),
    bad: bad.map(said),
    cautions: cautions.map(said),
    messages: { says, good: [...good], bad: [...bad], cautions: [...cautions] },
  };
}

const said = (one: Message) => plainEnglish(one);

/** What the judge makes of the same entries. */
function judgedBy(batch: BatchRecord, entries: readonly EntryRecord[], untilMs: number): SmellAndLook {
  const { noted = [] } = heardIn(entries.filter(({ withdrawn }) => !withdrawn));
  const limits = { ...stageLimits[batch.stage], ...batch.limits };
  return smellAndLook(noted, handSigns({ noted, acts: [], limits }, untilMs), untilMs);
}

function personsWord(entries: readonly EntryRecord[]): Readiness['person'] {
  const newest = [...entries]
    .sort((one, other) => one.atMs - other.atMs)
    .findLast(({ what }) => what.kind === 'readiness');
  if (newest?.what.kind !== 'readiness') return null;
  const { smell, look, ready } = newest.what;
  const { entryId, atMs, by, note } = newest;
  return { entryId, at: toInstant(atMs), by, smell, look, ready, note };
}
