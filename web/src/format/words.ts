/**
 * web/format/words.ts: the names that kinds, states and places carry on the page.
 *
 * Alarm states are the words of ANSI/ISA-18.2 and IEC 62682; the rest are words of the trade.
 */
import type { PileSummary } from '../../../shared/api/piles.ts';
import type { ActKind, Cover, Material } from '../../../shared/batch.ts';
import type { RefusalReason } from '../../../shared/errors.ts';
import type { Position, Stage } from '../../../shared/names.ts';
import type { AlarmState, Phase, WarningKind } from '../../../shared/warning.ts';

export const warningNames: Record<WarningKind, string> = {
  'self-heating': 'Self-heating hazard',
  overheating: 'Overheating',
  'overheating-soon': 'Overheating soon',
  drying: 'Drying',
  stalling: 'Stalling',
  chilled: 'Chilled',
  waterlogged: 'Waterlogged',
  uneven: 'Uneven heat',
  'probe-silent': 'Probe silent',
  'probe-stuck': 'Probe stuck',
  'probe-out': 'Probe out of the pile',
};

export const alarmStateNames: Record<AlarmState, string> = {
  normal: 'normal',
  unacknowledged: 'unacknowledged',
  acknowledged: 'acknowledged',
  'returned-unacknowledged': 'returned, unacknowledged',
  shelved: 'shelved',
  'out-of-service': 'out of service',
};

export const toneNames: Record<PileSummary['tone'], string> = {
  calm: 'calm',
  watch: 'keep watch',
  act: 'act',
  danger: 'danger',
};

export const phaseNames: Record<Phase, string> = {
  resting: 'resting',
  warming: 'warming',
  active: 'active',
  cooling: 'cooling',
  settled: 'settled',
};

export const stageNames: Record<Stage, string> = { bran: 'bran stage', soil: 'soil stage' };

export const positionNames: Record<Position, string> = {
  core: 'core',
  top: 'top',
  base: 'base',
  edge: 'edge',
  air: 'air',
};

export const actNames: Record<ActKind, string> = {
  turned: 'Turned',
  watered: 'Watered',
  spread: 'Spread thinner',
  heaped: 'Heaped up',
  covered: 'Covered',
  uncovered: 'Uncovered',
  moved: 'Moved',
  note: 'Note',
};

export const materialNames: Record<Material, string> = {
  'wheat-bran': 'wheat bran',
  'rice-bran': 'rice bran',
  'soil-mix': 'mix with soil',
  'compost-mix': 'mix with compost',
  other: 'something else',
};

export const coverNames: Record<Cover, string> = {
  open: 'open',
  breathable: 'breathable (straw, mats, cloth)',
  closed: 'closed (sheet, lid)',
};

export const refusalNames: Record<RefusalReason, string> = {
  'topic-shape': 'Topic of the wrong shape',
  'payload-too-large': 'Message too large',
  'payload-empty': 'Empty message',
  'not-json': 'Not JSON',
  'not-senml': 'Not SenML',
  'missing-field': 'Field missing',
  'wrong-type': 'Wrong type',
  'unknown-unit': 'Unknown unit',
  'unknown-quantity': 'Unknown quantity',
  'out-of-range': 'Out of range',
  'power-on-value': 'Power-on value',
  'bad-time': 'Unreadable time',
  'future-time': 'Time in the future',
  'no-such-pointer': 'Nothing at the pointer',
  'conflicting-value': 'Conflicting value',
};

/** "One", "Two" ... for the start of a sentence; digits from thirteen on. */
const countWords = 'no one two three four five six seven eight nine ten eleven twelve'.split(' ');

export function countWord(count: number): string {
  return countWords[count] ?? String(count);
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** @example counted(2, 'pile') // => "2 piles" */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}
