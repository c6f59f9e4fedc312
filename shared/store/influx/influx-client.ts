/**
 * Every request to an InfluxDB, through its own client library. It never waits without an end, retries by itself, or
 * leaves a request behind that was given up: the library's retries are off, and each request is ended, with its socket,
 * once its time is over.
 */
import { Agent as HttpAgent } from 'node:http';
import { Agent as HttpsAgent } from 'node:https';
import {
  type CommunicationObserver,
  InfluxDB,
  type SendOptions,
  type Transport,
  type WriteApi,
} from '@influxdata/influxdb-client';
import type { ProbeName, SeriesRef } from '../readings-store.ts';
import { authorization, influxName, type KnownInflux, queryPath, writePath } from './influx-address.ts';
import { NoAnswer } from './influx-error.ts';
import { type InfluxSeries, readResults } from './influx-results.ts';
import { encodeName, latestInfluxMs, seriesCondition } from './line-protocol.ts';

export interface AuthPatience {
  readonly writeMs: number;
  readonly queryMs: number;
  /** For a look whether it is there. */
  readonly checkMs: number;
  /** For what reads every row. */
  readonly countMs: number;
  /** Whether long writes are packed; by default to any machine but this one, where it costs more than it saves. */
  readonly gzip?: boolean;
}

export const authPatience: AuthPatience = { writeMs: 10_000, queryMs: 30_000, checkMs: 3_000, countMs: 600_000 };

/** Up to here a query goes into the address, which every generation documents; longer ones into a form. */
const longestGetBytes = 4_000;
const attemptQuestion = 'SELECT "value" FROM "temperature" WHERE time >= 0ms AND time <= 0ms';
const requestsAtOnce = 4;
/** Statements of one request; generation 3 takes one at a time. */
const statementsPerRequest = 200;

export class InfluxClient {
  readonly where: string;
  readonly #address: KnownInflux;
  readonly #patience: AuthPatience;
  readonly #agent: HttpAgent;
  readonly #transport: Transport;
  readonly #client: InfluxDB;
  readonly #writeApi: WriteApi;
  readonly #under = new Set<AbortController>();

