/**
 * Reasons for a verdict that the record of a batch speaks for: what was measured, and what people smelt, saw and felt. It
 * never says that one of them is why the batch came out as it did; a person chooses.
 */
import type { EntryFacts } from '../../shared/entry.ts';
import { type Message, message } from '../../shared/messages/message.ts';
import type { StageLimits } from '../../shared/stage.ts';
import { type VerdictReason, verdictReasons } from '../../shared/verdict.ts';
import type { HandKind, WarningKind } from '../../shared/warning.ts';
import { signOf } from '../by-hand/note-sign.ts';
import { type NotedFacts, notedKinds } from '../profiles/noted.ts';
import { entryMessage } from '../records/entry-message.ts';
import type { BatchMeasures } from '../seasons/measure-batch.ts';
import { hoursMeasured } from '../seasons/rank.ts';

export interface JudgedRecord {
  readonly measures: BatchMeasures;
  readonly limits: StageLimits;
  /** What people wrote down of the batch, oldest first. */
  readonly entries: readonly EntryFacts[];
}

export interface OfferedReason {
  readonly why: VerdictReason;
  /** What the record knows of it. */
  readonly says: Message;
}

/** In the order of all reasons. */
export function offeredReasons(record: JudgedRecord): OfferedReason[] {
  return verdictReasons.flatMap((why) => {
    const says = noted(why, record) ?? measured(why, record) ?? warned(why, record);
    return says === undefined ? [] : [{ why, says }];
  });
}

/** The newest entry that says so: nose, eyes and hand go before figures. */
function noted(why: VerdictReason, { entries, limits }: JudgedRecord): Message | undefined {
  const entry = entries.findLast((facts) => speaksFor(why, facts, limits));
  return entry && message('verdict.seen.noted', { entryPart: entryMessage(entry) });
}

/** What a note must say of which sign. */
const signs: Partial<Record<VerdictReason, readonly [sign: HandKind, is: 'good' | 'bad']>> = {
  'smelt-good': ['bad-smell', 'good'],
  'smelt-bad': ['bad-smell', 'bad'],
  'grew-white': ['wrong-growth', 'good'],
  'other-growth': ['wrong-growth', 'bad'],
  'too-wet': ['hand-wet', 'bad'],
  'too-dry': ['hand-dry', 'bad'],
};

function speaksFor(why: VerdictReason, facts: EntryFacts, limits: StageLimits): boolean {
  if (why === 'pests') return facts.kind === 'pests';
  const sign = signs[why];
  return sign !== undefined && isNoted(facts) && signOf(sign[0], facts, limits) === sign[1];
}

function isNoted(facts: EntryFacts): facts is NotedFacts {
  return notedKinds.some((kind) => kind === facts.kind);
}

/** So much of what was measured in the comfortable band counts as warmed as it should [-]; our own choice, no source. */
const mostlyShare = 0.5;

function measured(why: VerdictReason, { measures, limits }: JudgedRecord): Message | undefined {
  const { peakC, comfortH } = measures;
  const { actC, comfortMinC, comfortMaxC } = limits;
  if (peakC === null || comfortH === null) return undefined;
  const measuredH = hoursMeasured(measures);
  if (why === 'too-hot' && peakC >= actC) return message('verdict.seen.peak', { peakC });
  if (why === 'too-cool' && peakC < comfortMinC) return message('verdict.seen.peak-low', { peakC, comfortMinC });
  if (why === 'kept-warm' && peakC < actC && comfortH >= mostlyShare * measuredH) {
    return message('verdict.seen.comfort', { comfortMinC, comfortMaxC, comfortH, measuredH });
  }
  return undefined;
}

const warnings: Partial<Record<VerdictReason, readonly WarningKind[]>> = {
  'too-hot': ['self-heating', 'overheating', 'heat-damage'],
  'too-cool': ['chilled', 'stalling'],
  'too-wet': ['waterlogged', 'hand-wet'],
  'too-dry': ['drying', 'hand-dry'],
  'smelt-bad': ['bad-smell'],
  'other-growth': ['wrong-growth'],
  uneven: ['uneven'],
};

/** The warning that stood longest. */
function warned(why: VerdictReason, { measures }: JudgedRecord): Message | undefined {
  const stood = measures.alarms.find(({ kind }) => warnings[why]?.includes(kind));
  return stood && message('verdict.seen.warned', { stoodH: stood.hours });
}
