/** The usual cautions at the moment somebody is about to work on a pile. It never says that anything is safe. */

import type { ActKind } from '../../../../shared/contracts/domain/batch.ts';
import type { PileSummary } from '../../../../shared/contracts/piles.ts';
import { cautionTexts } from '../../../../shared/messages/made/en/caution.ts';
import { handInBelowC } from '../../../../shared/squeeze.ts';
import { selfHeatingLadder } from '../../../../shared/stage.ts';

const opensThePile: readonly ActKind[] = ['turned', 'spread', 'heaped', 'moved'];

/** A scald needs seconds at 60 °C and minutes at 50 °C; from 50 °C on gloves are asked for (common practice, no source). */
const hotFromC = 50;

/** @param hottest Null where nobody knows how hot it is: then as if it were hot. */
export function handfulCautions(hottest: number | null): string[] {
  const isCool = hottest !== null && hottest < handInBelowC;
  return [`${cautionTexts[isCool ? 'caution.handful' : 'caution.hot-handful']} ${cautionTexts['caution.hands']}`];
}

export function hottestC(positions: PileSummary['positions']): number | null {
  const live = Object.values(positions).flatMap((now) =>
    now && !now.silent && now.temperatureC !== undefined ? [now.temperatureC] : [],
  );
  return live.length === 0 ? null : Math.max(...live);
}

export function actCautions(kind: ActKind, hottest: number | null): string[] {
  const rung = selfHeatingLadder.findLast((step) => hottest !== null && hottest >= step.fromC);
  const fire = rung && `At ${Math.floor(hottest ?? 0)} °C ${rung.says}: ${rung.todo}.`;
  // How to open a pile that must not be opened would only invite to it.
  if (fire && !rung.mayOpen) return kind === 'note' || kind === 'rained' ? [] : [fire];
  if (!opensThePile.includes(kind)) return [];
  const cautions = [`${cautionTexts['caution.spores']} ${cautionTexts['caution.doors']}`];
  if (fire) cautions.push(fire);
  if (hottest !== null && hottest >= hotFromC) cautions.push(cautionTexts['caution.scald']);
  return cautions;
}
