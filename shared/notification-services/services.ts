/** The services by which messages can be brought, beside push, e-mail and webhooks. */
import { z } from 'zod';
import { apprise } from './apprise.ts';
import { matrix } from './matrix.ts';
import { ntfy } from './ntfy.ts';
import { pushover } from './pushover.ts';
import type { NotificationService } from './service.ts';
import { telegram } from './telegram.ts';

export const notificationServices = { ntfy, pushover, telegram, matrix, apprise } as const satisfies Record<
  string,
  NotificationService
>;
export type ServiceChannel = keyof typeof notificationServices;
export const serviceChannels = Object.keys(notificationServices) as [ServiceChannel, ...ServiceChannel[]];
export const serviceChannelSchema = z.enum(serviceChannels);

export type ServiceValues = Readonly<Record<string, string>>;

export const serviceOf = (channel: ServiceChannel): NotificationService => notificationServices[channel];
export const isServiceChannel = (channel: string): channel is ServiceChannel =>
  (serviceChannels as readonly string[]).includes(channel);

/** Under which key of the settings what a person filled in is kept. */
export const serviceKeys = 'notification-service/';
export const serviceKey = (personId: string, channel: ServiceChannel) => `${serviceKeys}${personId}/${channel}`;

/** Where it answers. @param home In place of its own, for tests. */
export function serverOfService(channel: ServiceChannel, values: ServiceValues, home?: string): string {
  const server = home ?? serviceOf(channel).home ?? values.server ?? '';
  return server.endsWith('/') ? server.slice(0, -1) : server;
}

/** Whether it has all it needs. */
export function isFilledIn(channel: ServiceChannel, values: ServiceValues): boolean {
  return Object.entries(serviceOf(channel).fields).every(
    ([key, { isOptional, schema }]) => isOptional || schema.safeParse(values[key]).success,
  );
}

/** What a person sends: a secret that is left out stays as it was, an empty text takes away what may be empty. */
const askOf = (channel: ServiceChannel) =>
  z.object({
    channel: z.literal(channel),
    on: z.boolean(),
    values: z.strictObject(
      Object.fromEntries(
        Object.entries(serviceOf(channel).fields).map(([key, { schema, isSecret, isOptional }]) => [
          key,
          isOptional ? schema.or(z.literal('')).optional() : isSecret ? schema.optional() : schema,
        ]),
      ),
    ),
  });
const asks = serviceChannels.map(askOf);
export const serviceAskSchema = z.discriminatedUnion('channel', asks as [(typeof asks)[0], ...typeof asks]);
export type ServiceAsk = z.output<typeof serviceAskSchema>;
