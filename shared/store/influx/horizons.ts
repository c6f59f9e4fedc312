/**
 * shared/store/influx/horizons.ts: how far each series was thinned, as it stands in the database beside the readings.
 *
 * `horizons` has a point per thinned series with its horizon, and its first and newest reading, whose rows may be gone;
 * `thinning` has one point: how far the whole was brought, and a stamp that changes with every step, by which other
 * processes see that they must look again. All of them stand at time 0 and are written over.
 */
import { quantitySchema } from '../../quantity.ts';
import type { SeriesRef, Thinned } from '../readings-store.ts';
import type { InfluxDoor } from './influx-door.ts';
import { type InfluxSeries, numberIn } from './influx-results.ts';
import type { KnownLast, KnownLasts } from './known-last.ts';
import { decodeName, encodeName } from './line-protocol.ts';
import { standInStart } from './questions.ts';

export const horizonsQuestion =
  'SELECT last("ms"), "first", "newest", "value" FROM "horizons" GROUP BY "probe", "quantity", "site"';
const thinningQuestion = 'SELECT last("ms"), "stamp" FROM "thinning"';

const linesPerWrite = 20_000;
/** After so long a reader looks whether another process has thinned. */
const lookAgainMs = 30_000;

export class Horizons {
  readonly #door: InfluxDoor;
  readonly #lasts: KnownLasts;
  #stamp = 0;
  #lookedAtMs = Number.NEGATIVE_INFINITY;
  /** The newest time that thinning was brought to. */
  broughtToMs = 0;

  constructor(door: InfluxDoor, lasts: KnownLasts) {
    this.#door = door;
    this.#lasts = lasts;
  }

  /** Before readings are asked for: cheap unless somebody thinned. */
  async lookAgain(): Promise<void> {
    if (performance.now() - this.#lookedAtMs < lookAgainMs) return;
    await this.look();
  }

  async look(): Promise<void> {
    const atMs = performance.now();
    const [answer = []] = await this.#door.query([thinningQuestion]);
    const row = answer[0]?.values[0];
    if (row !== undefined) {
      this.broughtToMs = Math.max(this.broughtToMs, numberIn(row[1]));
      const stamp = numberIn(row[2]);
      if (stamp !== this.#stamp) {
        const [horizons = []] = await this.#door.query([horizonsQuestion], this.#door.patience.countMs);
        for (const series of horizons) this.#learn(series);
        this.#stamp = stamp;
      }
    }
    this.#lookedAtMs = atMs;
  }

  #learn({ tags, values }: InfluxSeries): void {
    const quantity = quantitySchema.safeParse(tags.quantity);
    const row = values[0];
    if (!quantity.success || row === undefined || !tags.site || !tags.probe) return;
    const series = this.#lasts.findOrAdd(decodeName(tags.site), decodeName(tags.probe), quantity.data);
    series.horizonMs = Math.max(series.horizonMs, numberIn(row[1]));
    series.firstAtMs = Math.min(series.firstAtMs, numberIn(row[2]));
    series.learn(numberIn(row[3]), numberIn(row[4]));
    series.hasThinnedRows = true; // a run may have been cut short
  }

  /** @param moved series with the horizon they get. Remembered once the database has them. */
  async move(moved: readonly { series: KnownLast; horizonMs: number }[], broughtToMs: number): Promise<void> {
    const stamp = Date.now();
    const goalMs = Math.max(this.broughtToMs, broughtToMs);
    const lines = moved.map(
      ({ series, horizonMs }) =>
        `horizons,probe=${encodeName(series.probe)},quantity=${series.quantity},site=${encodeName(series.site)} ms=${horizonMs},first=${series.firstAtMs},newest=${series.lastAtMs},value=${series.lastValue} 0`,
    );
    await this.#door.write([...lines, `thinning ms=${goalMs},stamp=${stamp} 0`].join('\n'));
    for (const { series, horizonMs } of moved) series.horizonMs = Math.max(series.horizonMs, horizonMs);
    this.broughtToMs = goalMs;
    this.#stamp = stamp;
  }

  /** Takes over what another store had thinned. */
  async take(ref: SeriesRef, { horizonMs, standIns, firstAtMs, last }: Thinned): Promise<void> {
    const start = standInStart(ref);
    const lines = standIns.flatMap(({ atMs, value, standsFor }) =>
      standsFor === undefined
        ? []
        : [
            `${start}n=${standsFor.count},min=${standsFor.min},max=${standsFor.max},sum=${value * standsFor.count} ${atMs}`,
          ],
    );
    for (let first = 0; first < lines.length; first += linesPerWrite) {
      await this.#door.write(lines.slice(first, first + linesPerWrite).join('\n'));
    }
    const series = this.#lasts.findOrAdd(ref.site, ref.probe, ref.quantity);
    series.firstAtMs = Math.min(series.firstAtMs, firstAtMs);
    series.learn(last.atMs, last.value);
    await this.move([{ series, horizonMs: Math.max(series.horizonMs, horizonMs) }], horizonMs);
  }
}
