/** Takes in the air that somebody foretells for a site, however it came. */

import type { FastifyBaseLogger } from 'fastify';
import type { Clock } from '../../../shared/clock.ts';
import {
  type AirAheadKept,
  airAheadProblem,
  type IssuedAirAhead,
  type NewAirAhead,
} from '../../../shared/contracts/air-ahead.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import { ConflictError, ReadingError } from '../../../shared/errors.ts';
import { message } from '../../../shared/messages/message.ts';
import type { AirAheadRecord, Journal } from '../../../shared/store/journal.ts';
import { Refusal } from '../../refusal.ts';
import { shownSource, unnamedSource } from './shown-source.ts';

export interface AirAheadParts {
  readonly journal: Pick<Journal, 'airAhead'>;
  readonly clock: Clock;
  readonly log: FastifyBaseLogger;
  /** Something is foretold of a site that was not before. Absent where whoever watches hears of it by the journal. */
  readonly issued?: ((siteId: string) => Promise<void>) | undefined;
}

/** What came by the broker and is not kept yet: beyond this it is refused, for it is made up. */
const mostWaiting = 100;

export class AirAheadKeeper {
  readonly #parts: AirAheadParts;
  #waiting = 0;

  constructor(parts: AirAheadParts) {
    this.#parts = parts;
  }

  /** What a program posted. @throws {Refusal} where its times do not fit. @throws {ConflictError} when the site is unknown. */
  async post(siteId: string, ahead: NewAirAhead): Promise<AirAheadKept> {
    const nowMs = this.#parts.clock.nowMs();
    const issuedMs = ahead.issuedAt ?? nowMs;
    const problem = airAheadProblem(ahead, issuedMs, nowMs);
    if (problem) throw new Refusal(422, problem.said, { pointer: problem.pointer });
    return this.keep(siteId, { ...ahead, issuedMs });
  }

  /** What came by the broker. @returns why it is not kept. */
  async take(siteId: string, ahead: IssuedAirAhead): Promise<ReadingError | undefined> {
    if (this.#waiting >= mostWaiting) return unknownSite(siteId);
    this.#waiting += 1;
    try {
      await this.keep(siteId, ahead);
      return undefined;
    } catch (error) {
      if (error instanceof ConflictError) return unknownSite(siteId);
      this.#parts.log.error({ err: error, site: siteId }, 'the air ahead could not be kept');
      return undefined;
    } finally {
      this.#waiting -= 1;
    }
  }

  /** @throws {ConflictError} when the site is unknown. */
  async keep(siteId: string, { issuedMs, source = unnamedSource, points }: IssuedAirAhead): Promise<AirAheadKept> {
    const { journal, clock, issued } = this.#parts;
    const record: AirAheadRecord = {
      siteId,
      source,
      issuedMs,
      receivedMs: clock.nowMs(),
      points: points.map(({ at, temperatureC, humidityPct }) => ({
        atMs: at,
        tempC: temperatureC,
        humidityPct: humidityPct ?? null,
      })),
    };
    const kept = (await journal.airAhead.keep(record)) === 'kept';
    if (kept) await issued?.(siteId);
    const untilMs = record.points.at(-1)?.atMs ?? issuedMs;
    return { kept, ...shownSource(source), issuedAt: toInstant(issuedMs), until: toInstant(untilMs) };
  }
}

const unknownSite = (siteId: string) =>
  new ReadingError('unknown-site', message('refusal.air-ahead-site', { siteName: siteId }));
