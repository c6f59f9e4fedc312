/**
 * What speaks for a batch being done, and what is still to be seen. It never says that a batch is done: the last word
 * is a person's, after smelling and looking.
 */

import { lossAfterH, type PastHeat } from '../estimate/heat-memory.ts';
import { cameK, nearHeldH, nearK, reheatK, turnWatchedH } from '../profiles/passed-heat.ts';
import { heatDamageSigns, hoursLong } from '../words/heat-damage-words.ts';
import { degrees } from '../words/words.ts';
import { judgedWords, type SmellAndLook } from './smell-and-look.ts';

export interface ReadinessFacts {
  readonly peakC: number | null;
  readonly peakExcessK: number;
  /** Hours in a row within 5 °C of the air, up to now. */
  readonly nearAirH: number;
  /** Hours since the last turn after the heat had passed; null when there was none. */
  readonly sinceLateTurnH: number | null;
  /** Highest rise since that turn [K]. */
  readonly riseSinceTurnK: number;
  /** Whether a person has confirmed smell and look, and noted nothing bad since. */
  /** The place that was hottest for longest, and its limit of loss [°C]; null where nothing was measured. */
  readonly heat: PastHeat | null;
  readonly lossC: number;
  /** Whether a person has confirmed smell and look. */
  readonly confirmed: boolean;
  readonly judged: SmellAndLook;
}

interface ReadinessPoint {
  readonly what: 'heat-came' | 'judged-since-overheated' | 'back-near-air' | 'turn-brought-no-heat' | 'smell-and-look';
  readonly seen: boolean;
  readonly says: string;
}

export interface Readiness {
  readonly proposal: 'not-yet' | 'turn-and-see' | 'smell-and-look' | 'confirmed';
  readonly points: readonly ReadinessPoint[];
  readonly next: string;
}

const smellAfterHeat = `Once it has cooled, open it in several places, smell it and look at it: its culture may be lost. ${heatDamageSigns}`;

/** Said only of a batch that was too hot for too long; it stays said when a person has judged it. */
function overheatedPoint({ heat, lossC }: ReadinessFacts): ReadinessPoint[] {
  if (heat === null || heat.lossH < lossAfterH) return [];
  const was = `the ${heat.position} lay at ${degrees(lossC)} or more for ${hoursLong(heat.lossH)}, up to ${degrees(heat.peakC)}`;
  const seen = heat.unjudged === null;
  return [
    {
      what: 'judged-since-overheated',
      seen,
      says: seen
        ? `A person has smelt or looked at it since ${was}.`
        : `It was too hot: ${was}. Its culture may be lost, and nobody has smelt or looked at it since.`,
    },
  ];
}

export function readinessOf(facts: ReadinessFacts): Readiness {
  const came = facts.peakExcessK >= cameK;
  const gone = came && facts.nearAirH >= nearHeldH;
  const watched = facts.sinceLateTurnH !== null && facts.sinceLateTurnH >= turnWatchedH;
  const still = gone && watched && facts.riseSinceTurnK < reheatK;
  const overheated = overheatedPoint(facts);
  const points: ReadinessPoint[] = [
    {
      what: 'heat-came',
      seen: came,
      says: came
        ? `Heat came: it was up to ${Math.round(facts.peakExcessK)} °C above the air.`
        : 'Its heat has not come yet.',
    },
    ...overheated,
    {
      what: 'back-near-air',
      seen: gone,
      says: `It has ${gone ? '' : 'not '}come back to within ${nearK} °C of the air.`,
    },
    {
      what: 'turn-brought-no-heat',
      seen: still,
      says: still
        ? 'A turn brought no new warmth within a day.'
        : facts.sinceLateTurnH === null
          ? 'It has not been turned since its heat passed.'
          : watched
            ? 'A turn warmed it again, so there was food left.'
            : 'A turn is being watched: a day must pass.',
    },
    {
      what: 'smell-and-look',
      seen: facts.confirmed,
      says: facts.confirmed ? 'A person found its smell and look good.' : judgedWords(facts.judged) + stillToSay(facts),
    },
  ];
  if (facts.heat?.unjudged != null) {
    return { proposal: gone ? 'smell-and-look' : 'not-yet', points, next: smellAfterHeat };
  }
  if (!gone) {
    const next = came ? 'Let it work until it has come back near the air.' : 'Let it work.';
    return { proposal: 'not-yet', points, next };
  }
  if (!still) {
    return { proposal: 'turn-and-see', points, next: 'Turn it once and see for a day whether it warms again.' };
  }
  const isBad = facts.judged.smell === 'bad' || facts.judged.look === 'bad';
  if (isBad) {
    const next = 'See first to what was found bad; then smell it and look at it again.';
    return { proposal: 'smell-and-look', points, next };
  }
  return facts.confirmed
    ? { proposal: 'confirmed', points, next: 'Use it or go on to the next stage, as you find it.' }
    : {
        proposal: 'smell-and-look',
        points,
        next: 'Smell it and look at it: an earthy or sweet smell and a white mat through the mass speak for it; black, bright colours or ammonia against it.',
      };
}

function stillToSay({ judged }: ReadinessFacts): string {
  return judged.smell === 'good' && judged.look === 'good' ? ' That it is done is still for a person to say.' : '';
}
