/**
 * The one plain sentence about a pile, and what to do next. It never says that a pile is safe, sanitised or ready;
 * never says that all is well while the core is not measured.
 */

import { plainEnglish } from '../../shared/messages/render.ts';
import { celsiusToFahrenheit, kelvinDifferenceToFahrenheit } from '../../shared/units.ts';
import { handKinds, type WarningKind } from '../../shared/warning.ts';
import { byGravity, graverOf, isProbeKind } from '../alarms/precedence.ts';
import { isSilenced } from '../alarms/standing.ts';
import type { Assessment } from '../session/assessment.ts';
import type { Finding } from '../warnings/finding.ts';
import { duration } from '../words/words.ts';
import { alarmSentence } from './alarm-sentence.ts';
import { askAgain } from './hand-sentence.ts';
import { doubtedSentence } from './heat-sentences.ts';
import { phaseSentence } from './phase-sentence.ts';
import type { AlarmFacts, Saying, StandingAlarm, Units } from './saying.ts';

export type { Saying, StandingAlarm, Units } from './saying.ts';

export function sayCondition(assessment: Assessment, alarms: readonly StandingAlarm[], units: Units): Saying {
  const standing = alarms.filter(({ stands, heldBackBy }) => stands && heldBackBy == null);
  const facts = factsOf(assessment, standing, units);
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
  return (
    kind === 'self-heating' ||
    kind === 'overheating' ||
    kind === 'heat-doubted' ||
    handKinds.some((one) => one === kind)
  );
}

/** Where nothing else presses, a sign that was answered asks to be looked at again. */
function withAsk(saying: Saying, assessment: Assessment): Saying {
  const next = askAgain(assessment);
  return next === null ? saying : { ...saying, next, tone: 'watch' };
}

function factsOf(assessment: Assessment, standing: readonly StandingAlarm[], units: Units): AlarmFacts {
  const { actC } = assessment.limits;
  const temp = (tempC: number): string => {
    const inUnits = (of: number): number => (units === 'F' ? celsiusToFahrenheit(of) : of);
    const whole = Math.round(inUnits(tempC));
    // "at 50 °C, and 50 °C is the limit" would puzzle: close to the limit a tenth is told.
    const close = tempC !== actC && whole === Math.round(inUnits(actC));
    return `${close ? Math.round(inUnits(tempC) * 10) / 10 : whole} °${units}`;
  };
  const steps = (deltaK: number): string =>
    units === 'F' ? `${Math.round(kelvinDifferenceToFahrenheit(deltaK))} °F` : `${Math.round(deltaK)} °C`;
  const present = new Map<WarningKind, Finding>();
  for (const finding of assessment.findings) {
    if (finding.evidence === 'present' && !present.has(finding.kind)) present.set(finding.kind, finding);
  }
  const hazardTodo = standing.find(({ kind }) => kind === 'self-heating')?.todo ?? null;
  return { assessment, temp, steps, present, hazardTodo };
}

function noCore(assessment: Assessment): Saying {
  if (!assessment.hasProbe) {
    return {
      condition: 'No probe is in this pile, so nobody can say how it is.',
      next: 'Put a probe into the middle of the pile and claim it as its core. Until then, measure the core by hand.',
      tone: 'watch',
    };
  }
  const anyone = Object.values(assessment.positions).some((sight) => sight !== null);
  return anyone
    ? {
        condition: 'The heart of this pile is not being measured, so nobody can say how it is.',
        next: 'Put a probe into the middle of the pile and claim it as its core.',
        tone: 'watch',
      }
    : {
        condition: 'No probe in this pile has spoken yet.',
        next: 'Claim a probe that is already talking, or see that it has power and reaches the network.',
        tone: 'watch',
      };
}

function silentCore(assessment: Assessment, facts: AlarmFacts): Saying {
  const core = assessment.positions.core;
  const quiet = duration(assessment.atMs - (core?.atMs ?? assessment.atMs));
  const last = core?.temperatureC == null ? '' : `; it was at ${facts.temp(core.temperatureC)} then`;
  return {
    condition: `The core probe has been silent for ${quiet}, so nobody can say how the pile is${last}.`,
    next: 'Measure the core by hand, then look at the probe: battery, cable, radio.',
    tone: 'act',
  };
}

/** A core that speaks and cannot be believed: stuck, or out of the pile. Wild values alone are thrown out and leave it known. */
function doubtfulCore(assessment: Assessment): Saying | null {
  const finding = assessment.findings.find(
    ({ kind, position, evidence }) =>
      position === 'core' && evidence === 'present' && (kind === 'probe-stuck' || kind === 'probe-out'),
  );
  if (!assessment.coreDoubted) return null;
  if (finding === undefined) {
    return {
      condition: 'The core probe suddenly reads like the air, so nobody can say how the pile is.',
      next: 'See whether the probe has been pulled out, and measure the core by hand.',
      tone: 'act',
    };
  }
  const why =
    finding.kind === 'probe-stuck' ? 'says the same number over and over' : 'seems to have come out of the pile';
  return {
    condition: `The core probe ${why}, so nobody can say how the pile is.`,
    next: plainEnglish(finding.todo),
    tone: 'act',
  };
}

/** What another probe needs, when one does: the pile itself can still be judged by its core. */
function probeElsewhere(assessment: Assessment): string | null {
  for (const { kind, position, evidence, explainedBy } of assessment.findings) {
    if (evidence !== 'present' || explainedBy !== null || position === null) continue;
    if (kind === 'probe-silent' && position !== 'core') return `Look at the ${position} probe: it has stopped talking.`;
    if (kind === 'probe-stuck' && position !== 'core')
      return `Look at the ${position} probe: it says the same number over and over.`;
    if (kind === 'probe-out') return `Look at the ${position} probe: it has come out of its place, or is failing.`;
  }
  return null;
}
