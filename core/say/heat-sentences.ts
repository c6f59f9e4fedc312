/**
 * What a pile says of heat that is doubted, and of heat that has passed and may have killed its culture.
 */
import { message } from '../../shared/messages/message.ts';
import { selfHeatingLadder } from '../../shared/stage.ts';
import { worstHeat } from '../estimate/heat-memory.ts';
import { pilePositions } from '../profiles/pile-setup.ts';
import { doubtedHeat } from '../warnings/doubted-heat.ts';
import type { AlarmFacts, Saying } from './saying.ts';

const undecided: Saying = {
  condition: message('say.doubt-open'),
  next: message('say.next.measure-pile'),
  tone: 'act',
};
const waitForReading = message('say.next.wait-for-reading');
const checkDamage = message('say.next.heat-damage');

/** A reading that jumped: spoken as it was measured, and as doubted. */
export function doubtedSentence({ assessment, temp }: AlarmFacts): Saying {
  const { positions, limits, atMs } = assessment;
  const heat = doubtedHeat(positions, limits.actC, atMs);
  const position = heat?.position ?? pilePositions.find((position) => positions[position]?.doubted != null) ?? 'core';
  const sight = positions[position];
  if (sight?.doubted == null) return undecided;
  const { temperatureC: readsC } = sight.doubted;
  const condition = message('say.doubted', {
    place: position,
    readsC: temp(readsC),
    fromC: temp(sight.temperatureC ?? readsC),
    isSilent: sight.silent,
  });
  if (heat === null || !heat.asksForPerson) return { condition, next: waitForReading, tone: 'watch' };
  const isDanger = readsC >= selfHeatingLadder[0].fromC;
  const next = message(isDanger ? 'say.next.measure-danger' : 'say.next.measure-hot', { place: position });
  return { condition, next, tone: 'act' };
}

export function damageSentence({ assessment, temp }: AlarmFacts): Saying {
  const { heat, limits } = assessment;
  const worst = worstHeat(heat);
  if (worst?.unjudged == null) return { condition: message('say.heat-damage'), next: checkDamage, tone: 'act' };
  const { lossH, peakC } = worst.unjudged;
  const condition = message('say.heat-damage-of', {
    place: worst.position,
    lossC: temp(limits.lossC),
    lossH,
    peakC: temp(peakC),
  });
  return { condition, next: checkDamage, tone: 'act' };
}
