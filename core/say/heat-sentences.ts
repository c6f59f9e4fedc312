/**
 * What a pile says of heat that is doubted, and of heat that has passed and may have killed its culture.
 */
import { selfHeatingLadder } from '../../shared/stage.ts';
import { worstHeat } from '../estimate/heat-memory.ts';
import { pilePositions } from '../profiles/pile-setup.ts';
import { doubtedHeat } from '../warnings/doubted-heat.ts';
import { capital, spokenValue } from '../warnings/spoken-value.ts';
import { heatDamageSigns, hoursLong } from '../words/heat-damage-words.ts';
import type { AlarmFacts, Saying } from './saying.ts';

/** A reading that jumped: spoken as it was measured, and as doubted. */
export function doubtedSentence({ assessment, temp }: AlarmFacts): Saying {
  const { positions, limits, atMs } = assessment;
  const heat = doubtedHeat(positions, limits.actC, atMs);
  const position = heat?.position ?? pilePositions.find((place) => positions[place]?.doubted != null) ?? 'core';
  const sight = positions[position];
  if (sight?.doubted == null) {
    return {
      condition: 'A reading over the limit was doubted, and none has come since that decides it.',
      next: 'Measure the pile by hand.',
      tone: 'act',
    };
  }
  const quiet = sight.silent ? ', and has been silent since' : '';
  const next = sight.silent ? 'nothing has borne it out' : 'the next reading decides';
  const condition = `${capital(spokenValue(position, sight, atMs, temp))}${quiet}: ${next}.`;
  const tempC = sight.doubted.temperatureC;
  if (heat === null || !heat.asksForPerson) {
    const next = 'Look again when the next reading has come; if you are beside it, measure it by hand.';
    return { condition, next, tone: 'watch' };
  }
  return tempC >= selfHeatingLadder[0].fromC
    ? {
        condition,
        next: `Measure the ${position} by hand now, before you open anything; keep water and a helper at hand.`,
        tone: 'act',
      }
    : {
        condition,
        next: `Measure the ${position} by hand now: if it is that hot, turn it or spread it thinner.`,
        tone: 'act',
      };
}

export function damageSentence({ assessment, temp }: AlarmFacts): Saying {
  const { heat, limits } = assessment;
  const worst = worstHeat(heat);
  const next = `Once it has cooled, open it in several places, smell it and look at it, with a dust mask on. ${heatDamageSigns}`;
  if (worst?.unjudged == null)
    return { condition: 'It was too hot for its culture, which may be lost.', next, tone: 'act' };
  const { lossH, peakC } = worst.unjudged;
  return {
    condition: `Its culture may be lost: the ${worst.position} lay at ${temp(limits.lossC)} or more for ${hoursLong(lossH)}, up to ${temp(peakC)}.`,
    next,
    tone: 'act',
  };
}
