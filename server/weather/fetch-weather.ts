/**
 * Asks a free public weather service for the air to come, where an owner set a place. Never more often than hourly nor
 * before the answer of before expires, and whatever goes wrong there is harmless here.
 */
import type { FastifyBaseLogger } from 'fastify';
import { z } from 'zod';
import { airAheadProblem } from '../../shared/contracts/air-ahead.ts';
import { toInstant } from '../../shared/contracts/time.ts';
import {
  type WeatherAnswer,
  type WeatherChange,
  type WeatherPlace,
  weatherChangeSchema,
} from '../../shared/contracts/weather.ts';
import { inWords } from '../../shared/messages/in-words.ts';
import { keptMessageSchema, type Message, message } from '../../shared/messages/message.ts';
import { plainEnglish } from '../../shared/messages/render.ts';
import type { Journal } from '../../shared/store/journal.ts';
import { UnreadableRowError } from '../../shared/store/unreadable.ts';
import { msPerDay, msPerHour, msPerMinute } from '../../shared/units.ts';
import { weatherLicenceUrl, weatherSource, weatherTermsUrl } from '../../shared/weather-source.ts';
import { asSaid } from '../notify/channels/channel.ts';
import { type GuardedAnswer, type GuardedOptions, guardedRequest } from '../notify/channels/guarded-request.ts';
import { saidOf } from '../notify/channels/http-answer.ts';
import type { AirAheadKeeper } from '../services/air-ahead/keep-air-ahead.ts';
import { metNorwayAsk, readMetNorway } from './met-norway.ts';

export interface WeatherParts {
  readonly journal: Journal;
  readonly airAhead: AirAheadKeeper;
  readonly log: Pick<FastifyBaseLogger, 'info' | 'warn'>;
  readonly version: string;
  /** Of the service, without a query. */
  readonly url: string;
  /** The machine's clock. */
  readonly nowMs?: (() => number) | undefined;
  /** Inner addresses that an owner allowed. */
  readonly allowed: () => Promise<readonly string[]>;
  readonly guard?: Pick<GuardedOptions, 'trust' | 'lookup'> | undefined;
  /** Where several processes share the farm, whether this one asks for all. */
  readonly isOurs?: () => boolean;
}

const lookEveryMs = msPerMinute;
const timeoutMs = 20_000;
/** Its compact answers have about 50 KB. */
const mostAnswerBytes = 512 * 1024;
const leastBetweenMs = msPerHour;
/** An `Expires` further off than this is a slip. */
const mostBetweenMs = 12 * msPerHour;
/** An answer of 403 or 429 asks us to stop. */
const sentAwayMs = msPerDay;

const settingKey = 'weather';
const stateKey = 'weather-asked';

const askedSchema = z.object({
  latitude: z.number(),
  longitude: z.number(),
  notBeforeMs: z.number(),
  lastModified: z.string().max(200).nullable(),
  heardMs: z.number().nullable(),
  problem: keptMessageSchema.nullable(),
});
type Asked = z.infer<typeof askedSchema>;
const stateSchema = z.record(z.string(), askedSchema);

const nobody: WeatherChange = { contact: null, places: [] };

export class WeatherFetcher {
  readonly #parts: WeatherParts;
  #timer: NodeJS.Timeout | undefined;
  #running: Promise<void> | undefined;

  constructor(parts: WeatherParts) {
    this.#parts = parts;
  }

  start(): void {
    this.#timer = setInterval(() => void this.fetchDue(), lookEveryMs).unref();
  }

  async close(): Promise<void> {
    clearInterval(this.#timer);
    await this.#running;
  }

  async view(): Promise<WeatherAnswer> {
    const { contact, places } = await this.#setting();
    const state = await this.#state();
    return {
      source: weatherSource,
      termsUrl: weatherTermsUrl,
      licenceUrl: weatherLicenceUrl,
      contact,
      places: places.map((place) => {
        const asked = askedOf(state, place);
        const heardAt = asked?.heardMs == null ? null : toInstant(asked.heardMs);
        return { ...place, heardAt, ...inWords({ problem: asked?.problem ?? null }, this.#now()) };
      }),
    };
  }

  async choose(change: WeatherChange): Promise<void> {
    await this.#parts.journal.settings.write(settingKey, change);
  }

  /** Asks for each place that is due. Never rejects. */
  fetchDue(): Promise<void> {
    this.#running ??= this.#askAll().finally(() => {
      this.#running = undefined;
    });
    return this.#running;
  }

  async #askAll(): Promise<void> {
    const { log, isOurs } = this.#parts;
    if (isOurs?.() === false) return;
    try {
      const { contact, places } = await this.#setting();
      if (contact === null) return;
      for (const place of places) await this.#askFor(place, contact);
    } catch (error) {
      log.warn({ err: error }, 'the weather could not be asked for');
    }
  }

