import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { manyPiles } from '../../../simulator/scenario/many-piles.ts';
import { readScenario } from '../../../simulator/scenario/read-scenario.ts';
import { scenarioJsonSchema, scenarioSchema } from '../../../simulator/scenario/scenario-schema.ts';
import { demoFarm } from '../../../simulator/scenarios/demo/demo-farm.ts';

const folder = mkdtempSync(join(tmpdir(), 'branhearth-scenario-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function file(name: string, text: string): string {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}

const yaml = `
name: one bed
sites:
  - name: saltmere-yard
    climate: { meanC: 20 }
    piles:
      - name: by the door
        recipe:
          ingredients: [{ material: wheat-bran, massKg: 40 }]
        acts: [{ kind: turn, afterH: 30 }]
        probes: [{ name: door-core, position: core, faults: [{ kind: stuck, fromH: 50, toH: 60 }] }]
`;

describe('readScenario()', () => {
  test('readScenario() reads YAML, and the same as JSON, with defaults filled in', () => {
    const fromYaml = readScenario(file('a.yaml', yaml));
    expect(fromYaml.sites[0]?.piles[0]?.recipe).toMatchObject({ moistureFrac: 0.6, depthM: 0.28, layerCount: 5 });
    expect(readScenario(file('a.json', JSON.stringify(fromYaml)))).toEqual(fromYaml);
  });
  test('readScenario() names the field that is wrong', () => {
    expect(() => readScenario(file('b.yaml', yaml.replace('wheat-bran', 'sawdust')))).toThrow(
      /b\.yaml at \/sites\/0\/piles\/0\/recipe\/ingredients\/0\/material/,
    );
  });
  test('readScenario() says which file cannot be read or is neither YAML nor JSON', () => {
    expect(() => readScenario(join(folder, 'none.yaml'))).toThrow(/Cannot read scenario .*none\.yaml/);
    expect(() => readScenario(file('c.yaml', 'a: [1'))).toThrow(/Cannot read scenario/);
  });
});

describe('manyPiles()', () => {
  const demo = demoFarm(1).scenario;
  test('manyPiles() grows to 10,000 probes with names of their own, and still fits the schema', () => {
    const grown = manyPiles(demo, 100, 2500);
    const names = grown.sites.flatMap((site) =>
      site.piles.flatMap((pile) => pile.probes.map((probe) => `${site.name}/${probe.name}`)),
    );
    expect(names).toHaveLength(10_000);
    expect(new Set(names).size).toBe(10_000);
    expect(grown.sites).toHaveLength(100);
    expect(scenarioSchema.safeParse(grown).success).toBe(true);
  });
  test('manyPiles() refuses more than 10,000 probes', () => {
    expect(() => manyPiles(demo, 100, 2501)).toThrow(RangeError);
  });
});

test('scenarioJsonSchema() is JSON Schema 2020-12 and asks for what the zod schema asks for', () => {
  expect(scenarioJsonSchema()).toMatchObject({
    $schema: 'https://json-schema.org/draft/2020-12/schema',
    type: 'object',
    required: ['name', 'sites'],
  });
});
