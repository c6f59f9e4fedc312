/** What a scenario file may say. */
import { z } from 'zod';
import { nameSchema, positionSchema, stageSchema } from '../../shared/names.ts';
import { mildClimate } from '../model/climate.ts';
import { materialNames } from '../model/material.ts';
import { chipNames } from '../probes/chip.ts';
import { faultSchema } from '../probes/fault.ts';

const fraction = z.number().min(0).max(1);
const hours = z.number().min(0).max(10_000);

const ingredientSchema = z.object({
  material: z.enum(materialNames),
  massKg: z.number().positive().max(1e6).describe('mass as put in, its own water included [kg]'),
  moistureFrac: z.number().min(0).max(0.95).optional().describe('its own moisture, wet basis; as bought when left out'),
});

const recipeSchema = z.object({
  ingredients: z.array(ingredientSchema).min(1),
  moistureFrac: z
    .number()
    .min(0)
    .max(0.95)
    .default(0.6)
    .describe('after mixing, wet basis; water is added to reach it'),
  doseFrac: fraction.default(0.005).describe('starter culture over the wet mass'),
  depthM: z.number().min(0.02).max(5).default(0.28),
  tempC: z.number().min(-10).max(60).default(18),
  cover: z.enum(['open', 'breathable', 'closed']).default('breathable'),
  shed: z.enum(['none', 'roof', 'closed']).default('none'),
  shadeFrac: fraction.default(0.8),
  fanMS: z.number().min(0).max(10).default(0),
  groundC: z.number().min(-10).max(40).optional(),
  groundWmK: z.number().min(0).max(5).default(1).describe('under the pile: moist soil 1, pallets with straw 0.1'),
  layerCount: z.number().int().min(3).max(20).default(5),
});

const actSchema = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('turn'), afterH: hours }),
  z.object({ kind: z.literal('water'), afterH: hours, waterKg: z.number().positive(), tempC: z.number().optional() }),
  z.object({ kind: z.literal('spread'), afterH: hours, depthM: z.number().min(0.02).max(5) }),
  z.object({ kind: z.literal('heap'), afterH: hours, depthM: z.number().min(0.02).max(5) }),
  z.object({ kind: z.literal('cover'), afterH: hours, cover: z.enum(['breathable', 'closed']) }),
  z.object({ kind: z.literal('uncover'), afterH: hours }),
  z.object({ kind: z.literal('shade'), afterH: hours, shadeFrac: fraction.optional() }),
  z.object({ kind: z.literal('shed'), afterH: hours, shed: z.enum(['none', 'roof', 'closed']) }),
  z.object({ kind: z.literal('fan'), afterH: hours, windMS: z.number().min(0).max(10) }),
  z.object({
    kind: z.literal('mix'),
    afterH: hours,
    ingredients: z.array(ingredientSchema).min(1),
    tempC: z.number().optional(),
  }),
]);

const probeSchema = z.object({
  name: nameSchema,
  position: positionSchema,
  depthM: z.number().min(0).max(5).optional().describe('below the surface [m]; by position when left out'),
  chip: z.enum(chipNames).default('one-wire'),
  everyS: z.number().int().min(1).max(86_400).default(300),
  also: z.array(z.enum(['moisture', 'co2'])).default([]),
  faults: z.array(faultSchema).default([]),
});

const pileSchema = z.object({
  name: z.string().min(1).max(80),
  stage: stageSchema.default('bran'),
  laidAfterH: hours.default(0).describe('hours after the start of the scenario'),
  recipe: recipeSchema,
  acts: z.array(actSchema).default([]),
  probes: z.array(probeSchema).min(1),
});

const climateSchema = z.object({
  meanC: z.number().min(-20).max(40).default(mildClimate.meanC),
  seasonK: z.number().min(0).max(30).default(mildClimate.seasonK),
  dayK: z.number().min(0).max(20).default(mildClimate.dayK),
  frontK: z.number().min(0).max(15).default(mildClimate.frontK),
  rhPct: z.number().min(5).max(100).default(mildClimate.rhPct),
  windMS: z.number().min(0).max(20).default(mildClimate.windMS),
  rainShare: fraction.default(mildClimate.rainShare),
  rainMmH: z.number().min(0).max(50).default(mildClimate.rainMmH),
  latitudeDeg: z.number().min(-66).max(66).default(mildClimate.latitudeDeg),
  utcOffsetH: z.number().min(-12).max(14).default(mildClimate.utcOffsetH),
});

export const scenarioSchema = z.object({
  name: z.string().min(1).max(120),
  startAt: z.iso
    .datetime({ offset: true })
    .optional()
    .describe('date whose season the weather has at hour 0; a CSV starts there'),
  days: z.number().positive().max(400).default(9),
  sites: z
    .array(
      z.object({
        name: nameSchema,
        climate: climateSchema.optional(),
        airFile: z.string().optional().describe('CSV of measured air beside the scenario; see --help'),
        piles: z.array(pileSchema).min(1),
      }),
    )
    .min(1),
});
export type Scenario = z.infer<typeof scenarioSchema>;
/** A scenario as written, before defaults are filled in. */
export type ScenarioText = z.input<typeof scenarioSchema>;

/** The same rules as JSON Schema (2020-12), for editors. */
export function scenarioJsonSchema(): unknown {
  return z.toJSONSchema(scenarioSchema, { io: 'input' });
}
