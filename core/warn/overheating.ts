/**
 * core/warn/overheating.ts: too hot for the culture now.
 *
 * Takes:  one look at the pile.
 * Gives:  present when any fresh probe in the pile is over the limit, absent only when the core is known to be under it.
 */
import { msPerHour } from '../../shared/units.ts';
import { temperatureDeadbandK } from '../alarm/policies.ts';
import type { Finding } from '../judge/assessment.ts';
import { type PilePosition, pilePositions } from '../judge/setup.ts';
import { coreUnknownSays, type Look } from './look.ts';
import { perLimits } from './per-limits.ts';
import { degrees, dustCaution } from './words.ts';

/** Four times the ±0.5 °C of a common chip: a core this far above the limit is above it [K]. A skin may be so for a sunny hour. */
const clearK = 2;

export function overheatingFinding(look: Look): Finding {
  const { actC, lossC } = look.setup.limits;
  const hottest = hottestOver(look);
  const why = whyOf(look.setup.limits);
  if (hottest === undefined) {
    const known = look.coreKnown;
    return {
      kind: 'overheating',
      position: null,
      evidence: known ? 'absent' : 'missing',
      severity: 'warning',
      seen: known ? 'No probe in the pile is over the limit.' : coreUnknownSays(look),
      todo: known ? 'Nothing.' : 'Measure the core by hand.',
      byMs: null,
      caution: null,
      why,
      explainedBy: look.coreLost,
    };
  }
  const lost = hottest.tempC >= lossC;
  const where = hottest.position === 'core' ? 'core' : `${hottest.position} of the pile`;
  return {
    kind: 'overheating',
    position: null,
    evidence: 'present',
    severity: lost ? 'urgent' : 'warning',
    seen: lost
      ? `The ${where} is at ${degrees(hottest.tempC)}: the culture you want is dying.`
      : hottest.tempC > actC
        ? `The ${where} is at ${degrees(hottest.tempC)}, above the ${degrees(actC)} at which to act.`
        : `The ${where} is at ${degrees(hottest.tempC)}, only just back under ${degrees(actC)}.`,
    todo: lost
      ? 'Spread it out thin now and leave it open until it has cooled.'
      : 'Turn it or spread it thinner, and leave the cover off until the core is comfortable again.',
    byMs: lost ? look.nowMs : look.nowMs + 2 * msPerHour,
    caution: dustCaution,
    why,
    explainedBy: null,
    atOnce: hottest.position === 'core' && hottest.tempC >= actC + clearK,
  };
}

const whyOf = perLimits(
  ({ actC, lossC }) =>
    `Present when a probe in the pile passes ${degrees(actC)}, until it is below ${degrees(actC - temperatureDeadbandK)}. ` +
    `A core at ${degrees(actC + clearK)} or more is said at once. ` +
    `Above ${degrees(lossC)} the culture itself is being lost. Without a core reading it is neither confirmed nor cleared.`,
);

function hottestOver(look: Look): { position: PilePosition; tempC: number } | undefined {
  let hottest: { position: PilePosition; tempC: number } | undefined;
  for (const position of pilePositions) {
    const sight = look.positions[position];
    if (sight === null || sight.silent || sight.temperatureC === null) continue;
    if (look.state.positions[position]?.overheated !== true) continue;
    if (hottest === undefined || sight.temperatureC > hottest.tempC) hottest = { position, tempC: sight.temperatureC };
  }
  return hottest;
}
