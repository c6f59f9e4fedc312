/**
 * A double of InfluxDB 2 or 3: their outside, with a real InfluxDB 1.6 behind it that keeps and answers. It never lets
 * through what the real ones would refuse: path, parameters, token, packing and every line are checked. What 2 answers is
 * as 2.7.12 was seen to answer; what 3 answers is by its public API description.
 */
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { gunzipSync } from 'node:zlib';
import { z } from 'zod';

interface DoubleAnswer {
  readonly status: number;
  readonly headers?: Record<string, string>;
  readonly body?: string;
  /** What of the batch is kept all the same: the lines for which this is true. */
  readonly keeps?: (line: string) => boolean;
  /** The batch is kept, but the connection breaks before the answer. */
  readonly breaks?: boolean;
}

export interface InfluxDouble {
  readonly url: string;
  readonly token: string;
  readonly org: string;
  /** Prescribed for the next writes, first one first. */
  readonly answers: DoubleAnswer[];
  /** Writes that arrived, empty ones left out. */
  readonly writes: { lines: string[]; packed: boolean }[];
  /** Another database that questions go to, as a DBRP mapping of generation 2 can have it. */
  asksElsewhere: string | undefined;
  /** Answers a deletion as done and deletes nothing. */
  keepsAll: boolean;
  /** What its token may do in generation 2. */
  may: 'read' | 'write' | 'both';
  close(): Promise<void>;
}

/** Measurement, tags, fields that are all numbers, a time in milliseconds: https://docs.influxdata.com/influxdb/v2/reference/syntax/line-protocol/ */
const linePattern =
  /^[a-z0-9_]+(,[a-z]+=[\w.~%-]+)* [a-z]+=-?\d+(\.\d+)?(e[+-]\d+)?(,[a-z]+=-?\d+(\.\d+)?(e[+-]\d+)?)* \d+$/;

/** https://docs.influxdata.com/influxdb/v2/api/#operation/PostDelete */
const deleteSchema = z.object({
  start: z.iso.datetime(),
  stop: z.iso.datetime(),
  predicate: z.string().regex(/^(_measurement="[a-z0-9_]+"|[a-z]+="[\w.~%-]+")( AND [a-z]+="[\w.~%-]+")*$/),
});

