/** Two workers and a web process on one PostgreSQL, one InfluxDB and one Mosquitto, as processes of their own. */
import { connectAsync, type MqttClient } from 'mqtt';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { fastClock } from '../../shared/clock.ts';
import { healthSchema } from '../../shared/contracts/health.ts';
import { pileEventSchema, pileStateSchema } from '../../shared/contracts/published.ts';
import { openInfluxReadings } from '../../shared/store/influx/influx-readings.ts';
import { openPostgresJournal } from '../../shared/store/journal/postgres-journal.ts';
import type { Journal } from '../../shared/store/journal.ts';
import { readingsEnvironment } from '../helpers/given-influx.ts';
import { hasInflux, startInflux, type TestInflux } from '../helpers/influxdb.ts';
import { hasMosquitto, type Mosquitto, startMosquitto } from '../helpers/mosquitto.ts';
import { makeDataDir } from '../helpers/open-test-server.ts';
import { hasPostgres, type Postgres, startPostgres } from '../helpers/postgres.ts';
import { type SpawnedInstallation, spawnInstallation } from '../helpers/spawn-server.ts';
import { until } from '../helpers/until.ts';

const all = hasInflux && hasMosquitto && hasPostgres;
/** A minute of the server in a second, so that warnings have stood long enough while the test runs. */
const fast = { startMs: Date.now(), anchorMs: Date.now(), speed: 60 };
const clock = fastClock(fast);
/** What is held: these, the default session, and in time the site that nobody wrote down. */
let sitesHeld = 5;
const siteNames = ['north-shed', 'south-shed', 'upper-terrace', 'lower-terrace'];

interface ShownPile {
  readonly id: string;
  readonly positions: Readonly<Record<string, { readonly temperatureC?: number }>>;
}

/** An open page: every pile it is told of. */
async function openLivePage(pagesUrl: string) {
  const leave = new AbortController();
  const { body } = await fetch(`${pagesUrl}/api/live`, { signal: leave.signal });
  if (!body) throw new Error('no live stream');
  const piles: ShownPile[] = [];
  let rest = '';
  const reading = body.pipeThrough(new TextDecoderStream()).pipeTo(
    new WritableStream({
      write(chunk) {
        const events = (rest + chunk).split('\n\n');
        rest = events.pop() ?? '';
        for (const event of events) {
          const data = event.match(/^event: pile\n.*data: (.*)/s)?.[1];
          if (data !== undefined) piles.push(JSON.parse(data) as ShownPile);
        }
      },
    }),
  );
  reading.catch(() => undefined); // it ends as the page is left
  return { piles, close: () => leave.abort() };
}

