/** Grafana is not run here; each query of its dashboard is read against what `/metrics` really says. */
import { readFile } from 'node:fs/promises';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { z } from 'zod';
import { commitReadings } from '../../helpers/commit-readings.ts';
import { openNewTestInstallation, type TestInstallation } from '../../helpers/open-test-server.ts';

const dashboardSchema = z.object({
  templating: z.object({ list: z.array(z.object({ name: z.string(), type: z.string(), query: z.string() })) }),
  panels: z.array(
    z.object({
      id: z.number(),
      title: z.string(),
      gridPos: z.object({ x: z.number(), y: z.number(), w: z.number(), h: z.number() }),
      targets: z.array(z.object({ expr: z.string(), legendFormat: z.string() })).min(1),
    }),
  ),
});

let one: TestInstallation;
/** Of each name of a series the labels that it has. */
const series = new Map<string, Set<string>>();

beforeAll(async () => {
  one = await openNewTestInstallation();
  const post = (url: string, payload: object) => one.app.inject({ method: 'POST', url, payload });
  await post('/api/sites', { name: 'Saltmere Yard' });
  await post('/api/piles', { site: 'saltmere-yard', id: 'shed', name: 'Shed', stage: 'bran' });
  const reading = { site: 'saltmere-yard', probe: 'p1', atMs: Date.now() } as const;
  await commitReadings(one.installation, [
    { ...reading, quantity: 'temperature', value: 41.5 },
    { ...reading, quantity: 'moisture', value: 44 },
    { ...reading, quantity: 'humidity', value: 97 },
    { ...reading, quantity: 'co2', value: 9_000 },
  ]);
  await post('/api/probes/saltmere-yard/p1/claim', { pileId: 'shed', position: 'core' });
  const { body } = await one.app.inject({ url: '/metrics' });
  for (const line of body.split('\n')) {
    const [, name, labels = ''] = line.match(/^([a-z_0-9]+)(?:\{([^}]*)\})? /) ?? [];
    if (name !== undefined) series.set(name, new Set([...labels.matchAll(/(\w+)="/g)].map(([, label = '']) => label)));
  }
  // A counter by reason stands there from its first refusal on.
  for (const [, name = ''] of body.matchAll(/^# TYPE (\w+) counter$/gm)) {
    if (!series.has(`${name}_total`)) series.set(`${name}_total`, new Set(['reason']));
  }
});
afterAll(() => one.closeAndRemove());

/** What a query of PromQL reads: each selector with the labels that it asks for, and the labels it groups by. */
function readQuery(query: string) {
  const selectors = [...query.matchAll(/\b(branhearth_\w+)(?:\{([^}]*)\})?/g)];
  return {
    selectors: selectors.map(([, name = '', inside = '']) => ({
      name,
      labels: [...inside.matchAll(/(\w+)=~?"/g)].map(([, label = '']) => label),
    })),
    groups: [...query.matchAll(/\bby \(([^)]*)\)/g)].flatMap(([, labels = '']) => labels.split(/,\s*/)),
  };
}

test('every query of the dashboard names series and labels that /metrics has', async () => {
  const dashboard = dashboardSchema.parse(JSON.parse(await readFile('server/deploy/grafana-dashboard.json', 'utf8')));
  const queries = dashboard.panels.flatMap(({ title, targets }) =>
    targets.map(({ expr, legendFormat }) => ({
      title,
      query: expr,
      legend: [...legendFormat.matchAll(/\{\{(\w+)\}\}/g)].map(([, label = '']) => label),
    })),
  );
  const asked = dashboard.templating.list.flatMap(({ name, type, query }) => {
    if (type !== 'query') return [];
    const [, inner = '', label = ''] = query.match(/^label_values\((.*), (\w+)\)$/) ?? [];
    return [{ title: `variable ${name}`, query: inner, legend: [label] }];
  });
  expect(asked).toHaveLength(2);
  for (const { title, query, legend } of [...queries, ...asked]) {
    const { selectors, groups } = readQuery(query);
    expect(selectors.length, title).toBeGreaterThan(0);
    for (const { name, labels } of selectors) {
      const has = series.get(name);
      expect(has, `${title}: ${name}`).toBeDefined();
      for (const label of [...labels, ...groups, ...legend])
        expect([...(has ?? [])], `${title}: ${name}`).toContain(label);
    }
    const known = dashboard.templating.list.map(({ name }) => name);
    for (const [, name = ''] of query.matchAll(/\$(\w+)/g)) expect(known, title).toContain(name);
  }
  const shown = new Set(queries.flatMap(({ query }) => readQuery(query).selectors.map(({ name }) => name)));
  const ofPiles = [...series.keys()].filter((name) => name.startsWith('branhearth_pile_'));
  expect(ofPiles.length).toBeGreaterThan(3);
  for (const name of ofPiles) expect([...shown], 'a figure of piles that no panel shows').toContain(name);
});

test('panels of the dashboard do not lie on each other', async () => {
  const { panels } = dashboardSchema.parse(JSON.parse(await readFile('server/deploy/grafana-dashboard.json', 'utf8')));
  expect(new Set(panels.map(({ id }) => id)).size).toBe(panels.length);
  const cells = panels.flatMap(({ gridPos: { x, y, w, h } }) =>
    Array.from({ length: w * h }, (_, i) => `${x + (i % w)}/${y + Math.floor(i / w)}`),
  );
  expect(new Set(cells).size).toBe(cells.length);
});
