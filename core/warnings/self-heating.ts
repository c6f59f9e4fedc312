/**
 * The ladder of self-heating, from danger zone to fire. It never clears while the core is silent, or a place that was
 * hot when last heard.
 */
import { selfHeatingLadder } from '../../shared/stage.ts';
import { msPerHour } from '../../shared/units.ts';
import { followsOn } from '../estimate/track.ts';
import { type PilePosition, pilePositions } from '../profiles/pile-setup.ts';
import { degrees, dustCaution, fireCaution } from '../words/words.ts';
import type { Finding } from './finding.ts';
import { coreUnknownSays, type PileSnapshot } from './snapshot.ts';
import { believedValue, capital } from './spoken-value.ts';

const why =
  `Present when any probe in the pile is at ${selfHeatingLadder[0].fromC} °C or above; the steps at ` +
  `${selfHeatingLadder.map((step) => step.fromC).join(', ')} °C are those farm extension services give for stored hay (read second-hand).`;

export function selfHeatingFinding(pile: PileSnapshot): Finding {
  const hottest = hottestBorneOut(pile);
  const step = hottest && selfHeatingLadder.findLast((rung) => hottest.tempC >= rung.fromC);
  if (hottest === undefined || step === undefined) {
    const doubted = pile.doubtedHeat !== null && pile.doubtedHeat.tempC >= selfHeatingLadder[0].fromC;
    const unsure = pile.coreKnown ? hotUnheard(pile) : undefined;
    const known = pile.coreKnown && !doubted && unsure === undefined;
    return {
      kind: 'self-heating',
      position: null,
      evidence: known ? 'absent' : 'missing',
      severity: 'danger',
      seen: known
        ? 'No probe in the pile is near self-heating.'
        : unsure !== undefined
          ? `The ${unsure} was last heard near self-heating, and is not known now.`
          : pile.coreKnown
            ? 'A probe jumped as high as that, and its next reading must bear it out.'
            : coreUnknownSays(pile),
      todo: known ? 'Nothing.' : `Measure the ${unsure ?? 'core'} by hand.`,
      byMs: null,
      caution: null,
      why,
      explainedBy: pile.coreLost,
    };
  }
  return {
    kind: 'self-heating',
    position: null,
    evidence: 'present',
    severity: step.fromC >= 71 ? 'danger' : 'urgent',
    rung: selfHeatingLadder.findIndex(({ fromC }) => fromC === step.fromC) + 1,
    seen: `${hottestSays(pile, hottest.position)}: ${step.says}.`,
    todo: `${step.todo[0]?.toUpperCase()}${step.todo.slice(1)}.`,
    byMs: step.fromC >= 71 ? pile.nowMs : pile.nowMs + 2 * msPerHour,
    caution: step.fromC === selfHeatingLadder[0].fromC ? `${dustCaution} ${fireCaution}` : fireCaution,
    why,
    explainedBy: null,
  };
}

/** From one reading to the next a place that heats itself moves no further than this [K]. */
const jumpK = 10;

function hottestSays({ positions, nowMs }: PileSnapshot, position: PilePosition): string {
  const sight = positions[position];
  return sight === null ? '' : capital(believedValue(position, sight, nowMs, degrees));
}

/** Fire is called on a reading that follows on the one before, not on a wild one. */
function borneOut(pile: PileSnapshot, position: PilePosition): boolean {
  const track = pile.state.positions[position]?.temperature;
  return track != null && followsOn(track, jumpK);
}

/** A place whose last word was of heat, and which is silent or not borne out: that is no proof that the heat is gone. */
function hotUnheard(pile: PileSnapshot): PilePosition | undefined {
  return pilePositions.find((position) => (pile.positions[position]?.temperatureC ?? 0) >= selfHeatingLadder[0].fromC);
}

function hottestBorneOut(pile: PileSnapshot): { position: PilePosition; tempC: number } | undefined {
  let hottest: { position: PilePosition; tempC: number } | undefined;
  for (const position of pilePositions) {
    const sight = pile.positions[position];
    if (sight === null || sight.silent || sight.temperatureC === null || !borneOut(pile, position)) continue;
    if (hottest === undefined || sight.temperatureC > hottest.tempC) hottest = { position, tempC: sight.temperatureC };
  }
  return hottest;
}
