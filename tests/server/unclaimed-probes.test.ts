// Names of probes without end, from one key or none: what no pile has stays bounded, claimed probes lose nothing, and
// neither answers nor live events grow with it.
import { connectAsync } from 'mqtt';
import { afterEach, describe, expect, test } from 'vitest';
import { LiveHub } from '../../server/services/live/live-hub.ts';
import { listProbes } from '../../server/services/probes/list-probes.ts';
import { ProbeBook, probeView } from '../../server/services/probes/probe-book.ts';
import { createProbeNews } from '../../server/services/probes/probe-news.ts';
import { probesAnswerSchema } from '../../shared/contracts/probes.ts';
import { makeDataDir, openTestInstallation } from '../helpers/open-test-server.ts';
import { until } from '../helpers/until.ts';

const closing: (() => unknown)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close();
});

const site = 'saltmere-yard';

describe('a server that hears more names than it may', () => {
  async function open() {
    const { dataDir, remove } = await makeDataDir();
    const { installation, app, close } = await openTestInstallation(dataDir, { UNCLAIMED_PROBES: '3' });
    closing.push(remove, close);
    const client = await connectAsync(installation.ingest.url, { reconnectPeriod: 0 });
    closing.push(() => client.endAsync(true));
    const say = (probe: string, atMs = Date.now()) =>
      client.publishAsync(`piles/${site}/${probe}/reading`, JSON.stringify({ temperature: 41.5, time: atMs }), {
        qos: 1,
      });
    const call = async (method: 'GET' | 'POST', url: string, payload?: object) => {
      const answer = await app.inject({ method, url, ...(payload && { payload }) });
      if (answer.statusCode >= 300) throw new Error(answer.body);
      return answer.json();
    };
    const listed = async () => probesAnswerSchema.parse(await call('GET', '/api/probes'));
    const claim = (probe: string, position: string) =>
      call('POST', `/api/probes/${site}/${probe}/claim`, { pileId: 'bed', position });
    return { installation, client, say, call, listed, claim };
  }

  test('keeps nothing of those beyond the bound, acknowledges and counts them, and lists the others', async () => {
    const { installation, say, listed } = await open();
    for (let one = 0; one < 10; one += 1) await say(`made-up-${one}`);
    expect((await listed()).probes.map(({ probe }) => probe)).toEqual(['made-up-0', 'made-up-1', 'made-up-2']);
    expect(await installation.readings.lasts()).toHaveLength(3);
    expect(installation.ingest.counters()).toMatchObject({ stored: 3, refused: { 'too-many-unclaimed': 7 } });
  });

  test('a claimed probe loses nothing, and each that is claimed makes room for one', async () => {
    const { installation, say, call, listed, claim } = await open();
    const nowMs = Date.now();
    await call('POST', '/api/sites', { name: 'Saltmere Yard' });
    await call('POST', '/api/piles', { site, id: 'bed', name: 'Bed', stage: 'bran' });
    await say('mine', nowMs - 60_000);
    await claim('mine', 'core');
    for (let one = 0; one < 5; one += 1) await say(`made-up-${one}`);
    for (let minute = 0; minute < 5; minute += 1) await say('mine', nowMs + minute);
    expect((await listed()).counts).toEqual({ all: 4, unclaimed: 3, isFull: true });
    const rows = await installation.readings.rows(
      [{ site, probe: 'mine', quantity: 'temperature' }],
      0,
      nowMs + 1_000,
      100,
    );
    expect(rows).toHaveLength(6);
    await claim('made-up-0', 'top');
    await say('late');
    expect((await listed()).counts).toEqual({ all: 5, unclaimed: 3, isFull: true });
  });

  test('a status of a name beyond the bound makes no probe, here or in the journal', async () => {
    const { installation, client, listed } = await open();
    for (let one = 0; one < 10; one += 1)
      await client.publishAsync(`piles/${site}/made-up-${one}/status`, 'online', { qos: 1 });
    expect((await listed()).total).toBe(3);
    await until('the status of those three', async () =>
      (await installation.journal.probes.list()).length === 3 ? 1 : undefined,
    );
    expect(installation.ingest.counters().refused['too-many-unclaimed']).toBe(7);
  });

  test('one that comes and goes all the time costs few writes, and its last word stands', async () => {
    const { installation, client } = await open();
    let writes = 0;
    const keep = installation.journal.probes.setOnline;
    installation.journal.probes.setOnline = (...said) => {
      writes += 1;
      return keep(...said);
    };
    for (let one = 0; one < 201; one += 1)
      await client.publishAsync(`piles/${site}/flapping/status`, one % 2 === 0 ? 'offline' : 'online', { qos: 1 });
    await client.publishAsync(`piles/${site}/flapping/status`, 'online', { qos: 1 });
    await until('its last word', async () => (await installation.journal.probes.list()).find(({ online }) => online));
    expect(writes).toBeLessThan(20);
  });

  test('sites together have five times the room of one', () => {
    const book = new ProbeBook(3);
    expect(book.counts.isFull).toBe(false);
    const admitted = Array.from({ length: 40 }, (_, one) => book.admits(`site-${one}`, 'p'));
    expect(admitted.filter(Boolean)).toHaveLength(15);
    expect(book.admits('site-0', 'p')).toBe(true);
    expect(book.counts.isFull).toBe(true);
  });
});

