/** The usual cautions at the moment somebody is about to work on a pile. It never says that anything is safe. */

import type { ActKind } from '../../../../shared/contracts/domain/batch.ts';
import type { PileSummary } from '../../../../shared/contracts/piles.ts';
import { cautionTexts } from '../../../../shared/messages/made/en/caution.ts';
import { type Message, message, paragraph } from '../../../../shared/messages/message.ts';
import { rendererOf } from '../../../../shared/messages/renderer.ts';
import { handInBelowC } from '../../../../shared/squeeze.ts';
import { selfHeatingLadder } from '../../../../shared/stage.ts';

export const renderCaution = rendererOf(cautionTexts);

const opensThePile: readonly ActKind[] = ['turned', 'spread', 'heaped', 'moved'];

/** @param hottest Null where nobody knows how hot it is: then as if it were hot. */
export function handfulCaution(hottest: number | null): Message {
  const isCool = hottest !== null && hottest < handInBelowC;
  const handful = isCool ? message('caution.handful') : message('caution.handful-by-fork', { hotC: handInBelowC });
  return paragraph(handful, message('caution.hands'));
}

export function hottestC(positions: PileSummary['positions']): number | null {
  const live = Object.values(positions).flatMap((now) =>
    now && !now.silent && now.temperatureC !== undefined ? [now.temperatureC] : [],
  );
  return live.length === 0 ? null : Math.max(...live);
}

/** The step of the self-heating hazard that a pile has reached; undefined below the first, or where nobody knows. */
export function ladderStep(hottest: number | null) {
  if (hottest === null) return undefined;
  const at = selfHeatingLadder.findLastIndex(({ fromC }) => hottest >= fromC);
  const step = selfHeatingLadder[at];
  const wholeC = { valueC: Math.floor(hottest), decimals: 0 } as const;
  return step && { number: (at + 1) as 1 | 2 | 3 | 4 | 5, mayOpen: step.mayOpen, hottestC: wholeC };
}

export function actCautions(kind: ActKind, hottest: number | null): Message[] {
  const step = ladderStep(hottest);
  const fire = step && message(`caution.ladder.${step.number}`, { hottestC: step.hottestC });
  // How to open a pile that must not be opened would only invite to it.
  if (fire && !step.mayOpen) return kind === 'note' || kind === 'rained' ? [] : [fire];
  if (!opensThePile.includes(kind)) return [];
  const cautions = [paragraph(message('caution.spores'), message('caution.doors'))];
  if (fire) cautions.push(fire);
  if (hottest !== null && hottest >= handInBelowC) cautions.push(message('caution.scald'));
  return cautions;
}
