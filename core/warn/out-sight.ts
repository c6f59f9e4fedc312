/**
 * core/warn/out-sight.ts: whether a probe that should lie in the pile reads like the air beside it.
 *
 * Takes:  the place's state, whether it lies near the skin, its hourly mean and the air's, the hour's end.
 * Gives:  the place's state, changed in place.
 * Never:  takes a turn for it: a turned pile loses about half of its warmth, a pulled probe all of it.
 */
import type { PositionState } from '../judge/state.ts';

/** This warm above the air and then within the second of it: pulled out [K]. */
const wasWarmK = 5;
const nearK = 1.5;
/** Following the air this closely through such a swing is not what a place in a bed does [K, K, h]. */
const followK = 0.8;
const swingK = 5;
const followH = 18;
/** A skin may fall to the air when the sun goes; only a whole day in step with the air tells on it [h]. */
const skinFollowH = 24;
/** From here on it is in the pile again [K]. */
const backK = 3;

export function followOut(place: PositionState, skin: boolean, meanC: number, airC: number, endMs: number): void {
  const aboveK = meanC - airC;
  const fellAllTheWay = !skin && place.warmthK >= wasWarmK && Math.abs(aboveK) < Math.min(nearK, 0.25 * place.warmthK);
  // Fades by a fifth an hour, so that only a fall within some hours counts: a pile cools over days.
  place.warmthK = Math.max(aboveK, 0.8 * place.warmthK);

  if (Math.abs(aboveK) < followK) {
    place.airLowC = place.nearAirH === 0 ? airC : Math.min(place.airLowC, airC);
    place.airHighC = place.nearAirH === 0 ? airC : Math.max(place.airHighC, airC);
    place.nearAirH += 1;
  } else place.nearAirH = Math.max(0, place.nearAirH - 2);
  const followsAir = place.nearAirH >= (skin ? skinFollowH : followH) && place.airHighC - place.airLowC >= swingK;

  if (place.outSinceMs === null) {
    if (fellAllTheWay || followsAir) place.outSinceMs = endMs;
  } else if (aboveK > backK) place.outSinceMs = null;
}
