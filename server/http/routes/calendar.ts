/** The calendar of dates, behind an address that is each person's own. It never writes the secret into a log. */
import { z } from 'zod';
import { isStanding } from '../../../core/alarms/standing.ts';
import { adviceOf } from '../../../core/say/advice.ts';
import { advisedAlarm } from '../../../core/say/alarm-view.ts';
import type { Clock } from '../../../shared/clock.ts';
import type { Config } from '../../../shared/config.ts';
import { calendarSchema } from '../../../shared/contracts/records.ts';
import { metric, plainReader, type Reader } from '../../../shared/messages/format.ts';
import { fallback } from '../../../shared/messages/language.ts';
import { nameSchema } from '../../../shared/names.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { PersonRecord } from '../../../shared/store/people-journal.ts';
import { batchName, readFamily } from '../../services/lineage/family.ts';
import { calendarAddresses } from '../../services/records/calendar/calendar-addresses.ts';
import { dateCalendar } from '../../services/records/calendar/date-calendar.ts';
import type { Api } from '../api.ts';
import { fileAnswer } from '../file-answer.ts';
import { sendProblem } from '../problem.ts';
import { opensElsewhere, publicAddress } from '../public-address.ts';

interface CalendarParts {
  readonly clock: Clock;
  readonly journal: Journal;
  readonly config: Pick<Config, 'PUBLIC_URL'>;
}

export function registerCalendar(api: Api, parts: CalendarParts): void {
  const { journal, config } = parts;

  const addresses = calendarAddresses(journal);
  const shown = (address: string) => ({
    address,
    says: opensElsewhere(address)
      ? 'The address is yours: whoever has it can read the dates, until you renew it.'
      : 'The address is yours, and opens on this machine only: set BRANHEARTH_PUBLIC_URL to the one that phones reach. Whoever has it can read the dates, until you renew it.',
  });
  const addressOf = (base: string, secret: string) => `${base}/calendar/${secret}.ics`;

  api.get(
    '/api/calendar',
    { config: { access: 'viewer' }, schema: { response: { 200: calendarSchema } } },
    async (request, reply) => {
      const secret = await addresses.of(request.person);
      reply.header('Cache-Control', 'private, no-store');
      return shown(addressOf(publicAddress(config.PUBLIC_URL, request), secret));
    },
  );

  api.post(
    '/api/calendar/renewal',
    {
      config: { access: 'viewer', does: 'renewed the address of their calendar' },
      schema: { response: { 200: calendarSchema } },
    },
    async (request, reply) => {
      reply.header('Cache-Control', 'private, no-store');
      return shown(addressOf(publicAddress(config.PUBLIC_URL, request), await addresses.renew(request.person)));
    },
  );

  /** Times stand beside the sentences, so that their zone is the calendar's own. */
  const readerOf = async (person: PersonRecord | null): Promise<Reader> => {
    const kept = (await journal.notifications.preferences.list()).find(({ personId }) => personId === person?.id);
    const units = { ...metric, temperature: kept?.preferences.unit ?? metric.temperature };
    return { ...plainReader(parts.clock.nowMs(), units), language: person?.language ?? fallback };
  };

  api.get(
    '/calendar/:secret.ics',
    {
      config: { access: 'open' },
      logLevel: 'warn', // the line for each request would hold the secret
      schema: {
        params: z.object({ secret: z.string().max(64) }),
        querystring: z.object({ site: nameSchema.optional(), pile: z.string().max(64).optional() }),
        response: fileAnswer('The dates.', 'text/calendar'),
      },
    },
    async (request, reply) => {
      const holder = await addresses.whose(request.params.secret);
      if (!holder) {
        return sendProblem(
          reply,
          404,
          'This address of the calendar was renewed, belongs to somebody who has left, or never was.',
        );
      }
      const { site, pile } = request.query;
      const family = await readFamily(journal);
      const sites = new Map((await journal.sites.list()).map(({ id, name }) => [id, name]));
      const hazards = new Map(
        (await journal.alarms.open())
          .filter(({ kind, machine }) => kind === 'self-heating' && isStanding(machine))
          .map((alarm) => [alarm.pileId, adviceOf(advisedAlarm(alarm), []).todo]),
      );
      const batches = [...family.batches.values()].flatMap((batch) => {
        const place = family.piles.get(batch.pileId);
        if (!place || batch.endedAtMs !== null) return [];
        if ((site !== undefined && place.siteId !== site) || (pile !== undefined && place.id !== pile)) return [];
        const siteName = sites.get(place.siteId) ?? place.siteId;
        const hazardTodo = hazards.get(place.id);
        return [{ batch, name: batchName(family, batch), pileName: place.name, siteName, hazardTodo }];
      });
      return reply
        .type('text/calendar; charset=utf-8')
        .header('Cache-Control', 'private, max-age=300')
        .header('Content-Disposition', 'inline; filename="branhearth.ics"')
        .send(dateCalendar(batches, publicAddress(config.PUBLIC_URL, request), await readerOf(holder.person)));
    },
  );
}
