/**
 * server/routes/calendar.ts: the calendar of dates, behind an address that only those know who were given it.
 *
 * Never:  writes the secret into a log, or tells by its answering time how much of one was right.
 */
import { createHash, randomBytes, timingSafeEqual } from 'node:crypto';
import { z } from 'zod';
import { calendarSchema } from '../../shared/api/records.ts';
import { nameSchema } from '../../shared/names.ts';
import type { House } from '../house.ts';
import type { Api } from '../http/api.ts';
import { fileAnswer } from '../http/file-answer.ts';
import { sendProblem } from '../http/problem.ts';
import { opensElsewhere, publicAddress } from '../http/public-address.ts';
import { batchName, readFamily } from '../lineage/family.ts';
import { dateCalendar } from '../records/calendar/date-calendar.ts';

const settingKey = 'calendar-secret';
const digest = (text: string) => createHash('sha256').update(text).digest();

export function registerCalendar(api: Api, house: House): void {
  const { journal, config } = house;

  const renew = async () => {
    const secret = randomBytes(32).toString('base64url');
    await journal.settings.set(settingKey, secret);
    return secret;
  };
  const shown = (address: string) => ({
    address,
    says: opensElsewhere(address)
      ? 'Whoever has this address can read the dates. Renew it to shut them out.'
      : 'This address opens on this machine only. Set BRANHEARTH_PUBLIC_URL to the one that phones reach. Whoever has it can read the dates; renew it to shut them out.',
  });
  const addressOf = (base: string, secret: string) => `${base}/calendar/${secret}.ics`;

  api.get(
    '/api/calendar',
    { config: { access: 'viewer' }, schema: { response: { 200: calendarSchema } } },
    async (request, reply) => {
      const secret = (await journal.settings.get(settingKey)) ?? (await renew());
      reply.header('Cache-Control', 'private, no-store');
      return shown(addressOf(publicAddress(config.PUBLIC_URL, request), secret));
    },
  );

  api.post(
    '/api/calendar/renewal',
    {
      config: { access: 'owner', does: 'renewed the address of the calendar' },
      schema: { response: { 200: calendarSchema } },
    },
    async (request, reply) => {
      reply.header('Cache-Control', 'private, no-store');
      return shown(addressOf(publicAddress(config.PUBLIC_URL, request), await renew()));
    },
  );

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
      const secret = await journal.settings.get(settingKey);
      if (secret === undefined || !timingSafeEqual(digest(request.params.secret), digest(secret))) {
        return sendProblem(reply, 404, 'This address of the calendar was renewed or never was.');
      }
      const { site, pile } = request.query;
      const family = await readFamily(journal);
      const sites = new Map((await journal.sites.list()).map(({ id, name }) => [id, name]));
      const batches = [...family.batches.values()].flatMap((batch) => {
        const place = family.piles.get(batch.pileId);
        if (!place || batch.endedAtMs !== null) return [];
        if ((site !== undefined && place.siteId !== site) || (pile !== undefined && place.id !== pile)) return [];
        const siteName = sites.get(place.siteId) ?? place.siteId;
        return [{ batch, name: batchName(family, batch), pileName: place.name, siteName }];
      });
      return reply
        .type('text/calendar; charset=utf-8')
        .header('Cache-Control', 'private, max-age=300')
        .header('Content-Disposition', 'inline; filename="branhearth.ics"')
        .send(dateCalendar(batches, publicAddress(config.PUBLIC_URL, request)));
    },
  );
}
