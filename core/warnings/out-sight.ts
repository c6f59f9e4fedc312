/**
 * Whether a probe that should lie in the pile reads like the air beside it. It never takes a turn for it: a turned pile
 * loses about half of its warmth, a pulled probe all of it.
 */
import type { PositionState } from '../estimate/state.ts';

/** A place this warm above the air that is then this near to it, or within this share of its warmth, may have been pulled [K]. */
export const wasWarmK = 5;
const nearK = 0.8;
const nearShare = 0.1;
/** It fell there by itself, in two hours: warm air that comes up to a cool bed proves nothing. A turn lets out about half [-]. */
const ownFallShare = 0.6;
/** It must stay as near for so long: a turned bed warms again or lags behind the air [h]. */
const stayH = 4;
const suspectedForH = 12;
/** Following the air this closely through such a swing is not what a place in a bed does; a dry skin comes nearer to it [K, K, h]. */
const followK = 0.6;
const insideFollows = { swingK: 3, hours: 18 };
const skinFollows = { swingK: 4, hours: 28 };
/** From here on it is in the pile again [K]. */
const backK = 3;

/** Whether a place that was so far above the air is now as near to it as only a pulled probe is. */
export function fellToAir(wasAboveK: number, aboveK: number): boolean {
  return wasAboveK >= wasWarmK && Math.abs(aboveK) < Math.max(nearK, nearShare * wasAboveK);
}

export function followOut(place: PositionState, skin: boolean, meanC: number, airC: number, endMs: number): void {
  const aboveK = meanC - airC;
  const distanceK = Math.abs(aboveK);
  // A skin may fall to the air when the sun goes; only a whole day in step with the air tells on it.
  const fellK = -((place.hourStepK ?? 0) + place.stepBeforeK);
  place.stepBeforeK = place.hourStepK ?? 0;
  if (!skin && fellToAir(place.warmthK, aboveK) && fellK >= ownFallShare * place.warmthBeforeK)
    place.suspectH = suspectedForH;
  else place.suspectH = Math.max(0, place.suspectH - 1);
  place.warmthBeforeK = place.warmthK;
  // Fades by a fifth an hour, so that only a fall within some hours counts: a pile cools over days.
  place.warmthK = Math.max(aboveK, 0.8 * place.warmthK);

  if (distanceK < (place.suspectH > 0 ? nearK : followK)) {
    place.airLowC = place.nearAirH === 0 ? airC : Math.min(place.airLowC, airC);
    place.airHighC = place.nearAirH === 0 ? airC : Math.max(place.airHighC, airC);
    place.nearAirH += 1;
  } else place.nearAirH = Math.max(0, place.nearAirH - 2);
  const pulled = place.suspectH > 0 && place.nearAirH >= stayH;
  const follows = skin ? skinFollows : insideFollows;
  const followsAir = place.nearAirH >= follows.hours && place.airHighC - place.airLowC >= follows.swingK;

  if (place.outSinceMs === null) {
    if (pulled || followsAir) place.outSinceMs = endMs;
  } else if (aboveK > backK) place.outSinceMs = null;
}
