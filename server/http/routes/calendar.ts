/** The calendar of dates, behind an address that is each person's own. It never writes the secret into a log. */
import { z } from 'zod';
import type { Clock } from '../../../shared/clock.ts';
import type { Config } from '../../../shared/config.ts';
import { calendarSchema } from '../../../shared/contracts/records.ts';
import { metric, plainReader, type Reader } from '../../../shared/messages/format.ts';
import { inWords } from '../../../shared/messages/in-words.ts';
import { fallback } from '../../../shared/messages/language.ts';
import { message } from '../../../shared/messages/message.ts';
import { nameSchema } from '../../../shared/names.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { PersonRecord } from '../../../shared/store/people-journal.ts';
import { calendarAddresses } from '../../services/records/calendar/calendar-addresses.ts';
import { calendarBatches } from '../../services/records/calendar/calendar-batches.ts';
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
  registerCalendarAddress(api, parts);
  registerCalendarFile(api, parts);
}

function registerCalendarAddress(api: Api, { journal, config }: CalendarParts): void {
  const addresses = calendarAddresses(journal);

  api.get(
    '/api/calendar',
    { config: { access: 'viewer' }, schema: { response: { 200: calendarSchema } } },
    async (request, reply) => {
      const secret = await addresses.of(request.person);
      reply.header('Cache-Control', 'private, no-store');
      return calendarView(publicAddress(config.PUBLIC_URL, request), secret);
    },
  );

  api.post(
    '/api/calendar/renewal',
    {
      config: { access: 'viewer', does: 'audit.did.renewed-address-of-their-calendar' },
      schema: { response: { 200: calendarSchema } },
    },
    async (request, reply) => {
      reply.header('Cache-Control', 'private, no-store');
      return calendarView(publicAddress(config.PUBLIC_URL, request), await addresses.renew(request.person));
    },
  );
}

function registerCalendarFile(api: Api, { journal, config, clock }: CalendarParts): void {
  const addresses = calendarAddresses(journal);

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
        return sendProblem(reply, 404, message('problem.calendar-gone'));
      }
      const batches = await calendarBatches(journal, request.query);
      return reply
        .type('text/calendar; charset=utf-8')
        .header('Cache-Control', 'private, max-age=300')
        .header('Content-Disposition', 'inline; filename="branhearth.ics"')
        .send(
          dateCalendar(
            batches,
            publicAddress(config.PUBLIC_URL, request),
            await calendarReader(journal, holder.person, clock.nowMs()),
          ),
        );
    },
  );
}

/** @param base Where people reach the server, without a slash at its end. */
function calendarView(base: string, secret: string): z.output<typeof calendarSchema> {
  const address = `${base}/calendar/${secret}.ics`;
  return {
    address,
    ...inWords({ says: opensElsewhere(address) ? message('calendar.yours') : message('calendar.yours-here') }, 0),
  };
}

/** Times stand beside the sentences, so that their zone is the calendar's own. */
async function calendarReader(journal: Journal, person: PersonRecord | null, nowMs: number): Promise<Reader> {
  const kept = (await journal.notifications.preferences.list()).find(({ personId }) => personId === person?.id);
  const units = { ...metric, temperature: kept?.preferences.unit ?? metric.temperature };
  return { ...plainReader(nowMs, units), language: person?.language ?? fallback };
}