export async function startInfluxDouble(generation: 2 | 3, behindUrl: string): Promise<InfluxDouble> {
  const token = `double-${generation}-token`;
  const org = 'saltmere';
  const answers: DoubleAnswer[] = [];
  const writes: InfluxDouble['writes'] = [];

  async function write(request: IncomingMessage, url: URL, answer: Answer): Promise<void> {
    if (request.method !== 'POST') return answer(405);
    const bucket = url.searchParams.get('bucket') ?? '';
    if (generation === 2 && url.searchParams.get('org') !== org) {
      return answer(404, {
        code: 'not found',
        message: `organization name "${url.searchParams.get('org')}" not found`,
      });
    }
    if (url.searchParams.get('precision') !== 'ms') return answer(400, { code: 'invalid', message: 'precision' });
    const { text, packed } = await bodyOf(request);
    const forward = async (lines: readonly string[]): Promise<Response> =>
      fetch(`${behindUrl}/write?${new URLSearchParams({ db: bucket, precision: 'ms' })}`, {
        method: 'POST',
        body: lines.join('\n'),
      });
    const lines = text === '' ? [] : text.split('\n');
    const there = await forward([]);
    if (there.status === 404) return answer(404, { code: 'not found', message: `bucket "${bucket}" not found` });
    if (double.may === 'read') {
      return answer(403, { code: 'forbidden', message: 'insufficient permissions for write' });
    }
    if (lines.length === 0) return generation === 2 ? answer(204) : answer(400, refusal('writing requires points'));
    const wrong = lines.find((line) => !linePattern.test(line));
    if (wrong !== undefined) return answer(400, refusal(`unable to parse '${wrong}'`));
    writes.push({ lines, packed });
    const prescribed = answers.shift();
    const kept =
      prescribed === undefined || prescribed.breaks ? lines : lines.filter(prescribed.keeps ?? (() => false));
    const behind = kept.length === 0 ? undefined : await forward(kept);
    if (prescribed?.breaks) return void request.socket.destroy();
    if (prescribed) return answer(prescribed.status, prescribed.body ?? '', prescribed.headers);
    return behind?.ok ? answer(204) : answer(behind?.status ?? 500, await behind?.text());
  }

  const refusal = (message: string): object => (generation === 2 ? { code: 'invalid', message } : { error: message });

  /** Both serve /query of generation 1 with a database of the bucket's name; generation 3 one statement at a time. */
  async function query(request: IncomingMessage, url: URL, answer: Answer): Promise<void> {
    const form = request.method === 'POST' ? new URLSearchParams((await bodyOf(request)).text) : new URLSearchParams();
    const text = form.get('q') ?? url.searchParams.get('q') ?? '';
    if (generation === 3 && text.includes(';')) {
      return answer(400, { error: 'must provide only one InfluxQl statement per query' });
    }
    // Of what its token may not read 2.7.12 says that it is not there.
    if (double.may === 'write') {
      const error = `database not found: ${url.searchParams.get('db')}`;
      return answer(200, { results: [{ statement_id: 0, error }] });
    }
    if (double.asksElsewhere !== undefined) url.searchParams.set('db', double.asksElsewhere);
    const behind = await fetch(`${behindUrl}/query?${url.searchParams}`, { method: 'POST', body: form });
    return answer(behind.status, await behind.text());
  }

  async function remove(request: IncomingMessage, url: URL, answer: Answer): Promise<void> {
    const asked = deleteSchema.safeParse(JSON.parse((await bodyOf(request)).text));
    if (!asked.success || url.searchParams.get('org') !== org) return answer(400, refusal('cannot delete'));
    if (double.keepsAll) return answer(204);
    const parts = asked.data.predicate.split(' AND ');
    const measurement = parts.find((part) => part.startsWith('_measurement='));
    const tags = parts.filter((part) => part !== measurement);
    const { start, stop } = asked.data;
    const where = [...tags.map((tag) => tag.replaceAll('"', "'")), `time >= '${start}'`, `time <= '${stop}'`].join(
      ' AND ',
    );
    const from = measurement === undefined ? '' : `FROM ${measurement.replace('_measurement=', '')} `;
    const q = `DELETE ${from}WHERE ${where}`;
    const db = url.searchParams.get('bucket') ?? '';
    const behind = await fetch(`${behindUrl}/query`, { method: 'POST', body: new URLSearchParams({ db, q }) });
    return (await behind.text()).includes('error') ? answer(500, refusal('failed')) : answer(204);
  }

  const server = createServer((request: IncomingMessage, response: ServerResponse) => {
    const url = new URL(request.url ?? '/', 'http://double');
    const answer: Answer = (status, body = '', headers = {}) => {
      const text = typeof body === 'string' ? body : JSON.stringify(body);
      response.writeHead(status, { 'content-type': 'application/json; charset=utf-8', ...headers }).end(text);
    };
    const work = async (): Promise<void> => {
      if (url.pathname === '/ping') {
        return answer(generation === 2 ? 204 : 200, '', {
          'x-influxdb-version': generation === 2 ? 'v2.7.12' : '3.8.0',
        });
      }
      if (request.headers.authorization !== `Token ${token}`) {
        return answer(
          401,
          generation === 2
            ? { code: 'unauthorized', message: 'unauthorized access' }
            : { error: 'the request was not authenticated' },
        );
      }
      if (url.pathname === '/api/v2/write') return write(request, url, answer);
      if (generation === 2 && url.pathname === '/api/v2/delete') return remove(request, url, answer);
      if (url.pathname === '/query') return query(request, url, answer);
      return answer(404, { error: 'not found' });
    };
    work().catch((error: unknown) => answer(500, { error: String(error) }));
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const double: InfluxDouble = {
    url: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
    token,
    org,
    answers,
    writes,
    asksElsewhere: undefined,
    keepsAll: false,
    may: 'both',
    async close() {
      server.closeAllConnections();
      await new Promise((resolve) => server.close(resolve));
    },
  };
  return double;
}

type Answer = (status: number, body?: string | object, headers?: Record<string, string>) => void;

async function bodyOf(request: IncomingMessage): Promise<{ text: string; packed: boolean }> {
  const chunks: Buffer[] = [];
  for await (const chunk of request) chunks.push(chunk as Buffer);
  const packed = request.headers['content-encoding'] === 'gzip';
  const bytes = Buffer.concat(chunks);
  return { text: (packed ? gunzipSync(bytes) : bytes).toString('utf8'), packed };
}
