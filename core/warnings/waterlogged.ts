/** Too wet to breathe. It never is sure: a person's squeeze and nose decide, and it says so. */
import { message, paragraph } from '../../shared/messages/message.ts';
import { stageProfiles } from '../../shared/profiles/stages.ts';
import { msPerHour } from '../../shared/units.ts';
import { freeAirSpaceFrac } from '../physics/haug.ts';
import { wetBasis } from '../physics/water-balance.ts';
import { cautions } from '../profiles/cautions.ts';
import { materialFacts } from '../profiles/material-facts.ts';
import { chilledAfterH } from './chilled.ts';
import { type Finding, nothingToDo } from './finding.ts';
import { perLimits } from './per-limits.ts';
import { coreUnknownSays, type PileSnapshot, saidByHand } from './snapshot.ts';

/**
 * Free air space usually taken as the floor for composting is 0.30 (after Das and Keener 1997, J. Environ. Eng. 123:275, by its abstract);
 * fine rice bran at the 65 % that growers still lay has 0.27, reckoned with 330 kg/m³ dry [-]. That it chokes below that is our own choice.
 */
const chokedFrac = 0.27;
/** This near to all that it can hold counts as soaked, for the rest has run off, wet basis [-]; our own choice, no source. */
const soakedFrac = 0.01;

export function waterloggedFinding(pile: PileSnapshot): Finding<'waterlogged'> {
  const { state, setup } = pile;
  const { airedAboveAirK } = stageProfiles[setup.stage];
  const facts = materialFacts[setup.recipe.material];
  const frac = wetBasis(pile.water.waterKgKg);
  const air = freeAirSpaceFrac(facts.dryDensityKgM3, frac, facts.particleDensityKgM3);
  const wet = frac > facts.holdsFrac - soakedFrac || air < chokedFrac;
  const working = state.phase.now === 'active' || state.phase.now === 'settled';
  // A bed that has been comfortably warm has had its air; what holds it back later is something else.
  const warmed =
    airedAboveAirK === null
      ? (state.phase.peakC ?? 0) >= setup.limits.comfortMinC
      : state.phase.highestExcessK >= airedAboveAirK;
  const present = pile.coreKnown && wet && !working && !warmed && state.hours.done >= 24 && state.work.perDay < 0.2;
  return {
    kind: 'waterlogged',
    position: null,
    evidence: pile.coreKnown ? (present ? 'present' : 'absent') : 'missing',
    severity: 'warning',
    seen: !pile.coreKnown
      ? coreUnknownSays(pile)
      : present
        ? message('warnings.waterlogged.seen.choked', { moistureFrac: frac, airFrac: air })
        : airEnough,
    todo: present ? feelIt : nothingToDo,
    byMs: present ? pile.nowMs + 12 * msPerHour : null,
    caution: present ? caution : null,
    why: whyOf(setup.limits),
    explainedBy:
      pile.coreLost ?? saidByHand(pile, 'hand-wet') ?? (present && state.cold.forH >= chilledAfterH ? 'chilled' : null),
  };
}

const whyOf = perLimits(({ moistureMaxFrac }) => message('why.waterlogged', { moistureMaxFrac, chokedFrac }));
const airEnough = message('warnings.waterlogged.seen.none');
const feelIt = message('warnings.waterlogged.todo');
const caution = paragraph(cautions.spores, cautions.foulAir);
