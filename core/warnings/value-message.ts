/**
 * A temperature as it is spoken of: as of now, with its age once it is older than its probe's rhythm, or as doubted. A clause, to
 * begin a sentence or to stand in one.
 */
import { type Message, message, type Temperature } from '../../shared/messages/message.ts';
import type { Position } from '../../shared/names.ts';
import type { PositionSight } from './finding.ts';
import { isOld } from './spoken-value.ts';

type Spoken = Pick<PositionSight, 'temperatureC' | 'temperatureAtMs' | 'everyMs' | 'doubted'>;

export interface HowSaid {
  /** It begins the sentence. */
  readonly isFirst: boolean;
  /** For fewer decimals than measured. */
  readonly temp?: (tempC: number) => Temperature;
}

/** @example valueMessage('core', sight, nowMs, { isFirst: false }) // => "the core probe reads 70 °C, a jump from 46 °C" */
export function valueMessage(position: Position, sight: Spoken, nowMs: number, how: HowSaid): Message {
  const { temperatureC, doubted } = sight;
  if (doubted === null || temperatureC === null) return believedMessage(position, sight, nowMs, how);
  const { isFirst, temp = asMeasured } = how;
  const tempC = temp(doubted.temperatureC);
  return message('warnings.value.doubted', { isFirst, position, tempC, beforeC: temp(temperatureC) });
}

/**
 * Of the last that is believed; where a newer one is doubted, it is no longer the present.
 * @example believedMessage('core', sight, nowMs, { isFirst: true }) // => "The core was at 46 °C 20 hours ago"
 */
export function believedMessage(position: Position, sight: Spoken, nowMs: number, how: HowSaid): Message {
  const { temperatureC, temperatureAtMs, doubted } = sight;
  const { isFirst, temp = asMeasured } = how;
  if (temperatureC === null || temperatureAtMs === null) return message('warnings.value.none', { isFirst, position });
  const tempC = temp(temperatureC);
  return doubted !== null || isOld(sight, nowMs)
    ? message('warnings.value.then', { isFirst, position, tempC, agoMs: nowMs - temperatureAtMs })
    : message('warnings.value.now', { isFirst, position, tempC });
}

const asMeasured = (tempC: number): Temperature => tempC;
