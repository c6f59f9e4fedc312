/**
 * core/warn/self-heating.ts: the ladder of self-heating, from danger zone to fire.
 *
 * Takes:  one look at the pile.
 * Gives:  the step reached by the hottest fresh probe, with its caution.
 * Never:  clears while the core is silent.
 */
import { selfHeatingLadder } from '../../shared/stage.ts';
import { msPerHour } from '../../shared/units.ts';
import type { Finding } from '../judge/assessment.ts';
import { type PilePosition, pilePositions } from '../judge/setup.ts';
import { coreUnknownSays, type Look } from './look.ts';
import { degrees, fireCaution } from './words.ts';

const why =
  `Present when any probe in the pile is at ${selfHeatingLadder[0].fromC} °C or above; the steps at ` +
  `${selfHeatingLadder.map((step) => step.fromC).join(', ')} °C are those farm extension services give for stored hay (read second-hand).`;

export function selfHeatingFinding(look: Look): Finding {
  const hottest = hottestBorneOut(look);
  const step = hottest && selfHeatingLadder.findLast((rung) => hottest.tempC >= rung.fromC);
  if (hottest === undefined || step === undefined) {
    return {
      kind: 'self-heating',
      position: null,
      evidence: look.coreKnown ? 'absent' : 'missing',
      severity: 'danger',
      seen: look.coreKnown ? 'No probe in the pile is near self-heating.' : coreUnknownSays(look),
      todo: look.coreKnown ? 'Nothing.' : 'Measure the core by hand.',
      byMs: null,
      caution: null,
      why,
      explainedBy: look.coreLost,
    };
  }
  return {
    kind: 'self-heating',
    position: null,
    evidence: 'present',
    severity: step.fromC >= 71 ? 'danger' : 'urgent',
    seen: `The ${hottest.position} is at ${degrees(hottest.tempC)}: ${step.says}.`,
    todo: `${step.todo[0]?.toUpperCase()}${step.todo.slice(1)}.`,
    byMs: step.fromC >= 71 ? look.nowMs : look.nowMs + 2 * msPerHour,
    caution: fireCaution,
    why,
    explainedBy: null,
  };
}

/** Fire is called on two good readings, not on one: the value before must have been near as well. */
function borneOut(look: Look, position: PilePosition): boolean {
  const track = look.state.positions[position]?.temperature;
  return track != null && Math.abs(track.value - track.previous) < 10;
}

function hottestBorneOut(look: Look): { position: PilePosition; tempC: number } | undefined {
  let hottest: { position: PilePosition; tempC: number } | undefined;
  for (const position of pilePositions) {
    const sight = look.positions[position];
    if (sight === null || sight.silent || sight.temperatureC === null || !borneOut(look, position)) continue;
    if (hottest === undefined || sight.temperatureC > hottest.tempC) hottest = { position, tempC: sight.temperatureC };
  }
  return hottest;
}
