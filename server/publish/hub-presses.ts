/**
 * Acknowledges what a home automation hub was pressed for, where an owner allows that. It never takes a press that waited
 * somewhere: whoever pressed saw what stood then, and not what stands now.
 */
import type { FastifyBaseLogger } from 'fastify';
import { z } from 'zod';
import { isUnacknowledged } from '../../core/alarms/standing.ts';
import type { HubListener, HubPress } from '../../ingest/commit/intake.ts';
import { foundSaid } from '../../ingest/decode/decoded.ts';
import type { Clock } from '../../shared/clock.ts';
import { instantInputSchema } from '../../shared/contracts/time.ts';
import { ReadingError } from '../../shared/errors.ts';
import { jsonOf } from '../../shared/json-of.ts';
import { type Message, message } from '../../shared/messages/message.ts';
import { namelessNames } from '../../shared/messages/nameless.ts';
import type { AlarmRecord, Journal } from '../../shared/store/journal.ts';
import { msPerMinute } from '../../shared/units.ts';
import type { PilePort } from '../pile/pile-port.ts';
import type { AuditTrail } from '../services/people/audit-trail.ts';
import type { PublishingChoice } from './publishing-choice.ts';

export interface HubPressesParts {
  readonly clock: Clock;
  readonly log: Pick<FastifyBaseLogger, 'error'>;
  readonly journal: Pick<Journal, 'alarms'>;
  readonly choice: Pick<PublishingChoice, 'hub'>;
  readonly watch: Pick<PilePort, 'get' | 'handleAlarm'>;
  readonly trail: Pick<AuditTrail, 'settle' | 'addOf'>;
  /** A hub came up and may have forgotten the piles. */
  readonly cameUp: () => void;
}

/** Longer than a message is on its way, and than clocks of two machines that are set differ. */
const longestPressAgeMs = 2 * msPerMinute;
const pressSchema = z.object({ at: instantInputSchema });

export function hubPresses(parts: HubPressesParts): HubListener {
  return {
    cameUp: parts.cameUp,
    async onPress(press) {
      try {
        return await acknowledge(parts, press);
      } catch (error) {
        parts.log.error({ err: error, pile: press.pile }, 'a press at a hub could not be followed');
        return undefined;
      }
    },
  };
}

async function acknowledge(parts: HubPressesParts, press: HubPress): Promise<ReadingError | undefined> {
  const { clock, journal, choice, watch, trail } = parts;
  if (choice.hub() !== 'acknowledges') return refused(message('refusal.press.off'));
  if (press.isKept) return refused(message('refusal.press.kept'));
  if (watch.get(press.pile)?.pile.siteId !== press.site)
    return refused(message('refusal.press.pile', { siteText: press.site, pileText: press.pile }));
  const pressedMs = pressTimeMs(press.text);
  if (pressedMs === undefined)
    return refused(
      message('refusal.press.time', { exampleText: '{"at":"2031-04-05T06:07:08Z"}', foundPart: foundSaid(press.text) }),
    );
  const ageMs = clock.nowMs() - pressedMs;
  if (Math.abs(ageMs) > longestPressAgeMs)
    return refused(
      message('refusal.press.old', { longestMs: longestPressAgeMs, isAhead: ageMs < 0, foundMs: Math.abs(ageMs) }),
    );
  await trail.settle();
  const asking = (await journal.alarms.open(press.pile)).filter((alarm) => wasSeen(alarm, pressedMs));
  const name = namelessNames.hub;
  for (const { id } of asking) {
    if (!(await watch.handleAlarm(id, { kind: 'acknowledge', by: name }))) continue;
    await trail.addOf({ name, via: 'hub' }, { what: message('audit.did.acknowledged-warning'), subject: id });
  }
  return undefined;
}

/** It asked for somebody, and had begun when the button was pressed. */
const wasSeen = (alarm: AlarmRecord, pressedMs: number) => isUnacknowledged(alarm) && alarm.raisedAtMs <= pressedMs;

function pressTimeMs(text: string): number | undefined {
  return pressSchema.safeParse(jsonOf(text)).data?.at;
}

const refused = (said: Message) => new ReadingError('press-of-no-use', said);
