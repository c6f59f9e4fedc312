/** Whether a point that is written can be read by the way all readings are, and can be taken away again. */
import { randomInt, randomUUID } from 'node:crypto';
import { setTimeout as wait } from 'node:timers/promises';
import type { InfluxClient } from './influx-client.ts';
import { numberIn } from './influx-results.ts';
import { lineStart, seriesCondition } from './line-protocol.ts';

/** No quantity is called that, so no answer of the store holds it. */
const measurement = 'branhearth_check';
const site = 'check';
/** A database of several machines may show a point a little later than it takes it. */
const attempts = 5;
const betweenMs = 300;

export type SelfCheckFault = 'not-found' | 'another-value' | 'not-removed';

export class SelfCheckFailed extends Error {
  override readonly name = 'SelfCheckFailed';
  constructor(readonly fault: SelfCheckFault) {
    super(fault);
  }
}

/** @throws {SelfCheckFailed}, or whatever a request fails of. */
export async function selfCheck(client: InfluxClient, nowMs: number): Promise<void> {
  // A name of its own, as several processes may begin at once.
  const probe = randomUUID();
  const value = randomInt(1_000_000);
  await client.write(`${lineStart(measurement, site, probe)}${value} ${nowMs}`);
  const found = await readUntil(client, probe, (values) => values.length > 0);
  if (found[0] !== undefined && found[0] !== value) throw new SelfCheckFailed('another-value');
  // Generation 3 takes no rows away: a point of each start stays.
  if (client.canDelete) await client.deleteProbes([{ site, probe }]);
  if (found.length === 0) throw new SelfCheckFailed('not-found');
  if (!client.canDelete) return;
  const left = await readUntil(client, probe, (values) => values.length === 0);
  if (left.length > 0) throw new SelfCheckFailed('not-removed');
}

async function readUntil(
  client: InfluxClient,
  probe: string,
  isRight: (values: readonly number[]) => boolean,
): Promise<number[]> {
  const question = `SELECT "value" FROM "${measurement}" WHERE ${seriesCondition(site, probe)}`;
  for (let attempt = 1; ; attempt += 1) {
    const [series = []] = await client.query([question], client.patience.checkMs);
    const values = series.flatMap(({ values: rows }) => rows.map((row) => numberIn(row[1])));
    if (isRight(values) || attempt === attempts) return values;
    await wait(betweenMs);
  }
}
