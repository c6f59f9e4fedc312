/**
 * What a judge could say about the piles of the invented farm: evidence and judgement. It never judges: the farm's
 * numbers are fixed, and so are these.
 */
import { type ReadinessFacts, readinessOf } from '../../core/readiness/readiness.ts';
import { nobodyJudged } from '../../core/readiness/smell-and-look.ts';
import { readinessView } from '../../core/session/assessment-view.ts';
import type { PileDetail } from '../../shared/contracts/piles.ts';
import { toInstant } from '../../shared/contracts/time.ts';
import { worded } from '../../shared/messages/in-words.ts';
import type { Position } from '../../shared/names.ts';
import type { WarningKind } from '../../shared/warning.ts';

type Looked = PileDetail['evidence'][number];
type Judgement = NonNullable<PileDetail['judgement']>;

const rules: Record<WarningKind, string> = {
  'self-heating':
    'Present when any probe in the pile is at 65 °C or above; the steps at 65, 71, 79, 88, 93 °C are those farm extension services give for stored hay (read second-hand).',
  overheating:
    'Present when a probe in the pile passes 50 °C, until it is below 49 °C. At the core, above 49.5 °C counts already, as a common probe may be off by 0.5 °C; that is said after half an hour, 52 °C or more at once. Above 60 °C the culture itself is being lost. Without a core reading it is neither confirmed nor cleared.',
  'heat-doubted':
    'Present when a probe in the pile jumps over 50 °C by more than a pile can warm in the time, until its next reading bears it out or takes it back.',
  'overheating-soon':
    'Present within 4.5 °C of 50 °C when four in five of the modelled heaps that behave as this one did go on to pass it within 12 hours, until fewer than a quarter do.',
  'bad-smell':
    'Present when somebody noted a rotten, sour or ammonia smell, or judged the smell bad, until a later note finds it good or the pile is turned, spread or uncovered.',
  'wrong-growth':
    'Present when somebody noted black, green or other coloured growth, or judged the look bad, until a later look finds white growth or judges it good.',
  'hand-wet':
    'Present when water runs out of a squeezed handful, or a weighed sample holds more than 67 % water, until a later handful or sample says otherwise or the pile is turned, spread or uncovered.',
  'hand-dry':
    'Present when a squeezed handful crumbles, or a weighed sample holds less than 48 % water, until a later handful or sample says otherwise or the pile is watered.',
  'heat-damage':
    'Present once a place in the pile lay at or above 60 °C for 2 hours in all, until a person writes down its smell, its growth or both.',
  drying:
    'Present when the estimated moisture is below 46 % (the stage’s 50 % less what the estimate may be off), or the air inside the pile stays under 93 %RH for 4 hours. The estimate adds what was laid and given and takes off what the heat drives out; without a core reading it cannot be kept.',
  stalling:
    'Present when for 8 hours the core has not been rising and the heat it makes is almost nothing, or little and below the expected band. Not judged in its first day, nor once it has burnt the usual share of its food, nor within 18 hours of a turn, spreading or watering.',
  chilled:
    'Present when the core is below 12 °C for 6 hours: there the culture grows at a quarter of its best or less. Not for a settled batch.',
  waterlogged:
    'Present after a day when the estimated moisture is above 70 % or less than 20 % of the bed is air, and the pile is not working.',
  uneven:
    'Present when the day’s means of top and base lie more than 12 °C apart for 12 hours while the pile warms or works. Not for heaps over 60 cm, which are cool at their foot by nature.',
  'probe-silent':
    'It usually speaks every 10 minutes; present when nothing is heard for 30 minutes, about three of those and at least half an hour.',
  'probe-stuck':
    'Present when one value repeats for 18 hours; real probes in still ground have repeated one for 12 hours.',
  'probe-out':
    'Present when a place that was 5 °C and more above the air reads like the air within hours, or follows the air through its day; or after about three lonely wild values in a day. A turn lets out about half of the warmth, a pulled probe all of it.',
};

const quiet: Record<WarningKind, string> = {
  'self-heating': 'No probe in the pile is near self-heating.',
  overheating: 'The core is under the limit.',
  'heat-doubted': 'No probe in the pile has jumped over the limit.',
  'overheating-soon': 'The core is not on its way over 50 °C.',
  'bad-smell': 'Nobody has noted it.',
  'wrong-growth': 'Nobody has noted it.',
  'hand-wet': 'Nobody has noted it.',
  'hand-dry': 'A squeezed handful held together.',
  'heat-damage': 'No place in the pile came to 60 °C, as far as it was measured.',
  drying: 'The bed is at about 57 % moisture by the water balance.',
  stalling: 'Nothing points to a stall.',
  chilled: 'The core is warm enough.',
  waterlogged: 'At about 57 % moisture some 38 % of the bed is air.',
  uneven: 'Top and base lie close enough together.',
  'probe-silent': 'The core probe spoke a minute ago.',
  'probe-stuck': 'The core probe’s value changes as it should.',
  'probe-out': 'The core probe reads like a place in the pile.',
};

const unmeasured = 'The core is not being measured.';

interface Seen {
  readonly seen: string;
  readonly position?: Position;
}

/** Every rule once: those in `present` seen, all that rest on the core missing while it is silent, the rest not seen. */
export function mockEvidence(present: Partial<Record<WarningKind, Seen>>): Looked[] {
  const coreLost = present['probe-silent']?.position === 'core';
  return (Object.keys(rules) as WarningKind[]).map((kind): Looked => {
    const isProbe = kind.startsWith('probe-');
    const found = present[kind];
    const position = found?.position ?? (isProbe ? 'core' : null);
    const base = { kind, position, why: rules[kind] };
    if (found) {
      const explainedBy = kind === 'overheating-soon' && present.overheating ? 'overheating' : null;
      return { ...base, evidence: 'present', seen: found.seen, explainedBy };
    }
    if (coreLost) return { ...base, evidence: 'missing', seen: unmeasured, explainedBy: 'probe-silent' };
    return { ...base, evidence: 'absent', seen: quiet[kind], explainedBy: null };
  });
}

const atWork: ReadinessFacts = {
  peakC: 45,
  peakExcessK: 27,
  nearAirH: 0,
  sinceLateTurnH: null,
  riseSinceTurnK: 0,
  heat: null,
  lossC: 60,
  confirmed: false,
  judged: nobodyJudged,
};

/** A batch at work: its heat has come and has not gone. */
export function mockJudgement(change: Partial<Judgement> = {}): Judgement {
  return {
    overLimit: { likelihood: 0.12, at: null },
    waterToAdd: null,
    readiness: worded(readinessView(readinessOf(atWork))),
    seenHands: [],
    ...change,
  };
}

/** A batch whose heat has come and gone and which a turn did not wake: a person's nose and eyes are wanted. */
export function mockReadyToSmell(): Judgement['readiness'] {
  return worded(readinessView(readinessOf({ ...atWork, peakExcessK: 24, nearAirH: 12, sinceLateTurnH: 24 })));
}

/** What the curves show of somebody's hand, so long ago. */
export function mockHand(nowMs: number, kind: 'turned' | 'watered', agoMs: number): Judgement['seenHands'][number] {
  return { kind, at: toInstant(nowMs - agoMs) };
}
