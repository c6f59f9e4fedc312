/**
 * What one message means: readings to keep, a probe's status, air foretold, or a counted refusal. It never throws over
 * what a message holds, and stores nothing itself.
 */

import type { Clock } from '../../shared/clock.ts';
import type { IssuedAirAhead } from '../../shared/contracts/air-ahead.ts';
import { ReadingError } from '../../shared/errors.ts';
import { message } from '../../shared/messages/message.ts';
import { hubStatusTopic } from '../../shared/published-topics.ts';
import type { Reading } from '../../shared/reading.ts';
import { decodeAirAhead } from '../decode/air-ahead.ts';
import { decodeNumber, decodeReading } from '../decode/decode-payload.ts';
import {
  type Arrival,
  type Decoded,
  foundSaid,
  noReadings,
  noRefusals,
  type ProbeRef,
  refused,
} from '../decode/decoded.ts';
import { createTopicReader, type Route } from '../decode/topic.ts';
import { type ForeignIntakeParts, readForeign } from './foreign-intake.ts';
import { type Inbound, sizeProblem, textOf } from './inbound.ts';
import { type KeepableParts, keepableReadings, unclaimedError } from './keepable-readings.ts';

export interface IntakeOptions extends ForeignIntakeParts, KeepableParts {
  /** First level of the topics. */
  readonly root: string;
  readonly clock: Clock;
  onStatus(site: string, probe: string, online: boolean, atMs: number): void;
  /** Air foretold for a site; comes back with why it cannot be used. Absent where another process keeps it. */
  onAirAhead?: ((site: string, ahead: IssuedAirAhead) => Promise<ReadingError | undefined>) | undefined;
  readonly hubs?: HubListener | undefined;
}

export interface HubListener {
  cameUp(): void;
  /** Somebody pressed there; comes back with why it does not count. */
  onPress(press: HubPress): Promise<ReadingError | undefined>;
}

export interface HubPress {
  readonly site: string;
  readonly pile: string;
  readonly text: string;
  /** The broker keeps it, or is to: whoever comes later would press again. */
  readonly isKept: boolean;
}

/** @returns What of the message is to be kept. */
export type Intake = (message: Inbound) => readonly Reading[];

type HubPressRoute = Extract<Route, { kind: 'acknowledge' }>;

const nothing: Decoded = { readings: noReadings, refusals: noRefusals };

export function createIntake(options: IntakeOptions): Intake {
  const { clock, refusals } = options;
  const routeOf = createTopicReader(options.root);

  return (message) => {
    const arrival = { nowMs: clock.nowMs(), retained: message.retained };
    const decoded = decode(options, routeOf(message.topic), message, arrival);
    for (const error of decoded.refusals) refusals.count(error, message.topic, message.payload);
    if (decoded.readings.length === 0) return decoded.readings;
    return keepableReadings(options, decoded.readings, message);
  };
}

function decode(options: IntakeOptions, route: Route, message: Inbound, arrival: Arrival): Decoded {
  if (route.kind === 'foreign') return readForeign(options, message, arrival) ?? nothing;
  if (route.kind === 'own') return nothing;
  if (route.kind === 'hub-status') {
    // Boards say theirs on topics of the same shape, and a broker may bring a copy for each filter.
    if (textOf(message) === 'online' && message.cameBy?.(hubStatusTopic) !== false) options.hubs?.cameUp();
    return nothing;
  }
  // A mapping may know what to do with a shape below the root that we do not.
  if (route.kind === 'misshapen') return readForeign(options, message, arrival) ?? refused(route.error);
  const size = sizeProblem(message);
  if (size !== undefined) return refused(size);
  const text = textOf(message);
  if (route.kind === 'acknowledge') return takePress(options, message, route);
  if (route.kind === 'reading') return decodeReading(text, route.probe, arrival);
  if (route.kind === 'air-ahead') return takeAirAhead(options, message, route.site, arrival);
  if (route.kind === 'value') return decodeNumber(text, route.probe, route.quantity, arrival);
  return takeStatus(options, text, route.probe, arrival);
}

function takeStatus(options: IntakeOptions, text: string, { site, probe }: ProbeRef, { nowMs }: Arrival): Decoded {
  if (text !== 'online' && text !== 'offline') {
    return refused(new ReadingError('wrong-type', message('refusal.status', { foundPart: foundSaid(text) })));
  }
  if (!options.admits(site, probe)) return refused(unclaimedError({ site, probe }));
  options.onStatus(site, probe, text === 'online', nowMs);
  return nothing;
}

function takePress({ hubs, refusals }: IntakeOptions, message: Inbound, { site, pile }: HubPressRoute): Decoded {
  const { topic, payload, retained: isKept } = message;
  void hubs
    ?.onPress({ site, pile, text: textOf(message), isKept })
    .then((error) => error && refusals.count(error, topic, payload));
  return nothing;
}

function takeAirAhead(
  { onAirAhead, refusals }: IntakeOptions,
  message: Inbound,
  site: string,
  arrival: Arrival,
): Decoded {
  if (!onAirAhead) return nothing;
  const ahead = decodeAirAhead(textOf(message), arrival);
  if (ahead instanceof ReadingError) return refused(ahead);
  const { topic, payload } = message;
  void onAirAhead(site, ahead).then((error) => error && refusals.count(error, topic, payload));
  return nothing;
}
