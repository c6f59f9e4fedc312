/** Where an InfluxDB is, and how its generation wants to be spoken to. */
export const influxGenerations = [1, 2, 3] as const;
export type InfluxGeneration = (typeof influxGenerations)[number];

export interface InfluxAddress {
  /** http:// or https://, without a query. */
  readonly url: string;
  /** Only generation 2 has organisations. */
  readonly org?: string | undefined;
  /** Called database by generations 1 and 3; in generation 1 `database/policy` names a retention policy too. */
  readonly bucket: string;
  /** Generation 1 knows users instead: `user:password`. */
  readonly token?: string | undefined;
  /** Asked of the database when absent. */
  readonly generation?: InfluxGeneration | undefined;
}

/** With its generation given or found out. */
export type KnownInflux = InfluxAddress & { readonly generation: InfluxGeneration };

/** For messages: where, without anything secret. */
export function influxName({ url }: InfluxAddress): string {
  return `InfluxDB at ${url}`;
}

/** Generation 1 has no /api/v2/write before its 1.8, and its own path ever since. */
export function writePath({ generation, org = '', bucket }: KnownInflux): string {
  if (generation !== 1) {
    return `/api/v2/write?${new URLSearchParams({ org, bucket, precision: 'ms' })}`;
  }
  return `/write?${new URLSearchParams({ ...database(bucket), precision: 'ms' })}`;
}

/** The path of a query without its text; all generations serve it, times as epoch milliseconds. */
export function queryPath({ generation, bucket }: KnownInflux): string {
  const where = generation === 1 ? database(bucket) : { db: bucket };
  const inPieces = generation === 3 ? {} : { chunked: 'true' };
  return `/query?${new URLSearchParams({ ...where, epoch: 'ms', ...inPieces })}`;
}

export function authorization({ generation, token }: KnownInflux): Record<string, string> {
  if (token === undefined) return {};
  return {
    authorization: generation === 1 ? `Basic ${Buffer.from(token, 'utf8').toString('base64')}` : `Token ${token}`,
  };
}

function database(bucket: string): { db: string; rp?: string } {
  const slash = bucket.indexOf('/');
  return slash < 0 ? { db: bucket } : { db: bucket.slice(0, slash), rp: bucket.slice(slash + 1) };
}