describe.skipIf(!all)('two workers and a web process', () => {
  let postgres: Postgres;
  let influx: TestInflux;
  let mosquitto: Mosquitto;
  let folder: Awaited<ReturnType<typeof makeDataDir>>;
  let environment: Record<string, string>;
  let journal: Journal;
  let client: MqttClient;
  let web: SpawnedInstallation;
  const workers: SpawnedInstallation[] = [];

  const spawn = (only: 'ingest' | 'web') => spawnInstallation(folder.dataDir, { only, environment });
  const ask = async (method: string, path: string, body?: unknown) => {
    const answer = await fetch(`${web.pagesUrl}${path}`, {
      method,
      ...(body !== undefined && { body: JSON.stringify(body), headers: { 'content-type': 'application/json' } }),
    });
    const text = await answer.text();
    if (!answer.ok) throw new Error(`${method} ${path}: ${answer.status} ${text}`);
    return text === '' ? undefined : JSON.parse(text);
  };
  const leases = async () => (await journal.leases.table()).leases;
  /** Everything held, by this many workers. */
  const settled = (count: number) =>
    until(`${count} workers share the sites`, async () => {
      const { leases: rows, workers: alive, nowMs } = await journal.leases.table();
      const held = rows.filter(({ holder, untilMs }) => holder !== null && untilMs > nowMs);
      const by = new Set(held.map(({ holder }) => holder));
      return rows.length === sitesHeld && held.length === rows.length && by.size === count && alive.length >= count
        ? rows
        : undefined;
    });

  /** Published and acknowledged by the broker: from then on it must not be lost. */
  let lastMs = 0;
  const published = new Map<string, number[]>(siteNames.map((site) => [site, []]));
  const publish = async (tempC: number, sites = siteNames) => {
    await new Promise((resolve) => setTimeout(resolve, 50));
    lastMs = Math.max(clock.nowMs(), lastMs + 1);
    for (const site of sites) {
      await client.publishAsync(
        `piles/${site}/p1/reading`,
        JSON.stringify({ temperature: tempC, time: new Date(lastMs).toISOString() }),
        { qos: 1 },
      );
      published.get(site)?.push(lastMs);
    }
  };
  const countOf = async (site: string): Promise<number> => {
    const { positions } = await ask(
      'GET',
      `/api/piles/${site}-heap/series?from=${clock.nowMs() - 240 * 3_600_000}&to=${clock.nowMs() + 3_600_000}&points=10`,
    );
    const buckets: { count: number }[] = positions.core?.temperatureC ?? [];
    return buckets.reduce((sum, { count }) => sum + count, 0);
  };
  const everythingKept = () =>
    until('every published reading is kept, once', async () => {
      for (const site of siteNames) if ((await countOf(site)) !== published.get(site)?.length) return undefined;
      return true;
    });

  beforeAll(async () => {
    [postgres, influx, mosquitto, folder] = await Promise.all([
      startPostgres(),
      startInflux(),
      startMosquitto(),
      makeDataDir(),
    ]);
    const address = await influx.newDatabase();
    const url = await postgres.database();
    environment = {
      JOURNAL_URL: url,
      ...readingsEnvironment(address),
      MQTT_URL: mosquitto.url,
      CLOCK: JSON.stringify(fast),
      LOG_LEVEL: 'info',
      UNCLAIMED_PROBES: '3',
    };
    journal = await openPostgresJournal(url);
    client = await connectAsync(mosquitto.url, { protocolVersion: 5 });
    web = await spawn('web');
    workers.push(await spawn('ingest'));
    for (const site of siteNames) await ask('POST', '/api/sites', { id: site, name: site });
    workers.push(await spawn('ingest'));
  });
  afterAll(async () => {
    for (const one of [...workers, web]) await one?.stop('SIGKILL');
    await client?.endAsync(true).catch(() => undefined);
    await journal?.close();
    await Promise.all([postgres?.remove(), influx?.remove(), mosquitto?.remove(), folder?.remove()]);
  });

  test('share the sites, each held once, about half of them each', async () => {
    const rows = await settled(2);
    const counts = new Map<string | null, number>();
    for (const { holder } of rows) counts.set(holder, (counts.get(holder) ?? 0) + 1);
    expect([...counts.values()].sort()).toEqual([2, 3]);
    // Each says at its own address how many it watches; the default session is no site.
    const said = await Promise.all(
      workers.map(async ({ pagesUrl }) => healthSchema.parse(await (await fetch(`${pagesUrl}/api/health`)).json())),
    );
    expect(said.reduce((sum, { sitesHeld: held = Number.NaN }) => sum + held, 0)).toBe(siteNames.length);
    expect(await ask('GET', '/api/health')).not.toHaveProperty('sitesHeld');
  });

  test('hear of probes at once, also of a site that nobody wrote down, and piles are laid and claimed through the web process', async () => {
    await publish(30);
    await client.publishAsync('piles/unheard-of/p9/temperature', '21.5', { qos: 1 });
    const startedAt = new Date(lastMs - 3_600_000).toISOString();
    for (const site of siteNames) {
      await until(
        `the probe of ${site}`,
        async () =>
          (await ask('GET', '/api/probes')).probes.some((one: { site: string }) => one.site === site) || undefined,
      );
      await ask('POST', '/api/piles', { id: `${site}-heap`, site, name: site, stage: 'bran', startedAt });
      await ask('POST', `/api/probes/${site}/p1/claim`, { pileId: `${site}-heap`, position: 'core', from: startedAt });
    }
    await until(
      'the probe of the unheard-of site',
      async () =>
        (await ask('GET', '/api/probes')).probes.some((one: { site: string }) => one.site === 'unheard-of') ||
        undefined,
    );
    await until('its lease', async () => (await leases()).find(({ site }) => site === 'unheard-of'));
    sitesHeld = 6;
    for (const site of siteNames) {
      await until(`${site} is judged by its worker`, async () => {
        const pile = await ask('GET', `/api/piles/${site}-heap`);
        return pile.positions.core?.temperatureC === 30 && pile.judgement ? pile : undefined;
      });
    }
  });

  test('each publishes the piles that it watches and no other, and what a person writes is one event', async () => {
    const states = new Map<string, string[]>();
    const written: string[] = [];
    const program = await connectAsync(mosquitto.url, { protocolVersion: 5 });
    program.on('message', (topic, payload) => {
      if (topic.startsWith('piles-state/')) {
        const { at: _, ...state } = pileStateSchema.parse(JSON.parse(payload.toString()));
        states.set(state.id, [...(states.get(state.id) ?? []), JSON.stringify(state)]);
        return;
      }
      const event = pileEventSchema.parse(JSON.parse(payload.toString()));
      if (event.event === 'entry-written') written.push(event.pile);
    });
    await program.subscribeAsync(['piles-state/#', 'piles-event/#'], { qos: 1 });
    await ask('PUT', '/api/publishing', { states: true });
    const piles = siteNames.map((site) => `${site}-heap`);
    await until('every pile', () => (piles.every((id) => states.has(id)) ? true : undefined));
    for (const id of piles) {
      await ask('POST', `/api/piles/${id}/entries`, { what: { kind: 'note' }, note: 'steams' });
      await until(`the entry of ${id}`, () => (written.includes(id) ? true : undefined));
    }
    expect(written).toEqual(piles);
    // Two that said the same pile would say the same twice.
    for (const [id, said] of states) expect(new Set(said).size, id).toBe(said.length);
    await program.endAsync();
  });

  test('a hub that comes up is answered by all of them, each for its own piles and once', async () => {
    const said = new Map<string, number>();
    const hub = await connectAsync(mosquitto.url, { protocolVersion: 5 });
    hub.on('message', (topic) => said.set(topic, (said.get(topic) ?? 0) + 1));
    await ask('PUT', '/api/publishing', { states: true, hub: 'looks-on' });
    const topics = siteNames.map((site) => `homeassistant/device/branhearth-piles-${site}-heap/config`);
    await hub.subscribeAsync('homeassistant/device/#', { qos: 1 });
    await until('every pile is introduced', () => (topics.every((topic) => said.has(topic)) ? true : undefined));
    await settled(2);
    // What it had before is taken away first, so that a pile may have been said twice until here.
    said.clear();
    await client.publishAsync('homeassistant/status', 'online', { qos: 0 });
    await until('each is said anew', () => (topics.every((topic) => said.has(topic)) ? true : undefined));
    // Whoever would say it again has had its time: a command of after it is done.
    for (const site of siteNames)
      await ask('POST', `/api/piles/${site}-heap/entries`, { what: { kind: 'note' }, note: 'x' });
    for (const site of siteNames)
      await until(`no command waits at ${site}`, async () =>
        (await journal.commands.waiting([site])).length === 0 ? true : undefined,
      );
    expect([...said.values()]).toEqual(siteNames.map(() => 1));
    await ask('PUT', '/api/publishing', { states: true, hub: 'off' });
    await hub.endAsync();
  });

  test('a pile whose probe speaks for a site of the other worker is judged as that probe speaks', async () => {
    const rows = (await settled(2)).filter(({ site }) => siteNames.includes(site));
    const here = rows[0];
    const there = rows.find(({ holder }) => holder !== here?.holder);
    if (!here || !there) throw new Error('one worker holds all');
    const say = async (tempC: number) => {
      await new Promise((resolve) => setTimeout(resolve, 50));
      await client.publishAsync(`piles/${there.site}/cross/temperature`, String(tempC), { qos: 1 });
    };
    await say(33);
    await until(
      'the probe',
      async () =>
        (await ask('GET', '/api/probes')).probes.some(({ probe }: { probe: string }) => probe === 'cross') || undefined,
    );
    await ask('POST', '/api/piles', { id: 'cross-site', site: here.site, name: 'Cross-site', stage: 'bran' });
    await ask('POST', `/api/probes/${there.site}/cross/claim`, { pileId: 'cross-site', position: 'core' });
    for (const tempC of [34, 35]) {
      await say(tempC);
      await until(
        `judged at ${tempC} °C`,
        async () => (await ask('GET', '/api/piles/cross-site')).condition.includes(`${tempC} °C`) || undefined,
      );
    }
  });

  test('names beyond the bound are kept by no worker; forgotten through the web process they make room at the worker', async () => {
    const site = siteNames[0] as string;
    const say = (probe: string) =>
      client.publishAsync(`piles/${site}/${probe}/temperature`, String(20 + Math.random()), { qos: 1 });
    const strays = async () =>
      ((await ask('GET', `/api/probes?claimed=no&site=${site}`)).probes as { probe: string }[]).map(
        ({ probe }) => probe,
      );
    for (let one = 0; one < 5; one += 1) await say(`made-up-${one}`);
    await until('three of them', async () => ((await strays()).length === 3 ? true : undefined));
    const readings = await openInfluxReadings({
      url: influx.url,
      bucket: environment.READINGS_BUCKET ?? '',
      generation: 1,
    });
    const kept = async () =>
      (await readings.lasts()).filter((one) => one.site === site && one.probe.startsWith('made-up'));
    await until('their readings', async () => ((await kept()).length === 3 ? true : undefined));

    await ask('POST', '/api/probes/forget', { find: 'made-up' });
    expect(await strays()).toEqual([]);
    await readings.close();
    const again = await openInfluxReadings({
      url: influx.url,
      bucket: environment.READINGS_BUCKET ?? '',
      generation: 1,
    });
    await until('the worker to have room, and to keep what comes and nothing of the others', async () => {
      await say('late');
      const names = (await again.lasts()).filter((one) => one.site === site).map(({ probe }) => probe);
      return names.includes('late') && !names.some((name) => name.startsWith('made-up')) ? true : undefined;
    });
    await again.close();
    await ask('DELETE', `/api/probes/${site}/late`);
  });

  test('one alarm per pile is raised, shown by the web process within a second or so, and acknowledged through it', async () => {
    for (let i = 0; i < 150; i += 1) await publish(62);
    for (const site of siteNames) {
      const alarm = await until(`the alarm of ${site}`, async () => {
        const pile = await ask('GET', `/api/piles/${site}-heap`);
        return pile.alarms.find(({ kind }: { kind: string }) => kind === 'overheating');
      });
      const handled = await ask('POST', `/api/alarms/${alarm.id}/acknowledge`, { note: 'on my way' });
      expect(handled.state).toBe('acknowledged');
      const pile = await ask('GET', `/api/piles/${site}-heap`);
      expect(pile.alarms.find(({ id }: { id: string }) => id === alarm.id).state).toBe('acknowledged');
    }
  });

  test('what a person notes through the web process is judged by the worker that holds the site, with no reading of it', async () => {
    for (const site of siteNames) {
      const path = `/api/piles/${site}-heap/entries`;
      await ask('POST', path, { what: { kind: 'smell', smells: ['rotten'] }, at: new Date(lastMs).toISOString() });
      const { condition, alarms } = await until(`the bad smell of ${site}`, async () => {
        const pile = await ask('GET', `/api/piles/${site}-heap`);
        return pile.alarms.some(({ kind }: { kind: string }) => kind === 'bad-smell') ? pile : undefined;
      });
      expect(alarms.find(({ kind }: { kind: string }) => kind === 'bad-smell')).toMatchObject({
        state: 'unacknowledged',
        stands: true,
      });
      expect(condition).not.toBe('');
    }
  });

  test('two web processes serve live pages side by side: what comes in and what a person does by one shows on both', async () => {
    const second = await spawn('web');
    const pages = await Promise.all([web, second].map(({ pagesUrl }) => openLivePage(pagesUrl)));
    try {
      const shown = (what: string, seen: (pile: ShownPile) => boolean) =>
        Promise.all(
          pages.map(({ piles }, index) => until(`${what} on page ${index}`, () => piles.some(seen) || undefined)),
        );
      const heap = `${siteNames[1]}-heap`;
      await publish(60.25);
      await shown('the reading', ({ id, positions }) => id === heap && positions.core?.temperatureC === 60.25);
      const laid = await fetch(`${second.pagesUrl}/api/piles`, {
        method: 'POST',
        body: JSON.stringify({ id: 'laid-live', site: siteNames[0], name: 'Laid live', stage: 'bran' }),
        headers: { 'content-type': 'application/json' },
      });
      expect(laid.status).toBe(201);
      await shown('the new pile', ({ id }) => id === 'laid-live');
    } finally {
      for (const page of pages) page.close();
      await second.stop();
    }
  });

  test('a worker that is killed has its sites taken over within 15 s: no reading is lost, no alarm raised twice', async () => {
    await settled(2);
    const [victim] = workers.splice(0, 1);
    let going = true;
    const publishing = (async () => {
      while (going) await publish(61);
    })();
    await new Promise((resolve) => setTimeout(resolve, 500));
    const before = await leases();
    const killedMs = performance.now();
    await victim?.stop('SIGKILL');
    await settled(1);
    const tookMs = performance.now() - killedMs;
    console.log(`taken over ${Math.round(tookMs)} ms after kill -9`);
    expect(tookMs).toBeLessThan(15_000); // what users are promised, and three times what it takes
    const after = await leases();
    expect(
      after.filter(({ site, fence }) => fence !== before.find((one) => one.site === site)?.fence).length,
    ).toBeGreaterThan(1);
    await new Promise((resolve) => setTimeout(resolve, 1_000));
    going = false;
    await publishing;
    await everythingKept();
    for (const site of siteNames) {
      const { alarms } = await ask('GET', `/api/piles/${site}-heap/alarms`);
      expect(alarms.filter(({ kind }: { kind: string }) => kind === 'overheating')).toHaveLength(1);
    }
  });

  test('a worker that comes gets its share', async () => {
    workers.push(await spawn('ingest'));
    await settled(2);
  });

  test('a worker that was stopped past its lease and wakes up writes nothing more about those piles', async () => {
    await settled(2);
    const [sleeper] = workers;
    if (!sleeper) throw new Error('no worker');
    const before = await leases();
    sleeper.child.kill('SIGSTOP');
    try {
      await settled(1);
      await publish(61);
      await everythingKept();
      const taken = await leases();
      sleeper.child.kill('SIGCONT');
      await until('it notices', () => /lost a site to another worker/.test(sleeper.output()) || undefined);
      await settled(2);
      const moved = taken.filter(({ site, fence }) => fence !== before.find((one) => one.site === site)?.fence);
      expect(moved.length).toBeGreaterThan(1);
      for (let i = 0; i < 5; i += 1) await publish(61);
      await everythingKept();
      for (const site of siteNames) {
        const { alarms } = await ask('GET', `/api/piles/${site}-heap/alarms`);
        expect(alarms.filter(({ kind }: { kind: string }) => kind === 'overheating')).toHaveLength(1);
      }
    } finally {
      sleeper.child.kill('SIGCONT');
    }
  });

  test('PostgreSQL restarted in the middle: everything goes on, nothing is lost', async () => {
    await settled(2);
    await publish(61);
    await postgres.stop();
    await publish(61);
    await new Promise((resolve) => setTimeout(resolve, 2_000));
    await postgres.start();
    await publish(60.5);
    await settled(2);
    await everythingKept();
    await until(
      'pages see the newest reading',
      async () =>
        (await ask('GET', `/api/piles/${siteNames[0]}-heap`)).positions.core?.temperatureC === 60.5 || undefined,
    );
  });
});
