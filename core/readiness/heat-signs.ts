/**
 * The three signs of heat that speak for a finished batch: it came, it fell, a turn brought none back.
 *
 * The judge follows the same signs while a batch lies there (readiness.ts); this reads them from any batch, ended ones
 * too, and tells what was not measured from what was not seen. It never says "ready": sensors alone never do.
 */

import type { Evidence } from '../../shared/warning.ts';
import { lossAfterH, type PastHeat, worstHeat } from '../estimate/heat-memory.ts';
import { cameK, nearHeldH as heldH, nearK, reheatK, turnWatchedH } from '../profiles/passed-heat.ts';
import { pastHeatWords } from '../words/heat-damage-words.ts';

export interface HeatSign {
  readonly sign: 'heat-came' | 'not-overheated' | 'heat-fell' | 'no-reheat';
  readonly evidence: Evidence;
  readonly says: string;
}

export interface HeatSight {
  /** Hourly means since the batch was laid, oldest first; null where nothing was measured [°C]. Equal lengths. */
  readonly coreC: readonly (number | null)[];
  readonly airC: readonly (number | null)[];
  /** Hours after the start at which it was turned. */
  readonly turnsAtH: readonly number[];
  /** What its places have been through, and the limit it was judged by [°C]. */
  readonly heat: readonly PastHeat[];
  readonly lossC: number;
}

export function heatSigns(sight: HeatSight): HeatSign[] {
  const airDayC = dayMeans(sight.airC);
  const excessK = sight.coreC.map((coreC, hour) => {
    const airC = airDayC[hour] ?? null;
    return coreC === null || airC === null ? null : coreC - airC;
  });
  const came = heatCame(excessK);
  return [came, notOverheated(sight), heatFell(excessK, came.evidence), noReheat(sight, excessK)];
}

function heatCame(excessK: readonly (number | null)[]): HeatSign {
  const sign = 'heat-came';
  const most = Math.max(...excessK.map((one) => one ?? Number.NEGATIVE_INFINITY));
  if (!Number.isFinite(most)) {
    return {
      sign,
      evidence: 'missing',
      says: 'Core and air were not measured together, so whether heat came is not known.',
    };
  }
  return most >= cameK
    ? { sign, evidence: 'present', says: `Heat came: the core stood up to ${Math.round(most)} °C above the air.` }
    : {
        sign,
        evidence: 'absent',
        says: `No heat came yet: the core stood at most ${Math.round(Math.max(0, most))} °C above the air.`,
      };
}

function notOverheated({ heat, lossC }: HeatSight): HeatSign {
  const sign = 'not-overheated';
  const worst = worstHeat(heat);
  if (worst !== null && worst.lossH >= lossAfterH) {
    const says = pastHeatWords(heat, { actC: lossC, lossC }) ?? '';
    return { sign, evidence: 'absent', says: `It was too hot for its culture. ${says}` };
  }
  if (!heat.some(({ position }) => position === 'core')) {
    return {
      sign,
      evidence: 'missing',
      says: `Its core was not measured, so whether it came to ${lossC} °C is not known.`,
    };
  }
  return {
    sign,
    evidence: 'present',
    says: `It did not lie at ${lossC} °C, where its culture is lost, for ${lossAfterH} hours, as far as it was measured.`,
  };
}

function heatFell(excessK: readonly (number | null)[], came: Evidence): HeatSign {
  const sign = 'heat-fell';
  const last = excessK.slice(-heldH);
  if (last.length < heldH || last.some((one) => one === null)) {
    return { sign, evidence: 'missing', says: `Core and air were not both measured in the last ${heldH} hours.` };
  }
  const near = last.every((one) => one !== null && Math.abs(one) <= nearK);
  if (near && came === 'absent') {
    return { sign, evidence: 'absent', says: 'The core lies near the air, but no heat came before.' };
  }
  return near
    ? { sign, evidence: 'present', says: `The core has been within ${nearK} °C of the air for ${heldH} hours.` }
    : { sign, evidence: 'absent', says: `The core is not back within ${nearK} °C of the air.` };
}

function noReheat({ coreC, turnsAtH }: HeatSight, excessK: readonly (number | null)[]): HeatSign {
  const sign = 'no-reheat';
  const turnH = turnsAtH.at(-1);
  if (turnH === undefined) {
    return { sign, evidence: 'missing', says: 'No turn is in the journal, so it was not tested by one.' };
  }
  const first = Math.max(0, Math.floor(turnH));
  const after = excessK.slice(first, first + turnWatchedH + 1);
  const known = after.filter((one): one is number => one !== null);
  const lowest: number[] = [];
  let rise = 0;
  for (const one of known) {
    lowest.push(Math.min(one, lowest.at(-1) ?? one));
    rise = Math.max(rise, one - (lowest.at(-1) ?? one));
  }
  if (rise >= reheatK) {
    return { sign, evidence: 'absent', says: `After the last turn it warmed again by ${Math.round(rise)} °C.` };
  }
  const watchedH = coreC.length - first;
  if (watchedH <= turnWatchedH || known.length < after.length * 0.75) {
    return {
      sign,
      evidence: 'missing',
      says: 'The last turn was watched for less than a day: wait and see whether it warms again.',
    };
  }
  return { sign, evidence: 'present', says: 'The last turn brought no heat back within a day.' };
}

/** The air as a heap feels it: its mean over the day before. A cold night must not look like warmth of its own. */
function dayMeans(airC: readonly (number | null)[]): (number | null)[] {
  let sum = 0;
  let count = 0;
  return airC.map((now, hour) => {
    const gone = airC[hour - 24] ?? null;
    if (now !== null) [sum, count] = [sum + now, count + 1];
    if (gone !== null) [sum, count] = [sum - gone, count - 1];
    return count === 0 ? null : sum / count;
  });
}
