/**
 * The bed losing the water the culture needs. It never waits for the pore air alone: its humidity falls only below 25
 * to 30 % moisture, after the work has stopped.
 */
import { type Message, message, paragraph } from '../../shared/messages/message.ts';
import { msPerHour } from '../../shared/units.ts';
import { dryAirNeededH, dryMarginFrac } from '../estimate/follow-water.ts';
import { type WaterToAdd, waterToAdd } from '../estimate/water-to-add.ts';
import { wetBasis } from '../physics/water-balance.ts';
import { cautions } from '../profiles/cautions.ts';
import { pilePositions } from '../profiles/pile-setup.ts';
import { type Finding, nothingToDo } from './finding.ts';
import { knownAtRhythm } from './known-at-rhythm.ts';
import { perLimits } from './per-limits.ts';
import { type CoreUnknown, coreUnknown, type PileSnapshot, saidByHand } from './snapshot.ts';

export function dryingFinding(pile: PileSnapshot): Finding<'drying'> {
  const { state, setup, water } = pile;
  const frac = wetBasis(water.waterKgKg);
  const dryAir = pile.coreKnown && (state.positions.core?.hour.dryAirH ?? 0) >= dryAirNeededH;
  const present = pile.coreKnown && (water.dry || dryAir);
  return {
    kind: 'drying',
    position: null,
    evidence: pile.coreKnown ? (present ? 'present' : 'absent') : 'missing',
    severity: frac < 0.4 || dryAir ? 'urgent' : 'warning',
    seen: !pile.coreKnown
      ? notFollowed[coreUnknown(pile)]
      : dryAir
        ? airIsDry
        : present
          ? paragraph(howDry(frac, water.waterSd * (1 - frac) ** 2, setup.limits.moistureMinFrac), guessedAir(state))
          : holdsEnough,
    todo: present
      ? message('warnings.drying.todo.water', {
          amountPart: howMuch(waterToAdd(water, setup.recipe, setup.limits)),
          isHot: isHot(pile),
        })
      : pile.coreKnown
        ? nothingToDo
        : squeeze,
    byMs: present ? pile.nowMs + 6 * msPerHour : null,
    caution: present ? cautions.watering : null,
    why: knownAtRhythm(whyOf(setup.limits), 'drying', pile),
    explainedBy: pile.coreLost ?? saidByHand(pile, 'hand-dry'),
  };
}

/** Whether it is dry by the estimate itself, or only may be, by how far that may be off. */
function howDry(moistureFrac: number, sdFrac: number, needsFrac: number): Message {
  return Math.round(100 * moistureFrac) < Math.round(100 * needsFrac)
    ? message('warnings.drying.seen.below', { moistureFrac, needsFrac })
    : message('warnings.drying.seen.may-be', { moistureFrac, needsFrac, errorNumber: Math.round(100 * sdFrac) });
}

/** What doubts the balance most, and a grower can mend. */
function guessedAir({ positions }: PileSnapshot['state']): Message | null {
  return positions.air?.humidity == null ? airIsGuessed : null;
}

/** @example "about 12 L of water, in two or three goes" */
export function howMuch(add: WaterToAdd | null): Message {
  if (add === null) return message('warnings.water.little');
  const { toFrac: goalFrac, litres, litresPer10Kg } = add;
  return litres === null
    ? message('warnings.water.litres-each', { waterL: inTenths(litresPer10Kg), eachKg: 10, goalFrac })
    : message('warnings.water.litres', { waterL: litres < 10 ? inTenths(litres) : Math.round(litres), goalFrac });
}

const inTenths = (litres: number) => Math.round(10 * litres) / 10;

/** A pile that is too hot, or soon will be, is not covered: it is wetted as it is turned. */
export function isHot({ state }: PileSnapshot): boolean {
  return state.ahead.soonOver || pilePositions.some((position) => state.positions[position]?.overheated === true);
}

const whyOf = perLimits(({ moistureMinFrac }) =>
  message('why.drying', {
    belowPct: 100 * (moistureMinFrac - dryMarginFrac),
    needsFrac: moistureMinFrac,
    dryAirH: dryAirNeededH,
  }),
);

const notFollowed: Record<CoreUnknown, Message> = {
  'not-measured': message('warnings.drying.seen.not-measured'),
  'not-believed': message('warnings.drying.seen.not-believed'),
};
const airIsDry = message('warnings.drying.seen.dry-air');
const airIsGuessed = message('warnings.drying.seen.guessed-air');
const holdsEnough = message('warnings.drying.seen.none');
const squeeze = message('warnings.drying.todo.squeeze');
