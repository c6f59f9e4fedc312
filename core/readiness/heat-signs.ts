/**
 * The three signs of heat that speak for a finished batch: it came, it fell, a turn brought none back.
 *
 * The judge follows the same signs while a batch lies there (readiness.ts); this reads them from any batch, ended ones
 * too, and tells what was not measured from what was not seen. It never says "ready": sensors alone never do.
 */

import { type Message, message, paragraph } from '../../shared/messages/message.ts';
import type { Evidence } from '../../shared/warning.ts';
import { lossAfterH, type PastHeat, worstHeat } from '../estimate/heat-memory.ts';
import { pastHeatMessage } from '../estimate/past-heat-message.ts';
import { cameK, nearHeldH as heldH, nearK, reheatK, turnWatchedH } from '../profiles/passed-heat.ts';

export interface HeatSign {
  readonly sign: 'heat-came' | 'not-overheated' | 'heat-fell' | 'no-reheat';
  readonly evidence: Evidence;
  readonly says: Message;
}

export interface HeatSight {
  /** Hourly means since the batch was laid, oldest first; null where nothing was measured [°C]. Equal lengths. */
  readonly coreC: readonly (number | null)[];
  readonly airC: readonly (number | null)[];
  /** Hours after the start at which it was turned. */
  readonly turnsAtH: readonly number[];
  /** What its positions have been through, and the limit it was judged by [°C]. */
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
  if (!Number.isFinite(most)) return { sign, evidence: 'missing', says: message('readiness.sign.heat-came.missing') };
  const aboveK = { valueK: Math.max(0, most), decimals: 0 } as const;
  return most >= cameK
    ? { sign, evidence: 'present', says: message('readiness.sign.heat-came.present', { aboveK }) }
    : { sign, evidence: 'absent', says: message('readiness.sign.heat-came.absent', { aboveK }) };
}

function notOverheated({ heat, lossC }: HeatSight): HeatSign {
  const sign = 'not-overheated';
  const worst = worstHeat(heat);
  if (worst !== null && worst.lossH >= lossAfterH) {
    const past = pastHeatMessage(heat, { actC: lossC, lossC });
    return { sign, evidence: 'absent', says: paragraph(message('readiness.sign.not-overheated.absent'), past) };
  }
  return heat.some(({ position }) => position === 'core')
    ? { sign, evidence: 'present', says: message('readiness.sign.not-overheated.present', { lossC, lossAfterH }) }
    : { sign, evidence: 'missing', says: message('readiness.sign.not-overheated.missing', { lossC }) };
}

function heatFell(excessK: readonly (number | null)[], came: Evidence): HeatSign {
  const sign = 'heat-fell';
  const last = excessK.slice(-heldH);
  if (last.length < heldH || last.some((one) => one === null))
    return { sign, evidence: 'missing', says: message('readiness.sign.heat-fell.missing', { heldH }) };
  const near = last.every((one) => one !== null && Math.abs(one) <= nearK);
  if (near && came === 'absent') return { sign, evidence: 'absent', says: message('readiness.sign.heat-fell.no-heat') };
  return near
    ? { sign, evidence: 'present', says: message('readiness.sign.heat-fell.present', { nearK, heldH }) }
    : { sign, evidence: 'absent', says: message('readiness.sign.heat-fell.absent', { nearK }) };
}

function noReheat({ coreC, turnsAtH }: HeatSight, excessK: readonly (number | null)[]): HeatSign {
  const sign = 'no-reheat';
  const turnH = turnsAtH.at(-1);
  if (turnH === undefined) return { sign, evidence: 'missing', says: message('readiness.sign.no-reheat.no-turn') };
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
    const riseK = { valueK: rise, decimals: 0 } as const;
    return { sign, evidence: 'absent', says: message('readiness.sign.no-reheat.absent', { riseK }) };
  }
  const watchedH = coreC.length - first;
  return watchedH <= turnWatchedH || known.length < after.length * knownShare
    ? { sign, evidence: 'missing', says: message('readiness.sign.no-reheat.missing') }
    : { sign, evidence: 'present', says: message('readiness.sign.no-reheat.present') };
}

/** Of the hours after a turning, so many must be known for their silence to say anything [-]; our own choice, no source. */
const knownShare = 0.75;

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