  async #askFor(place: WeatherPlace, contact: string): Promise<void> {
    const { journal, url, version, allowed, guard, log } = this.#parts;
    const state = await this.#state();
    const before = askedOf(state, place);
    const nowMs = this.#now();
    if (before && nowMs < before.notBeforeMs) return;
    const { site, latitude, longitude } = place;
    const keep = (asked: Omit<Asked, 'latitude' | 'longitude'>) =>
      journal.settings.write(stateKey, { ...state, [site]: { latitude, longitude, ...asked } });
    const lastModified = before?.lastModified ?? null;
    const heardMs = before?.heardMs ?? null;
    // Noted first: a process that dies over an answer does not ask again and again.
    await keep({ notBeforeMs: nowMs + leastBetweenMs, lastModified, heardMs, problem: before?.problem ?? null });
    let answer: GuardedAnswer;
    try {
      const ask = metNorwayAsk(url, place, contact, version, lastModified);
      answer = await guardedRequest(ask, { ...guard, allowed: await allowed(), timeoutMs, mostAnswerBytes });
    } catch (error) {
      const problem = saidOf(error);
      return keep({ notBeforeMs: nowMs + leastBetweenMs, lastModified, heardMs, problem });
    }
    const problem = await this.#take(site, answer);
    if (answer.status === 203) log.warn({ site }, 'the weather service says that this version of it ends soon');
    if (problem !== null)
      log.warn({ site, problem: plainEnglish(problem) }, 'the weather service gave nothing that can be used');
    await keep({
      notBeforeMs: nowMs + pauseMs(answer, nowMs),
      lastModified: problem === null ? (textOf(answer.headers['last-modified']) ?? lastModified) : lastModified,
      heardMs: problem === null ? nowMs : heardMs,
      problem,
    });
  }

  /** @returns why it cannot be used; null where it can, or nothing is new. */
  async #take(site: string, { status, body }: GuardedAnswer): Promise<Message | null> {
    if (status === 304) return null;
    if (status !== 200 && status !== 203) return asSaid(`HTTP ${status}: ${body}`);
    const ahead = readMetNorway(body);
    if (!ahead) return message('weather.other-form');
    const problem = airAheadProblem(ahead, ahead.issuedMs, this.#now());
    if (problem) return message('weather.unusable', { pointerText: problem.pointer, saidPart: problem.said });
    await this.#parts.airAhead.keep(site, ahead);
    return null;
  }

  async #setting(): Promise<WeatherChange> {
    return (await this.#read(settingKey, weatherChangeSchema)) ?? nobody;
  }

  async #state(): Promise<Record<string, Asked>> {
    return (await this.#read(stateKey, stateSchema)) ?? {};
  }

  /** What cannot be read is noted by the journal, and counts as not chosen. */
  async #read<T>(key: string, schema: z.ZodType<T>): Promise<T | undefined> {
    try {
      return await this.#parts.journal.settings.read(key, schema);
    } catch (error) {
      if (error instanceof UnreadableRowError) return undefined;
      throw error;
    }
  }

  #now(): number {
    return this.#parts.nowMs?.() ?? Date.now();
  }
}

/** Of this very place: a site whose place was changed is asked for at once. */
function askedOf(state: Record<string, Asked>, { site, latitude, longitude }: WeatherPlace): Asked | undefined {
  const asked = state[site];
  return asked?.latitude === latitude && asked.longitude === longitude ? asked : undefined;
}

function pauseMs({ status, headers }: GuardedAnswer, nowMs: number): number {
  if (status === 403 || status === 429) return sentAwayMs;
  const expiresMs = Date.parse(textOf(headers.expires) ?? '');
  const wantedMs = Number.isNaN(expiresMs) ? 0 : expiresMs - nowMs;
  return Math.min(mostBetweenMs, Math.max(leastBetweenMs, wantedMs));
}

const textOf = (header: string | string[] | undefined) => (typeof header === 'string' ? header : undefined);
