/**
 * What stands in the database about each series, so that opening needs no look at every row: its first reading, its
 * newest as it lately was, and how far it was downsampled.
 *
 * `series` has a point per series with the fields first, newest, value and horizon (the watermark); `thinning` has one: how far the
 * whole was brought, and a stamp that changes with every step, by which other processes see that they must look again.
 * All of them stand at time 0 and are written over, so the bucket must keep points without end.
 */
import { type Quantity, quantitySchema } from '../../quantity.ts';
import type { Downsampled, SeriesRef } from '../readings-store.ts';
import type { InfluxClient } from './influx-client.ts';
import { type InfluxSeries, numberIn } from './influx-results.ts';
import type { KnownLast, KnownLasts } from './known-last.ts';
import { decodeName, encodeName, seriesCondition, sitesCondition } from './line-protocol.ts';
import { standInStart } from './questions.ts';

const notesOf = (which: string): string =>
  `SELECT "first", "newest", "value", "horizon" FROM "series" WHERE time >= 0ms AND time <= 0ms${which} GROUP BY "probe", "quantity", "site"`;
const downsamplingQuestion = 'SELECT "ms", "stamp" FROM "thinning" WHERE time >= 0ms AND time <= 0ms';

const linesPerWrite = 20_000;
/** After so long a reader looks whether another process has downsampled. */
const lookAgainMs = 30_000;

/** A note is renewed before the newest reading of its series is so far ahead of it. */
export const noteLagMs = 12 * 3_600_000;

/**
 * The note of a series that got these ends. Fields left out stay as they are, so what another process noted of an
 * earlier beginning is not lost by a writer that has not seen it.
 */
export function noteLine(series: KnownLast, firstAtMs: number, atMs: number, value: number): string {
  return `${noteStart(series)}${firstField(series, firstAtMs)}newest=${atMs},value=${value} 0`;
}

function firstField({ notedFirstMs }: KnownLast, firstAtMs: number): string {
  return firstAtMs < notedFirstMs ? `first=${firstAtMs},` : '';
}

function noteStart({ site, probe, quantity }: SeriesRef): string {
  return `series,probe=${encodeName(probe)},quantity=${quantity},site=${encodeName(site)} `;
}

export class SeriesNotes {
  readonly #client: InfluxClient;
  readonly #lasts: KnownLasts;
  #stamp = 0;
  #lookedAtMs = Number.NEGATIVE_INFINITY;
  /** The newest time that downsampling was brought to. */
  broughtToMs = 0;

  constructor(client: InfluxClient, lasts: KnownLasts) {
    this.#client = client;
    this.#lasts = lasts;
  }

  /** Before readings are asked for: cheap unless somebody downsampled. */
  async readAgain(): Promise<void> {
    if (performance.now() - this.#lookedAtMs < lookAgainMs) return;
    const atMs = performance.now();
    const [answer = []] = await this.#client.query([downsamplingQuestion]);
    if (this.#hasMoved(answer)) await this.read(this.#lasts.openSites);
    this.#lookedAtMs = atMs;
  }

  /** Reads every note, or every one of these sites. @returns the sites that have some. */
  async read(sites?: readonly string[]): Promise<Set<string>> {
    if (sites?.length === 0) return new Set();
    const atMs = performance.now();
    const [downsampling = [], notes = []] = await this.#client.query(
      [downsamplingQuestion, notesOf(sites ? ` AND ${sitesCondition(sites)}` : '')],
      this.#client.patience.countMs,
    );
    this.#hasMoved(downsampling);
    for (const note of notes) this.#learn(note);
    this.#lookedAtMs = atMs;
    return new Set(notes.map(({ tags }) => decodeName(tags.site ?? '')));
  }

  /** Reads the notes of a few series. */
  async readOf(series: readonly SeriesRef[]): Promise<void> {
    const questions = series.map(({ site, probe, quantity }) =>
      notesOf(` AND ${seriesCondition(site, probe)} AND "quantity" = '${quantity}'`),
    );
    for (const note of (await this.#client.query(questions)).flat()) this.#learn(note);
  }

  #hasMoved(downsampling: readonly InfluxSeries[]): boolean {
    const row = downsampling[0]?.values[0];
    if (row === undefined) return false;
    this.broughtToMs = Math.max(this.broughtToMs, numberIn(row[1]));
    const stamp = numberIn(row[2]);
    const hasMoved = stamp !== this.#stamp;
    this.#stamp = stamp;
    return hasMoved;
  }

  #learn({ tags, values }: InfluxSeries): void {
    const quantity = quantitySchema.safeParse(tags.quantity);
    const row = values[0];
    if (!quantity.success || row === undefined || !tags.site || !tags.probe) return;
    const series = this.#seriesOf(decodeName(tags.site), decodeName(tags.probe), quantity.data);
    const [firstAtMs, newestAtMs, value] = row.slice(1, 4).map(numberIn) as [number, number, number];
    series.firstAtMs = Math.min(series.firstAtMs, firstAtMs);
    series.learn(newestAtMs, value);
    series.notedFirstMs = firstAtMs;
    series.notedNewestMs = newestAtMs;
    const watermarkMs = typeof row[4] === 'number' ? row[4] : 0;
    if (watermarkMs <= series.watermarkMs) return;
    series.watermarkMs = watermarkMs;
    series.hasDownsampledRows = true; // a run may have been cut short
  }

  #seriesOf(site: string, probe: string, quantity: Quantity): KnownLast {
    return this.#lasts.findOrAdd(site, probe, quantity);
  }

  /** @param moved series with the watermark they get. Remembered once the database has them. */
  async move(moved: readonly { series: KnownLast; watermarkMs: number }[], broughtToMs: number): Promise<void> {
    const stamp = Date.now();
    const goalMs = Math.max(this.broughtToMs, broughtToMs);
    const lines = moved.map(
      ({ series, watermarkMs }) =>
        `${noteStart(series)}${firstField(series, series.firstAtMs)}newest=${series.lastAtMs},value=${series.lastValue},horizon=${watermarkMs} 0`,
    );
    await this.#client.write([...lines, `thinning ms=${goalMs},stamp=${stamp} 0`].join('\n'));
    for (const { series, watermarkMs } of moved) {
      series.watermarkMs = Math.max(series.watermarkMs, watermarkMs);
      series.notedFirstMs = Math.min(series.notedFirstMs, series.firstAtMs);
      series.notedNewestMs = series.lastAtMs;
    }
    this.broughtToMs = goalMs;
    this.#stamp = stamp;
  }

  /** Takes over what another store had downsampled. */
  async take(ref: SeriesRef, { watermarkMs, standIns, firstAtMs, last }: Downsampled): Promise<void> {
    const start = standInStart(ref);
    const lines = standIns.flatMap(({ atMs, value, standsFor }) =>
      standsFor === undefined
        ? []
        : [
            `${start}n=${standsFor.count},min=${standsFor.min},max=${standsFor.max},sum=${value * standsFor.count} ${atMs}`,
          ],
    );
    for (let first = 0; first < lines.length; first += linesPerWrite) {
      await this.#client.write(lines.slice(first, first + linesPerWrite).join('\n'));
    }
    const series = this.#seriesOf(ref.site, ref.probe, ref.quantity);
    series.firstAtMs = Math.min(series.firstAtMs, firstAtMs);
    series.learn(last.atMs, last.value);
    await this.move([{ series, watermarkMs: Math.max(series.watermarkMs, watermarkMs) }], watermarkMs);
  }
}
