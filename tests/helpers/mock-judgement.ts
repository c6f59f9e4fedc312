/**
 * What is said about the piles of the invented farm: evidence and judgement. Rules, and what is found where nothing is wrong, are
 * the judge's own of a pile like these; what is wrong is given, for the farm's numbers are fixed.
 */

import type { PileSetup } from '../../core/profiles/pile-setup.ts';
import { type ReadinessFacts, readinessOf } from '../../core/readiness/readiness.ts';
import { nobodyJudged } from '../../core/readiness/smell-and-look.ts';
import { detailView, readinessView } from '../../core/session/assessment-view.ts';
import { assess, startJudge, stepJudge } from '../../core/session/judge.ts';
import { conditionKinds, conditionOf } from '../../shared/conditions/kinds.ts';
import type { PileDetail } from '../../shared/contracts/piles.ts';
import { toInstant } from '../../shared/contracts/time.ts';
import { worded } from '../../shared/messages/in-words.ts';
import { verbatim } from '../../shared/messages/message.ts';
import type { Position } from '../../shared/names.ts';
import { stageLimits } from '../../shared/stage.ts';
import { msPerMinute } from '../../shared/units.ts';
import type { WarningKind } from '../../shared/warning.ts';

type Looked = PileDetail['evidence'][number];
type Judgement = NonNullable<PileDetail['judgement']>;

interface Seen {
  readonly seen: string;
  readonly position?: Position;
}

/** What the judge finds of a bran pile at work with four probes, whose core probe has said nothing for so long. */
function judged(coreSilentMin: number): readonly Looked[] {
  const startedAtMs = Date.UTC(2031, 5, 9);
  const recipe = { material: 'wheat-bran', depthM: 0.3, massKg: 100, moistureFrac: 0.6, cover: 'breathable' } as const;
  const setup: PileSetup = { stage: 'bran', startedAtMs, limits: stageLimits.bran, recipe, acts: [] };
  const state = startJudge(setup);
  const nowMin = 48 * 60;
  for (let minute = 0; minute <= nowMin; minute += 10) {
    const atMs = startedAtMs + minute * msPerMinute;
    const warmthK = Math.min(20, minute / 100);
    const reads = {
      core: 22 + warmthK + 0.3 * Math.sin(minute / 70),
      top: 21 + 0.8 * warmthK,
      base: 21 + 0.7 * warmthK,
      air: 18 + Math.sin(minute / 230),
    };
    for (const [position, value] of Object.entries(reads) as [Position, number][]) {
      if (position === 'core' && minute > nowMin - coreSilentMin) continue;
      stepJudge(state, setup, null, { position, quantity: 'temperature', value, atMs });
    }
  }
  return worded(detailView(assess(state, setup, null, startedAtMs + nowMin * msPerMinute))).evidence;
}

const healthy = judged(0);
const withoutCore = judged(120);

const isProbe = (kind: WarningKind) => conditionOf(kind).about === 'probe';

/** Every kind once, as the judge says it of a healthy pile, or of one whose core is silent; those in `present` as they are given. */
export function mockEvidence(present: Partial<Record<WarningKind, Seen>>): Looked[] {
  const rest = present['probe-silent']?.position === 'core' ? withoutCore : healthy;
  return conditionKinds.map((kind): Looked => {
    const found = present[kind];
    const position = found?.position ?? (isProbe(kind) ? 'core' : null);
    const looked = rest.find((one) => one.kind === kind && (!isProbe(kind) || one.position === position));
    if (looked === undefined) throw new Error(`the judge says nothing of ${kind}`);
    if (found === undefined) return looked;
    const explainedBy = kind === 'overheating-soon' && present.overheating ? 'overheating' : null;
    const { why } = looked.messages ?? {};
    return {
      ...looked,
      position,
      evidence: 'present',
      explainedBy,
      seen: found.seen,
      ...(why && { messages: { seen: verbatim(found.seen), why } }),
    };
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
    detectedInterventions: [],
    ...change,
  };
}

/** A batch whose heat has come and gone and which a turn did not wake: a person's nose and eyes are wanted. */
export function mockReadyToSmell(): Judgement['readiness'] {
  return worded(readinessView(readinessOf({ ...atWork, peakExcessK: 24, nearAirH: 12, sinceLateTurnH: 24 })));
}

/** What the curves show of somebody's hand, so long ago. */
export function mockHand(
  nowMs: number,
  kind: 'turned' | 'watered',
  agoMs: number,
): Judgement['detectedInterventions'][number] {
  return { kind, at: toInstant(nowMs - agoMs) };
}
