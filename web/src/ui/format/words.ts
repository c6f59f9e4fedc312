/**
 * The names that kinds, states and places carry on the page.
 *
 * Alarm states are the words of ANSI/ISA-18.2 and IEC 62682; the rest are words of the trade.
 */

import type { ActKind } from '../../../../shared/contracts/domain/batch.ts';
import type { PileSummary } from '../../../../shared/contracts/piles.ts';
import type { RefusalReason } from '../../../../shared/errors.ts';
import type { Position, Stage } from '../../../../shared/names.ts';
import type { AlarmState, Phase, WarningKind } from '../../../../shared/warning.ts';

export const warningNames: Record<WarningKind, string> = {
  'self-heating': 'Self-heating hazard',
  overheating: 'Overheating',
  'heat-doubted': 'Doubtful heat, to check',
  'overheating-soon': 'Overheating soon',
  'bad-smell': 'Bad smell',
  'wrong-growth': 'Wrong growth',
  'hand-wet': 'Too wet by hand',
  'hand-dry': 'Too dry by hand',
  'heat-damage': 'Culture may be lost to heat',
  drying: 'Drying',
  stalling: 'Stalling',
  chilled: 'Chilled',
  waterlogged: 'Waterlogged',
  uneven: 'Uneven heat',
  'probe-silent': 'Probe silent',
  'probe-stuck': 'Probe stuck',
  'probe-out': 'Probe out of the pile',
};

/** What each kind looks out for, in one breath. */
export const warningMeanings: Record<WarningKind, string> = {
  'self-heating': 'Whether the pile heats itself on towards smouldering and fire.',
  overheating: 'Whether the pile is too hot for its culture now.',
  'heat-doubted': 'Whether a reading jumped over the limit and needs somebody to check it.',
  'overheating-soon': 'Whether the core will be too hot within half a day if nobody comes.',
  'bad-smell': 'Whether somebody smelt rot, sourness or ammonia.',
  'wrong-growth': 'Whether somebody saw black, green or other coloured growth.',
  'hand-wet': 'Whether a squeezed handful or a weighed sample was too wet.',
  'hand-dry': 'Whether a squeezed handful or a weighed sample was too dry.',
  'heat-damage':
    'Whether it was so hot for so long that its culture may be lost, and nobody has smelt or looked since.',
  drying: 'Whether the pile loses the water its culture lives in.',
  stalling: 'Whether a pile that should be working has stopped.',
  chilled: 'Whether the pile is too cold to work.',
  waterlogged: 'Whether the pile is too wet to breathe.',
  uneven: 'Whether one part of the pile lies far hotter or colder than another.',
  'probe-silent': 'Whether a probe has stopped talking.',
  'probe-stuck': 'Whether a probe says one number over and over.',
  'probe-out': 'Whether a probe has come out of the pile, or is failing.',
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

/**
 * A warning's name with its place, as it is read aloud: a probe is named by its place, a heat is told where it was seen.
 * @example warningTitle('probe-silent', 'core') // => "Core probe silent"
 */
export function warningTitle(kind: WarningKind, position: Position | null): string {
  const name = warningNames[kind];
  if (position === null) return name;
  return kind.startsWith('probe-')
    ? `${capital(positionNames[position])} ${name.charAt(0).toLowerCase()}${name.slice(1)}`
    : `${name}, ${positionNames[position]}`;
}

export const actNames: Record<ActKind, string> = {
  turned: 'Turned',
  watered: 'Watered',
  spread: 'Spread thinner',
  heaped: 'Heaped up',
  covered: 'Covered',
  uncovered: 'Uncovered',
  moved: 'Moved',
  rained: 'Rain',
  note: 'Note',
};

export const refusalNames: Record<RefusalReason, string> = {
  'topic-shape': 'Topic of the wrong shape',
  'not-its-topic': 'Beyond its key',
  'too-many-filters': 'Asked to hear too much',
  'too-many-unclaimed': 'Too many probes in no pile',
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
  'already-thinned': 'Older than what was thinned',
};

/** "One", "Two" ... for the start of a sentence; digits from thirteen on. */
const countWords = 'no one two three four five six seven eight nine ten eleven twelve'.split(' ');

export function countWord(count: number): string {
  return countWords[count] ?? String(count);
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** @example listed(['core', 'top', 'air']) // => "core, top and air" */
export function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}

/** @example counted(2, 'pile') // => "2 piles" */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}
