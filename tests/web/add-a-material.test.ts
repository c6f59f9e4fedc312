/**
 * Follows "Add a material" of DEVELOPERS.md: one more entry in one file, and planner, expected band, water balance, lists of forms
 * and API know it.
 */
import { h } from 'preact';
import { render as toText } from 'preact-render-to-string';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { expectedBand } from '../../core/expect/expected-band.ts';
import { heldKgKg } from '../../core/physics/water-balance.ts';
import { planWater } from '../../core/plan/water.ts';
import { waterAnswerSchema, waterAskSchema } from '../../shared/contracts/plan.ts';
import { plainEnglish } from '../../shared/messages/render.ts';
import { materials } from '../../shared/profiles/material-names.ts';
import type { MaterialProfile } from '../../shared/profiles/materials.ts';
import { msPerHour } from '../../shared/units.ts';
import { BatchFields, emptyBatch } from '../../web/src/features/pile/batch-fields.tsx';
import { ingredientNames } from '../../web/src/features/plan/water-plan.tsx';
import { setupOf, startMs } from '../core/helpers.ts';
import { makeDataDir, openTestInstallation, type TestInstallation } from '../helpers/open-test-server.ts';

/** Invented: no husk is like that. */
vi.mock('../../shared/profiles/materials.ts', async (original) => {
  const { materialProfiles, ...rest } = await original<typeof import('../../shared/profiles/materials.ts')>();
  const name = { code: 'verbatim', params: { text: 'oat husk' } } as const;
  const origin = { code: 'verbatim', params: { text: 'weighed on two farms' } } as const;
  const husk: MaterialProfile = {
    name,
    family: 'bran',
    particleDensityKgM3: { value: 1400, origin },
    ingredient: {
      stored: { bulkDensityKgM3: { value: 150, origin }, moistureFrac: { value: 0.1, origin } },
      targetFrac: { value: 0.55, origin },
      usual: { fromFrac: 0.5, toFrac: 0.6, origin },
      carbonFrac: { value: 0.46, origin },
      nitrogenFrac: { value: 0.006, origin },
      laidAs: 'oat-husk',
    },
    inPile: {
      dryDensityKgM3: 135,
      dryDensityLogSd: 0.2,
      burningFrac: 0.02,
      burningLogSd: 0.3,
      moistureFrac: 0.55,
      moistureSd: 0.05,
      holdsFrac: 0.5,
      vapourShare: 0.8,
    },
  };
  return { ...rest, materialProfiles: { ...materialProfiles, 'oat-husk': husk } };
});

/** Known only to the mocked module, so its type does not know it. */
const husk = 'oat-husk' as 'wheat-bran';

let one: TestInstallation;
let remove: () => Promise<void>;
beforeAll(async () => {
  const folder = await makeDataDir();
  remove = folder.remove;
  one = await openTestInstallation(folder.dataDir);
});
afterAll(async () => {
  await one.close();
  await remove();
});

test('the planner knows a material that was added: 10 kg from 10 to 55 % take 10 kg of water', () => {
  const plan = planWater(waterAskSchema.parse({ materialKg: 10, material: husk }));
  expect(plan.waterKg).toBeCloseTo(10, 9);
  expect(plan.defaults.map(({ origin }) => origin)).toContainEqual({
    code: 'verbatim',
    params: { text: 'weighed on two farms' },
  });
});

test('the expected band and the water balance know it: it heats less than wheat bran, and holds half its mass in water', () => {
  const air = Array.from({ length: 120 }, (_, hour) => ({ atMs: startMs + hour * msPerHour, tempC: 20 }));
  const peakOf = (material: 'wheat-bran') => {
    const setup = setupOf();
    const band = expectedBand({ ...setup, recipe: { ...setup.recipe, material } }, air, startMs + 120 * msPerHour);
    return Math.max(...band.p50C);
  };
  expect(peakOf(husk)).toBeLessThan(peakOf('wheat-bran'));
  expect(heldKgKg(husk)).toBeCloseTo(1, 9);
});

test('the lists of forms show it by its name, before what is something else', () => {
  expect([materials.indexOf(husk), materials.at(-1)]).toEqual([materials.length - 2, 'other']);
  const mutation = {
    busy: false,
    error: undefined,
    fieldError: () => undefined,
    run: async () => true,
    clear: () => undefined,
  };
  const form = toText(h(BatchFields, { draft: emptyBatch, onDraft: () => undefined, mutation }));
  expect(form).toMatch(/<option[^>]*value="oat-husk"[^>]*>Oat husk<\/option>/);
  expect(ingredientNames((said) => plainEnglish(said))).toContainEqual([husk, 'Oat husk']);
});

test('the API plans with it, and lays a pile of it', async () => {
  const post = (url: string, payload: object) => one.app.inject({ method: 'POST', url, payload });
  const planned = await post('/api/plan/water', { materialKg: 10, material: husk });
  expect(waterAnswerSchema.parse(planned.json()).says).toMatch(/^Oat husk needs 10 L of water/);
  await post('/api/sites', { name: 'Saltmere Yard' });
  const pile = { site: 'saltmere-yard', id: 'husk', name: 'Husk', stage: 'bran', recipe: { material: husk } };
  expect((await post('/api/piles', pile)).statusCode).toBe(201);
  expect((await one.app.inject('/api/piles/husk')).json()).toMatchObject({ recipe: { material: husk } });
});
