/** How long a batch was how hot, beside what composting rules ask. */
import { hoursAtLeast, recordSays, ruleFacts, startRuleLog, toHours } from '../../../core/records/composting-rules.ts';
import type { HeatLog } from '../../../core/records/heat-log.ts';
import type { TimeTemperature } from '../../../shared/contracts/records.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import { worded } from '../../../shared/messages/in-words.ts';
import { message } from '../../../shared/messages/message.ts';
import type { Position } from '../../../shared/names.ts';

/**
 * @param turnsAtMs When turns were logged.
 * @param downsampledToMs Until when only ten-minute means are kept; 0 when all readings are.
 */
export function timeTemperature(
  logs: ReadonlyMap<Position, HeatLog>,
  turnsAtMs: readonly number[],
  lengthMs: number,
  downsampledToMs = 0,
): TimeTemperature {
  const position = countedPosition(logs);
  const log = (position && logs.get(position)) ?? startRuleLog();
  return worded({
    position,
    hoursAtLeast: hoursAtLeast(log),
    measuredH: toHours(log.measuredMs),
    unmeasuredH: toHours(Math.max(0, lengthMs - log.measuredMs)),
    highestC: log.highestC,
    highestAt: log.highestAtMs === null ? null : toInstant(log.highestAtMs),
    turns: turnsAtMs.length,
    rules: ruleFacts(log, turnsAtMs),
    messages: {
      says:
        downsampledToMs > 0
          ? [...recordSays, message('rule.downsampled', { untilDateMs: downsampledToMs })]
          : [...recordSays],
    },
  });
}

/** The core; without one, the position that was coolest at its hottest, so that nothing is made to look hotter. */
function countedPosition(logs: ReadonlyMap<Position, HeatLog>): Position | null {
  if (logs.has('core')) return 'core';
  const byHeat = [...logs].sort(([, a], [, b]) => (a.highestC ?? 0) - (b.highestC ?? 0));
  return byHeat[0]?.[0] ?? null;
}
