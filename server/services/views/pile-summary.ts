/** One pile as the home page shows it: its sentence first, then what it rests on. */
import { sayCondition } from '../../../core/say/condition.ts';
import type { Assessment } from '../../../core/session/assessment.ts';
import { toldDoubt } from '../../../core/session/assessment-view.ts';
import { toldHeat } from '../../../core/session/told-heat.ts';
import type { AlarmSummary, PileSummary, PositionNow } from '../../../shared/contracts/piles.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import { inWords } from '../../../shared/messages/in-words.ts';
import { verbatim } from '../../../shared/messages/message.ts';
import { plainEnglish } from '../../../shared/messages/render.ts';
import type { Position } from '../../../shared/names.ts';
import type { OwnPile } from '../../monitor/pile/watched-pile.ts';
import type { ProbeBook } from '../probes/probe-book.ts';
import { alarmSummary } from './alarm-view.ts';
import { unseenPile } from './unjudged-pile.ts';

type Seen = Pick<OwnPile, 'pile' | 'batch' | 'sources' | 'watch'>;

export function pileSummary(one: Seen, probes: ProbeBook): PileSummary {
  const { pile, batch, watch } = one;
  const { assessment } = watch; // asked for once: it is worked out
  const open = [...watch.registry.open()];
  const records = open.map(({ record }) => record);
  const alarms = open.map((alarm) => alarmSummary(alarm, records));
  const unseen = unseenPile(pile, batch);
  return {
    ...unseen,
    ...(unseen.batch && assessment && { batch: { ...unseen.batch, ...standOf(assessment) } }),
    positions: positionsNow(one, assessment, probes),
    ...(batch && assessment && said(assessment, alarms)),
    alarms,
  };
}

function said(assessment: Assessment, alarms: readonly AlarmSummary[]) {
  const standing = alarms.map((alarm) => ({ ...alarm, todo: verbatim(alarm.todo) }));
  const { condition, next, tone } = sayCondition(assessment, standing);
  return { ...inWords({ condition, next }, assessment.atMs), tone };
}

const standOf = ({ progressPct: progress, phase, phaseReason, moisture, heat, limits }: Assessment) => ({
  progress,
  phase,
  phaseReason,
  ...(moisture && { moisture }),
  heat: toldHeat(heat, limits, plainEnglish),
});

function positionsNow(one: Seen, assessment: Assessment | null, probes: ProbeBook): PileSummary['positions'] {
  const positions: Partial<Record<Position, PositionNow>> = {};
  for (const { claim, position } of one.sources) {
    if (claim.toMs !== null) continue;
    const { last, lastAtMs } = probes.of(claim.site, claim.probe);
    positions[position] = {
      probe: claim.probe,
      ...(last.temperature && { temperatureC: last.temperature.value }),
      ...toldDoubt(assessment?.positions[position]),
      ...(last.humidity && { humidityPct: last.humidity.value }),
      ...(last.moisture && { moisturePct: last.moisture.value }),
      ...(last.co2 && { co2Ppm: last.co2.value }),
      ...(lastAtMs !== null && { at: toInstant(lastAtMs) }),
      // What it said before this batch was laid is old, however it was meant.
      silent: assessment ? (assessment.positions[position]?.silent ?? true) : lastAtMs === null,
    };
  }
  return positions;
}
