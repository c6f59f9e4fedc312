/** One pile as the home page shows it: its sentence first, then what it rests on. */

import { alarmSummaries } from '../../../core/say/alarm-view.ts';
import { measureView } from '../../../core/say/measure-view.ts';
import { saidOf } from '../../../core/say/said.ts';
import type { Assessment } from '../../../core/session/assessment.ts';
import { byHandView, doubtView, standView } from '../../../core/session/assessment-view.ts';
import type { PileSummary, PositionNow } from '../../../shared/contracts/piles.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import { worded } from '../../../shared/messages/in-words.ts';
import type { Position } from '../../../shared/names.ts';
import { pileValues } from '../../../shared/quantity.ts';
import type { OwnPile } from '../../pile/watched-pile.ts';
import type { ProbeBook } from '../probes/probe-book.ts';
import { unseenPile } from './unjudged-pile.ts';

type Seen = Pick<OwnPile, 'pile' | 'batch' | 'sources' | 'watch'>;

export function pileSummary(one: Seen, probes: ProbeBook): PileSummary {
  const { pile, batch, watch } = one;
  const { assessment } = watch; // asked for once: it is worked out
  const alarms = alarmSummaries(watch.registry.open());
  const unseen = unseenPile(pile, batch);
  return {
    ...unseen,
    ...(unseen.batch && assessment && { batch: { ...unseen.batch, ...worded(standView(assessment)) } }),
    positions: positionsNow(one, assessment, probes),
    ...(batch && assessment && worded(saidOf(assessment, alarms))),
    ...(batch && assessment && worded(measureView(assessment, alarms))),
    alarms: worded(alarms),
  };
}

function positionsNow(one: Seen, assessment: Assessment | null, probes: ProbeBook): PileSummary['positions'] {
  const positions: Partial<Record<Position, PositionNow>> = {};
  for (const { claim, position } of one.sources) {
    if (claim.toMs !== null) continue;
    const { last, lastAtMs } = probes.of(claim.site, claim.probe);
    positions[position] = {
      probe: claim.probe,
      ...(claim.pileId !== one.pile.id && { ofPile: claim.pileId }),
      ...pileValues(last),
      ...doubtView(assessment?.positions[position]),
      ...(lastAtMs !== null && { at: toInstant(lastAtMs) }),
      // What it said before this batch was laid is old, however it was meant.
      silent: assessment ? (assessment.positions[position]?.silent ?? true) : lastAtMs === null,
      ...byHandView(assessment?.positions[position]),
    };
  }
  for (const { position } of assessment?.measuredByHand ?? []) {
    const { byHand } = byHandView(assessment?.positions[position]);
    if (byHand === undefined || positions[position] !== undefined) continue;
    const { temperatureC, at } = byHand;
    positions[position] = { temperatureC, at, silent: assessment?.positions[position]?.silent ?? true, byHand };
  }
  return positions;
}
