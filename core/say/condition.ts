/**
 * The one plain sentence about a pile, and what to do next. It never says that a pile is safe, sanitised or ready;
 * never says that all is well while the core is not measured.
 */
import { isHandKind, isProbeKind } from '../../shared/conditions/kinds.ts';
import { type Message, message, type Temperature } from '../../shared/messages/message.ts';
import { celsiusToFahrenheit } from '../../shared/units.ts';
import type { WarningKind } from '../../shared/warning.ts';
import { byGravity, graverOf } from '../alarms/precedence.ts';
import { isSilenced } from '../alarms/standing.ts';
import type { Assessment } from '../session/assessment.ts';
import type { Finding } from '../warnings/finding.ts';
import { alarmSentence } from './alarm-sentence.ts';
import { askAgain } from './hand-sentence.ts';
import { doubtedSentence } from './heat-sentences.ts';
import { phaseSentence } from './phase-sentence.ts';
import type { AlarmFacts, Saying, StandingAlarm, Tone } from './saying.ts';

export type { Saying, StandingAlarm } from './saying.ts';

export function sayCondition(assessment: Assessment, alarms: readonly StandingAlarm[]): Saying {
  const standing = alarms.filter(({ stands, suppressedBy }) => stands && suppressedBy == null);
  const facts = factsOf(assessment, standing);
  const saying = sayStanding(assessment, spokenKinds(standing), facts);
  // Whoever shelved it knows of it and has chosen when to see to it: it is not calm, but nothing is asked now.
  return saying.tone === 'act' && standing.length > 0 && standing.every(isSilenced)
    ? { ...saying, tone: 'watch' }
    : saying;
}

/** The gravest first, without those whose advice yields to another's. */
function spokenKinds(standing: readonly StandingAlarm[]): WarningKind[] {
  const spoken = standing.filter(
    (alarm) => graverOf(alarm, standing) === undefined && (!isProbeKind(alarm.kind) || alarm.position === 'core'),
  );
  return [...new Set(spoken.sort(byGravity).map(({ kind }) => kind))];
}

/** A pile says one thing at a time. */
function sayStanding(assessment: Assessment, kinds: readonly WarningKind[], facts: AlarmFacts): Saying {
  const core = assessment.positions.core;
  if (kinds[0] !== undefined && speaksWithoutCore(kinds[0])) return alarmSentence(kinds[0], facts);
  // What was measured last is said first, whether an alarm stands for it already or not.
  if (core?.doubted != null) return doubtedSentence(facts);
  // Heat that has passed is known without the probe that measured it.
  if (core === null && kinds[0] === 'heat-damage') return alarmSentence(kinds[0], facts);
  if (core === null || core.temperatureC === null) return withAsk(noCore(assessment), assessment);
  if (core.silent) return silentCore(assessment, facts);
  const doubt = doubtfulCore(assessment);
  if (doubt !== null) return doubt;
  for (const kind of kinds) {
    if (!isProbeKind(kind)) return alarmSentence(kind, facts);
  }
  const elsewhere = probeElsewhere(assessment);
  const saying = phaseSentence(assessment, facts);
  return elsewhere === null ? withAsk(saying, assessment) : { ...saying, next: elsewhere, tone: 'watch' };
}

/** What harms whatever its core does, and is known without it. */
function speaksWithoutCore(kind: WarningKind): boolean {
  return kind === 'self-heating' || kind === 'overheating' || kind === 'heat-doubted' || isHandKind(kind);
}

/** Where nothing else presses, a sign that was answered asks to be looked at again. */
function withAsk(saying: Saying, assessment: Assessment): Saying {
  const next = askAgain(assessment);
  return next === null ? saying : { ...saying, next, tone: 'watch' };
}

function factsOf(assessment: Assessment, standing: readonly StandingAlarm[]): AlarmFacts {
  const { actC } = assessment.limits;
  const present = new Map<WarningKind, Finding>();
  for (const finding of assessment.findings) {
    if (finding.evidence === 'present' && !present.has(finding.kind)) present.set(finding.kind, finding);
  }
  const hazardTodo = standing.find(({ kind }) => kind === 'self-heating')?.todo ?? null;
  return { assessment, temp: (tempC) => besideLimit(tempC, actC), present, hazardTodo };
}

/** In whole degrees; but "at 50 °C, and 50 °C is the limit" would puzzle: close to the limit, in either unit, a tenth is said. */
function besideLimit(tempC: number, actC: number): Temperature {
  const isClose =
    tempC !== actC &&
    (Math.round(tempC) === Math.round(actC) ||
      Math.round(celsiusToFahrenheit(tempC)) === Math.round(celsiusToFahrenheit(actC)));
  return isClose ? tempC : { valueC: tempC, decimals: 0 };
}

const unknown = (condition: Message, next: Message, tone: Tone): Saying => ({ condition, next, tone });

const noProbe = unknown(message('say.no-probe'), message('say.next.no-probe'), 'watch');
const coreNotMeasured = unknown(message('say.no-core'), message('say.next.no-core'), 'watch');
const noWordYet = unknown(message('say.no-word-yet'), message('say.next.no-word-yet'), 'watch');
const coreLikeAir = unknown(message('say.core-like-air'), message('say.next.core-like-air'), 'act');
const coreStuck = message('say.core-stuck');
const coreOut = message('say.core-out');
const afterSilence = message('say.next.core-silent');
const measureAgain = message('say.next.measure-again');

function noCore(assessment: Assessment): Saying {
  if (!assessment.hasProbe) return noProbe;
  const anyone = Object.values(assessment.positions).some((sight) => sight !== null);
  return anyone ? coreNotMeasured : noWordYet;
}

function silentCore({ positions: { core }, atMs }: Assessment, { temp }: AlarmFacts): Saying {
  if (core?.byHand === true) {
    const agoMs = atMs - (core.atMs ?? atMs);
    return unknown(
      message('say.core-measured-ago', { agoMs, lastC: temp(core.temperatureC ?? 0) }),
      measureAgain,
      'act',
    );
  }
  const condition = message('say.core-silent', {
    silentMs: atMs - (core?.atMs ?? atMs),
    isTempKnown: core?.temperatureC != null,
    lastC: temp(core?.temperatureC ?? 0),
  });
  return unknown(condition, afterSilence, 'act');
}

/** A core that speaks and cannot be believed: stuck, or out of the pile. Wild values alone are thrown out and leave it known. */
function doubtfulCore(assessment: Assessment): Saying | null {
  const finding = assessment.findings.find(
    ({ kind, position, evidence }) =>
      position === 'core' && evidence === 'present' && (kind === 'probe-stuck' || kind === 'probe-out'),
  );
  if (!assessment.coreDoubted) return null;
  if (finding === undefined) return coreLikeAir;
  return unknown(finding.kind === 'probe-stuck' ? coreStuck : coreOut, finding.todo, 'act');
}

/** What another probe needs, when one does: the pile itself can still be judged by its core. */
function probeElsewhere(assessment: Assessment): Message | null {
  for (const { kind, position, evidence, explainedBy } of assessment.findings) {
    if (evidence !== 'present' || explainedBy !== null || position === null) continue;
    if (kind === 'probe-silent' && position !== 'core') return message('say.next.place-silent', { place: position });
    if (kind === 'probe-stuck' && position !== 'core') return message('say.next.place-stuck', { place: position });
    if (kind === 'probe-out') return message('say.next.place-out', { place: position });
  }
  return null;
}
