/** The variables of the environment that a server reads, without the prefix BRANHEARTH_. */
import { z } from 'zod';
import { fastClockSchema } from './clock.ts';
import { mailAddressPattern, mailboxPattern } from './mail-address.ts';
import { nameSchema } from './names.ts';
import { trimSignEnd } from './trim-sign.ts';

const portSchema = z
  .string()
  .regex(/^\d{1,5}$/)
  .transform(Number)
  .refine((port) => port <= 65_535);

const wholeSchema = (least: number, most: number) =>
  z
    .string()
    .regex(/^\d{1,9}$/)
    .transform(Number)
    .refine((number) => number >= least && number <= most);

const urlSchema = (...protocols: string[]) =>
  z.string().refine((text) => URL.canParse(text) && protocols.includes(new URL(text).protocol));

/** One row per variable: what it must be (also the table of server/README.md), its default, and its check. */
export const configVariables = {
  PORT: { must: 'a port from 0 to 65535 for the pages (0 takes any free one)', fallback: '4180', schema: portSchema },
  HOST: {
    must: 'the address to serve the pages on; anything but loopback needs TLS, or BRANHEARTH_PLAIN_HTTP',
    fallback: '127.0.0.1',
    schema: z.string().min(1),
  },
  DATA_DIR: { must: 'a folder for readings and journal', fallback: './data', schema: z.string().min(1) },
  JOURNAL_URL: {
    must: 'a postgres:// address of the journal, used instead of the one in the data folder',
    fallback: undefined,
    schema: urlSchema('postgres:', 'postgresql:'),
  },
  API_TOKEN: {
    must: 'a secret of at least 16 characters that the API then wants as bearer token',
    fallback: undefined,
    schema: z.string().min(16),
  },
  READINGS_URL: {
    must: 'the http:// or https:// address of an InfluxDB that keeps the readings instead of the data folder, without user, query or fragment',
    fallback: undefined,
    schema: urlSchema('http:', 'https:').refine((text) => {
      if (!URL.canParse(text)) return false;
      const { username, password, search, hash } = new URL(text);
      return username + password + search + hash === '';
    }),
  },
  READINGS_BUCKET: {
    must: 'the bucket of InfluxDB 2, or the database of 1 and 3 (in 1 also database/retention-policy)',
    fallback: 'branhearth',
    schema: z.string().min(1),
  },
  READINGS_ORG: { must: 'the organisation in InfluxDB 2', fallback: undefined, schema: z.string().min(1) },
  READINGS_TOKEN: {
    must: 'a token of InfluxDB 2 or 3, or user:password of InfluxDB 1',
    fallback: undefined,
    // A line break would end the header it travels in.
    schema: z.string().regex(/^[\x21-\x7e]+$/),
  },
  READINGS_GENERATION: {
    must: 'the generation of InfluxDB, 1, 2 or 3, where the database does not say it itself',
    fallback: undefined,
    schema: z.enum(['1', '2', '3']).transform((text) => Number(text) as 1 | 2 | 3),
  },
  TLS_CERT: {
    must: 'the file of a certificate with its chain (PEM), together with BRANHEARTH_TLS_KEY',
    fallback: undefined,
    schema: z.string().min(1),
  },
  TLS_KEY: {
    must: 'the file of the key (PEM) that belongs to BRANHEARTH_TLS_CERT',
    fallback: undefined,
    schema: z.string().min(1),
  },
  PLAIN_HTTP: {
    must: 'one of behind-a-proxy (it speaks TLS to the world) or on-a-trusted-network (whoever is on it can listen)',
    fallback: undefined,
    schema: z.enum(['behind-a-proxy', 'on-a-trusted-network']),
  },
  TRUSTED_PROXIES: {
    must: 'the addresses or networks of proxies before this server, with commas between them, e.g. 127.0.0.1,10.0.0.0/8',
    fallback: undefined,
    schema: z
      .string()
      .transform((text) => text.split(',').map((one) => one.trim()))
      .pipe(z.array(z.union([z.ipv4(), z.ipv6(), z.cidrv4(), z.cidrv6()])).min(1)),
  },
  CONNECTIONS: {
    must: 'the most connections to the pages at once, from 20 to 100000; a quarter of them from one address that is no trusted proxy',
    fallback: '2000',
    schema: wholeSchema(20, 100_000),
  },
  MQTT_PORT: {
    must: 'a port from 0 to 65535 for the embedded broker (0 takes any free one)',
    fallback: '1883',
    schema: portSchema,
  },
  MQTT_HOST: {
    must: 'the address the embedded broker listens on; 0.0.0.0 lets probes of your network in',
    fallback: '127.0.0.1',
    schema: z.string().min(1),
  },
  MQTT_TLS_CERT: {
    must: 'a certificate file (PEM, with its chain) for TLS at the embedded broker, together with BRANHEARTH_MQTT_TLS_KEY',
    fallback: undefined,
    schema: z.string().min(1),
  },
  MQTT_TLS_KEY: {
    must: 'the private key file (PEM) of that certificate',
    fallback: undefined,
    schema: z.string().min(1),
  },
  MQTT_TLS_PORT: {
    must: 'a port from 0 to 65535 for MQTT over TLS (0 takes any free one)',
    fallback: '8883',
    schema: portSchema,
  },
  MQTT_TLS_HOST: {
    must: 'the address for MQTT over TLS; 0.0.0.0 lets probes from elsewhere in',
    fallback: '127.0.0.1',
    schema: z.string().min(1),
  },
  MQTT_TRUSTED_NETWORK: {
    must: 'the word yes, when whoever reaches the embedded broker may publish and listen without a key',
    fallback: 'no',
    schema: z.enum(['yes', 'no']),
  },
  MQTT_CONNECTIONS: {
    must: 'the most connections of the embedded broker at once, from 10 to 100000; a fifth of them from one other address',
    fallback: '1000',
    schema: wholeSchema(10, 100_000),
  },
  MQTT_RATE: {
    must: 'the short messages a second, from 1 to 100000, that one connection or the key of one probe may send for long; ten times as many at once',
    fallback: '500',
    schema: wholeSchema(1, 100_000),
  },
  UNCLAIMED_PROBES: {
    must: 'the most probes of one site, from 1 to 100000, that are listened to while no pile has them; of all sites together five times as many',
    fallback: '2000',
    schema: wholeSchema(1, 100_000),
  },
  MQTT_URL: {
    must: 'mqtt:// or mqtts:// address of an outside broker, used instead of the embedded one',
    fallback: undefined,
    schema: urlSchema('mqtt:', 'mqtts:', 'ws:', 'wss:'),
  },
  MQTT_USERNAME: { must: 'the user name at the outside broker', fallback: undefined, schema: z.string().min(1) },
  MQTT_PASSWORD: { must: 'the password at the outside broker', fallback: undefined, schema: z.string().min(1) },
  MQTT_CLIENT_ID: {
    must: 'the client id at the outside broker; keep it, the broker keeps readings under it while this machine is away',
    fallback: 'branhearth',
    schema: z.string().regex(/^[A-Za-z0-9_-]{1,64}$/),
  },
  MQTT_ROOT: { must: 'the first level of the probes’ topics', fallback: 'piles', schema: nameSchema },
  MQTT_DEVICES: {
    must: 'the word no, when devices of common families are to be read by mappings alone and not by themselves',
    fallback: 'yes',
    schema: z.enum(['yes', 'no']),
  },
  PUBLIC_URL: {
    must: 'the http:// or https:// address at which phones and calendars reach these pages, without a query',
    fallback: undefined,
    schema: urlSchema('http:', 'https:')
      .refine((text) => !/[?#]/.test(text))
      .transform((text) => trimSignEnd(text, '/')),
  },
  SMTP_URL: {
    must: 'the smtp:// or smtps:// address of the mail server, with user and password if it wants them',
    fallback: undefined,
    schema: urlSchema('smtp:', 'smtps:'),
  },
  MAIL_FROM: {
    must: 'the sender of e-mails, as alarms@farm.example or Farm <alarms@farm.example>',
    fallback: undefined,
    schema: z.string().regex(mailboxPattern),
  },
  ALERT_MAIL_TO: {
    must: 'the e-mail address that is notified of warnings while no person has been set up',
    fallback: undefined,
    schema: z.string().regex(mailAddressPattern),
  },
  WEATHER_URL: {
    must: 'the http:// or https:// address of a service that answers as Locationforecast 2.0 of MET Norway does, without a query; it is asked only where an owner set a place',
    fallback: 'https://api.met.no/weatherapi/locationforecast/2.0/compact',
    schema: urlSchema('http:', 'https:').refine((text) => !/[?#]/.test(text)),
  },
  BACKUPS: {
    must: 'the number of nightly backups that are kept, from 1 to 365, or 0 for none',
    fallback: '7',
    schema: wholeSchema(0, 365),
  },
  BACKUP_DIR: {
    must: 'a folder for backups, best on another disk, instead of backups in the data folder',
    fallback: undefined,
    schema: z.string().min(1),
  },
  BACKUP_COMMAND: {
    must: 'a command for the shell that brings $BRANHEARTH_BACKUP_FILE elsewhere, run after each nightly backup',
    fallback: undefined,
    schema: z.string().min(1),
  },
  HEARTBEAT_URL: {
    must: 'the http:// or https:// address that is called every minute while all is well',
    fallback: undefined,
    schema: urlSchema('http:', 'https:'),
  },
  DISK_LOW: {
    must: 'the megabytes of free disk, from 1 to 1000000, below which the server warns that the disk is nearly full',
    fallback: '1000',
    schema: wholeSchema(1, 1_000_000),
  },
  LOG_LEVEL: {
    must: 'one of fatal, error, warn, info, debug, trace, silent',
    fallback: 'info',
    schema: z.enum(['fatal', 'error', 'warn', 'info', 'debug', 'trace', 'silent']),
  },
  CLOCK: {
    must: 'JSON {"startMs","anchorMs","speed"} of a clock that runs fast, for practice and demonstration only',
    fallback: undefined,
    schema: z.string().transform((text, context) => {
      const clock = fastClockSchema.safeParse(parseJson(text));
      if (clock.success) return clock.data;
      context.addIssue({ code: 'custom', message: 'not a clock' });
      return z.NEVER;
    }),
  },
} as const satisfies Record<string, { must: string; fallback: string | undefined; schema: z.ZodType }>;

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}
