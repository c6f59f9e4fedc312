/**
 * The bed losing the water the culture needs. It never waits for the pore air alone: its humidity falls only below 25
 * to 30 % moisture, after the work has stopped.
 */

import { msPerHour } from '../../shared/units.ts';
import { dryAirNeededH, dryMarginFrac } from '../estimate/follow-water.ts';
import { type WaterToAdd, waterToAdd } from '../estimate/water-to-add.ts';
import { wetBasis } from '../physics/water-balance.ts';
import { pilePositions } from '../profiles/pile-setup.ts';
import { percent, tenths, wateringCaution } from '../words/words.ts';
import type { Finding } from './finding.ts';
import { perLimits } from './per-limits.ts';
import { coreUnknownSays, type PileSnapshot, saidByHand } from './snapshot.ts';

export function dryingFinding(pile: PileSnapshot): Finding {
  const { state, setup, water } = pile;
  const frac = wetBasis(water.waterKgKg);
  const dryAir = pile.coreKnown && (state.positions.core?.dryAirH ?? 0) >= dryAirNeededH;
  const present = pile.coreKnown && (water.dry || dryAir);
  return {
    kind: 'drying',
    position: null,
    evidence: pile.coreKnown ? (present ? 'present' : 'absent') : 'missing',
    severity: frac < 0.4 || dryAir ? 'urgent' : 'warning',
    seen: !pile.coreKnown
      ? `${coreUnknownSays(pile).slice(0, -1)}, so its drying cannot be followed.`
      : dryAir
        ? 'Even the air inside the pile has become dry.'
        : present
          ? howDry(frac, water.waterSd * (1 - frac) ** 2, setup.limits.moistureMinFrac) + guessedAir(state)
          : 'The bed holds the water it needs, by the water balance.',
    todo: present
      ? `Squeeze a handful from the core. If it crumbles, sprinkle ${howMuch(waterToAdd(water, setup.recipe, setup.limits))}, ${mixingWords(pile)}.`
      : pile.coreKnown
        ? 'Nothing.'
        : 'Squeeze a handful from the core by hand.',
    byMs: present ? pile.nowMs + 6 * msPerHour : null,
    caution: present ? wateringCaution : null,
    why: whyOf(setup.limits),
    explainedBy: pile.coreLost ?? saidByHand(pile, 'hand-dry'),
  };
}

/** Whether it is dry by the estimate itself, or only may be, by how far that may be off. */
function howDry(frac: number, sdFrac: number, needsFrac: number): string {
  return Math.round(100 * frac) < Math.round(100 * needsFrac)
    ? `The bed is at about ${percent(frac)} moisture by the water balance, below the ${percent(needsFrac)} it needs.`
    : `The bed may hold less than the ${percent(needsFrac)} moisture it needs: the water balance says ${percent(frac)}, give or take ${Math.round(100 * sdFrac)}.`;
}

/** What doubts the balance most, and a grower can mend. */
function guessedAir({ positions }: PileSnapshot['state']): string {
  return positions.air?.humidity == null ? ' The humidity of the air is guessed, as no probe measures it.' : '';
}

/** @example "about 12 L of water, in two or three goes" */
export function howMuch(add: WaterToAdd | null): string {
  if (add === null) return 'a little water';
  const goal = `for ${percent(add.toFrac)}`;
  return add.litres === null
    ? `about ${tenths(add.litresPer10Kg)} L of water for each 10 kg of the bed (${goal}), in two or three goes`
    : `about ${add.litres < 10 ? tenths(add.litres) : Math.round(add.litres)} L of water (${goal}), in two or three goes`;
}

/** A pile that is too hot, or soon will be, is not covered: it is wetted as it is turned. */
export function mixingWords({ state }: PileSnapshot): string {
  const isHot = state.soonOver || pilePositions.some((position) => state.positions[position]?.overheated === true);
  return isHot ? 'mix it in as you turn it, and leave the cover off' : 'mix it in and cover';
}

const whyOf = perLimits(
  ({ moistureMinFrac }) =>
    `Present when the estimated moisture, less half of what it may be off, is below ${tenths(100 * (moistureMinFrac - dryMarginFrac))} % (the stage’s ${percent(moistureMinFrac)} less the balance’s own error), ` +
    `or the air inside the pile stays under a relative humidity of 93 % for ${dryAirNeededH} hours. ` +
    'The estimate adds what was laid and given and takes off what the heat drives out; without a core reading it cannot be kept.',
);