describe('the list of probes', () => {
  function bookOf(unclaimed: number, claimed: number) {
    const book = new ProbeBook(100_000);
    for (let one = 0; one < unclaimed; one += 1)
      book.record({ site: 'a-site', probe: `stray-${one}`, quantity: 'temperature', value: 20, atMs: one });
    for (let one = 0; one < claimed; one += 1) {
      const claim = {
        site: 'b-site',
        probe: `p-${one}`,
        pileId: `pile-${one % 3}`,
        position: 'core',
        fromMs: 0,
      } as const;
      book.setClaim(book.of('b-site', `p-${one}`), { ...claim, toMs: null });
    }
    return book;
  }

  test('is bounded without a word, those in a pile first, and says how many there are', () => {
    const answer = listProbes(bookOf(30_000, 10), {});
    expect([answer.probes.length, answer.total]).toEqual([500, 30_010]);
    expect(answer.counts).toEqual({ all: 30_010, unclaimed: 30_000, isFull: false });
    expect(answer.probes.slice(0, 10).every(({ claim }) => claim !== null)).toBe(true);
  });

  test('is walked page by page without a gap or a double', () => {
    const book = bookOf(1_205, 0);
    const seen = new Set<string>();
    for (let offset = 0; offset < 1_205; offset += 100)
      for (const { probe } of listProbes(book, { offset, limit: 100 }).probes) seen.add(probe);
    expect(seen.size).toBe(1_205);
    expect(listProbes(book, { offset: 1_205 }).probes).toEqual([]);
  });

  test('is found by typing a part of name, site or pile, and by whether a pile has it', () => {
    const book = bookOf(300, 9);
    expect(listProbes(book, { find: 'STRAY-29' }).total).toBe(11);
    expect(listProbes(book, { find: 'pile-2' }).total).toBe(3);
    expect(listProbes(book, { claimed: 'no', find: 'b-site' }).total).toBe(0);
    // By what people call pile and site too, whatever the accents, and in that order.
    const names = {
      piles: new Map([
        ['pile-0', 'Wall bed 10'],
        ['pile-1', 'Ánfora'],
        ['pile-2', 'Wall bed 9'],
      ]),
      sites: new Map([['b-site', 'Quinta do Mar']]),
    };
    expect(listProbes(book, { find: 'anfora MAR' }, names).probes.map(({ claim }) => claim?.pileId)).toEqual(
      Array.from({ length: 3 }, () => 'pile-1'),
    );
    const ordered = listProbes(book, { claimed: 'yes', order: 'pile' }, names).probes.map(({ claim }) => claim?.pileId);
    expect([...new Set(ordered)]).toEqual(['pile-1', 'pile-2', 'pile-0']);
    expect(listProbes(book, { claimed: 'yes', site: 'b-site' }).total).toBe(9);
    expect(listProbes(book, { order: 'newest', limit: 1 }).probes[0]?.probe).toBe('stray-299');
    expect(listProbes(book, { claimed: 'yes', order: 'pile' }).probes.map(({ claim }) => claim?.pileId)).toEqual(
      ['pile-0', 'pile-1', 'pile-2'].flatMap((pile) => [pile, pile, pile]),
    );
  });
});

describe('live events of probes', () => {
  test('30,000 that speak at once are told of as fifty and a count', async () => {
    const hub = new LiveHub();
    closing.push(() => hub.close());
    const texts: string[] = [];
    hub.add({ write: (text) => texts.push(text) > 0, end() {} });
    const book = new ProbeBook(100_000);
    const news = createProbeNews(hub, book);
    for (let one = 0; one < 30_000; one += 1)
      news.changed(book.record({ site, probe: `p-${one}`, quantity: 'temperature', value: 20, atMs: one }));
    const text = await until('the events', () => texts[0]);
    expect(text.match(/^event: probe$/gm)).toHaveLength(50);
    expect(text.match(/^event: probes$/gm)).toHaveLength(1);
    expect(text).toContain('{"all":30000,"unclaimed":30000,"isFull":false}');
  });

  test('one that speaks is told of by itself, with what it said last', async () => {
    const hub = new LiveHub();
    closing.push(() => hub.close());
    const texts: string[] = [];
    hub.add({ write: (text) => texts.push(text) > 0, end() {} });
    const book = new ProbeBook(10);
    const news = createProbeNews(hub, book);
    for (const value of [20, 21, 22]) {
      news.changed(book.record({ site, probe: 'p', quantity: 'temperature', value, atMs: value }));
    }
    const text = await until('the events', () => texts[0]);
    expect(text.match(/^event: probe$/gm)).toHaveLength(1);
    expect(text).toContain(JSON.stringify(probeView(book.of(site, 'p'))));
  });
});
