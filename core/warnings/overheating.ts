/**
 * Too hot for the culture now.
 *
 * Counting what an error may hide against the pile is the guard band of JCGM 106:2012, 8.3 (from memory).
 */
import { msPerHour } from '../../shared/units.ts';
import { chipErrorK, type Nearness, temperatureDeadbandK } from '../alarms/policies.ts';
import { type PilePosition, pilePositions } from '../profiles/pile-setup.ts';
import { degrees, dustCaution, tenths } from '../words/words.ts';
import type { Finding } from './finding.ts';
import { perLimits } from './per-limits.ts';
import { coreUnknownSays, type PileSnapshot } from './snapshot.ts';
import { believedValue, capital } from './spoken-value.ts';

/** Four times the ±0.5 °C of a common chip: a core this far above the limit is above it [K]. A skin may be so for a sunny hour. */
const clearK = 2;

export function overheatingFinding(pile: PileSnapshot): Finding {
  const { actC, lossC } = pile.setup.limits;
  const hottest = hottestOver(pile);
  const why = whyOf(pile.setup.limits);
  if (hottest === undefined) {
    // What jumped over the limit and is doubted may be so: it is neither confirmed nor cleared.
    const known = pile.coreKnown && pile.doubtedHeat === null;
    return {
      kind: 'overheating',
      position: null,
      evidence: known ? 'absent' : 'missing',
      severity: 'warning',
      seen: known
        ? 'No probe in the pile is over the limit.'
        : pile.coreKnown
          ? 'A probe jumped over the limit, and its next reading must bear it out.'
          : coreUnknownSays(pile),
      todo: known ? 'Nothing.' : 'Measure the core by hand.',
      byMs: null,
      caution: null,
      why,
      explainedBy: pile.coreLost,
    };
  }
  const lost = hottest.tempC >= lossC;
  return {
    kind: 'overheating',
    position: null,
    evidence: 'present',
    severity: lost ? 'urgent' : 'warning',
    seen: `${hotSays(pile, hottest.position)}${lost ? ': the culture you want is dying.' : againstLimit(hottest.tempC, actC)}`,
    todo: lost
      ? 'Spread it out thin now and leave it open until it has cooled.'
      : 'Turn it or spread it thinner, and leave the cover off until the core is comfortable again.',
    byMs: lost ? pile.nowMs : pile.nowMs + 2 * msPerHour,
    caution: dustCaution,
    why,
    explainedBy: null,
    nearness: nearnessOf(hottest, actC),
  };
}

function hotSays({ positions, nowMs }: PileSnapshot, position: PilePosition): string {
  const sight = positions[position];
  return sight === null
    ? ''
    : capital(believedValue(position === 'core' ? 'core' : `${position} of the pile`, sight, nowMs, degrees));
}

function againstLimit(tempC: number, actC: number): string {
  if (tempC > actC) return `, above the ${degrees(actC)} at which to act.`;
  if (tempC <= actC - chipErrorK) return `, only just back under ${degrees(actC)}.`;
  return `: a probe may be off by ${tenths(chipErrorK)} °C, so it may well be at the ${degrees(actC)} at which to act.`;
}

function nearnessOf({ position, tempC }: Hot, actC: number): Nearness {
  if (tempC <= actC) return 'at';
  return position === 'core' && tempC >= actC + clearK ? 'clear' : 'past';
}

const whyOf = perLimits(
  ({ actC, lossC }) =>
    `Present when a probe in the pile passes ${degrees(actC)}, until it is below ${degrees(actC - temperatureDeadbandK)}. ` +
    `At the core, above ${degrees(actC - chipErrorK)} counts already, as a common probe may be off by ${tenths(chipErrorK)} °C; that is said after half an hour, ${degrees(actC + clearK)} or more at once. ` +
    `Above ${degrees(lossC)} the culture itself is being lost. Without a core reading it is neither confirmed nor cleared.`,
);

export interface Hot {
  readonly position: PilePosition;
  readonly tempC: number;
}

/** The hottest fresh place that is over the limit. */
export function hottestOver(pile: PileSnapshot): Hot | undefined {
  let hottest: Hot | undefined;
  for (const position of pilePositions) {
    const sight = pile.positions[position];
    if (sight === null || sight.silent || sight.temperatureC === null) continue;
    if (pile.state.positions[position]?.overheated !== true) continue;
    if (hottest === undefined || sight.temperatureC > hottest.tempC) hottest = { position, tempC: sight.temperatureC };
  }
  return hottest;
}
