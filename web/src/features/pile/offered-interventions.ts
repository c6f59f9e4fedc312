/**
 * Turns and waterings seen in the curves, as questions to the grower. It never asks about an act that is written down
 * already.
 */

import { sameInterventionMs } from '../../../../core/estimate/same-intervention.ts';
import type { PileDetail } from '../../../../shared/contracts/piles.ts';

export type Intervention = NonNullable<PileDetail['judgement']>['detectedInterventions'][number];

/** Older answers are forgotten; the judge offers nothing older than two days. */
const mostKept = 60;

export function handKey(pileId: string, { kind, at }: Intervention): string {
  return `${pileId} ${kind} ${at}`;
}

export function offeredHands(
  { id, acts, judgement }: Pick<PileDetail, 'id' | 'acts' | 'judgement'>,
  dismissed: readonly string[],
): Intervention[] {
  return (judgement?.detectedInterventions ?? [])
    .filter((hand) => !dismissed.includes(handKey(id, hand)))
    .filter(
      (hand) =>
        !acts.some(
          (act) => act.kind !== 'note' && Math.abs(Date.parse(act.at) - Date.parse(hand.at)) < sameInterventionMs,
        ),
    )
    .sort((one, other) => other.at.localeCompare(one.at));
}

export function withDismissed(dismissed: readonly string[], key: string): string[] {
  return [...dismissed.filter((one) => one !== key), key].slice(-mostKept);
}