  constructor(address: KnownInflux, patience: AuthPatience = authPatience) {
    this.where = influxName(address);
    this.#address = address;
    this.#patience = patience;
    const { protocol, hostname } = new URL(address.url);
    this.#agent = new (protocol === 'https:' ? HttpsAgent : HttpAgent)({ keepAlive: true, maxSockets: 8 });
    const options = {
      url: address.url,
      // Each request has an end of its own below; this only covers a socket that nobody watches.
      timeout: patience.countMs,
      headers: authorization(address),
      transportOptions: { agent: this.#agent },
    };
    this.#transport = new InfluxDB(options).transport;
    const bounded: Transport = {
      chunkCombiner: this.#transport.chunkCombiner,
      send: (path, body, how, observer) => this.#send(path, body, how, patience.writeMs, observer),
      request: () => Promise.reject(new Error('not used')),
      iterate: () => {
        throw new Error('not used');
      },
    };
    this.#client = new InfluxDB({ ...options, transport: bounded });
    this.#writeApi = this.#client.getWriteApi(address.org ?? '', address.bucket, 'ms', {
      maxRetries: 0,
      flushInterval: 0,
      batchSize: 2, // a record is a whole batch here, sent by flush alone
      maxBatchBytes: Number.POSITIVE_INFINITY,
      maxBufferLines: 0,
      gzipThreshold: (patience.gzip ?? !isHere(hostname)) ? 1_000 : Number.POSITIVE_INFINITY,
      // Else the library prints what we tell anyway.
      writeFailed: (error) => Promise.reject(error),
    });
    this.#writeApi.path = writePath(address);
  }

  /** @param lines joined by line feeds. Resolves once the database has taken all of them. */
  async write(lines: string): Promise<void> {
    this.#writeApi.writeRecord(lines);
    await this.#writeApi.flush();
  }

  /** The series that each statement gave. @param patienceMs for each request. */
  async query(statements: readonly string[], patienceMs = this.#patience.queryMs): Promise<InfluxSeries[][]> {
    const most = this.#address.generation === 3 ? 1 : statementsPerRequest;
    const answers: InfluxSeries[][] = [];
    for (let first = 0; first < statements.length; first += most) {
      const some = statements.slice(first, first + most);
      answers.push(...readResults(await this.#ask(some.join('; '), patienceMs), some.length));
    }
    return answers;
  }

  /** The same, shared between some requests at once: a database works on one request with one of its cores. */
  async queryAtOnce(statements: readonly string[]): Promise<InfluxSeries[][]> {
    const each = Math.ceil(statements.length / requestsAtOnce);
    const shares = Array.from({ length: requestsAtOnce }, (_, index) =>
      statements.slice(index * each, (index + 1) * each),
    );
    return (await Promise.all(shares.map((share) => this.query(share)))).flat();
  }

  /** Whether it can be asked now. */
  async checkReadable(): Promise<void> {
    await this.query([attemptQuestion], this.#patience.checkMs);
  }

  /** A point that nobody reads, where the notes stand too: whether it can really write now. */
  async pulse(): Promise<void> {
    await this.write('branhearth_pulse value=1 0');
  }

  /** Whether single rows can be taken away; generation 3 only forgets by age. */
  get canDelete(): boolean {
    return this.#address.generation !== 3;
  }

  async deleteBefore(series: readonly (SeriesRef & { readonly beforeMs: number })[]): Promise<void> {
    if (this.#address.generation === 1) {
      await this.query(
        series.map(
          ({ quantity, site, probe, beforeMs }) =>
            `DELETE FROM "${quantity}" WHERE ${seriesCondition(site, probe)} AND time < ${beforeMs}ms`,
        ),
      );
      return;
    }
    for (const { quantity, site, probe, beforeMs } of series) {
      await this.#delete({
        start: new Date(0).toISOString(),
        // Both ends are deleted.
        stop: new Date(beforeMs - 1).toISOString(),
        predicate: `_measurement="${quantity}" AND probe="${encodeName(probe)}" AND site="${encodeName(site)}"`,
      });
    }
  }

  /** Everything of these probes goes: rows, stand-ins and notes. */
  async deleteProbes(probes: readonly ProbeName[]): Promise<void> {
    if (this.#address.generation === 1) {
      // Out of the index as well, which DELETE leaves (InfluxQL, "Database management": DROP SERIES).
      await this.query(probes.map(({ site, probe }) => `DROP SERIES WHERE ${seriesCondition(site, probe)}`));
      return;
    }
    for (const { site, probe } of probes) {
      await this.#delete({
        start: new Date(0).toISOString(),
        stop: new Date(latestInfluxMs).toISOString(),
        predicate: `probe="${encodeName(probe)}" AND site="${encodeName(site)}"`,
      });
    }
  }

  async #delete(body: { start: string; stop: string; predicate: string }): Promise<void> {
    const { org = '', bucket } = this.#address;
    await this.#gather(
      `/api/v2/delete?${new URLSearchParams({ org, bucket })}`,
      JSON.stringify(body),
      { method: 'POST', headers: { 'content-type': 'application/json' } },
      this.#patience.queryMs,
    );
  }

  /** Everything under way is given up. */
  close(): void {
    for (const controller of this.#under) controller.abort();
    this.#writeApi.dispose();
    this.#agent.destroy();
  }

  get patience(): AuthPatience {
    return this.#patience;
  }

  #ask(text: string, patienceMs: number): Promise<string> {
    const path = queryPath(this.#address);
    const question = new URLSearchParams({ q: text }).toString();
    const headers = { accept: 'application/json' };
    if (path.length + question.length <= longestGetBytes && !/^(DELETE|DROP)/.test(text)) {
      return this.#gather(`${path}&${question}`, '', { method: 'GET', headers }, patienceMs);
    }
    const form = { ...headers, 'content-type': 'application/x-www-form-urlencoded' };
    return this.#gather(path, question, { method: 'POST', headers: form }, patienceMs);
  }

  #gather(path: string, body: string, options: SendOptions, patienceMs: number): Promise<string> {
    return new Promise((resolve, reject) => {
      const chunks: Uint8Array[] = [];
      this.#send(path, body, options, patienceMs, {
        next(chunk) {
          chunks.push(chunk);
        },
        error: reject,
        complete: () => resolve(Buffer.concat(chunks).toString('utf8')),
      });
    });
  }

  /** The library reports a time-out but leaves the request hanging, so each has an end by signal. */
  #send(
    path: string,
    body: string,
    options: SendOptions,
    patienceMs: number,
    observer: Partial<CommunicationObserver<Uint8Array>> = {},
  ): void {
    const controller = new AbortController();
    let late = false;
    const timer = setTimeout(() => {
      late = true;
      controller.abort();
    }, patienceMs);
    this.#under.add(controller);
    const done = () => {
      clearTimeout(timer);
      this.#under.delete(controller);
    };
    this.#transport.send(
      path,
      body,
      { ...options, signal: controller.signal },
      {
        ...(observer.responseStarted && { responseStarted: observer.responseStarted }),
        ...(observer.next && { next: observer.next }),
        error(error) {
          done();
          observer.error?.(late ? new NoAnswer(patienceMs) : error);
        },
        complete() {
          done();
          observer.complete?.();
        },
      },
    );
  }
}

function isHere(hostname: string): boolean {
  return hostname === 'localhost' || hostname === '[::1]' || /^127(\.\d{1,3}){3}$/.test(hostname);
}
