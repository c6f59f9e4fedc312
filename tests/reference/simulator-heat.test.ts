import { describe, expect, test } from 'vitest';
import { conduct } from '../../simulator/model/heat.ts';
import { heatCapacityJM2K } from '../../simulator/model/layer.ts';
import { blendOf, type Material, materials } from '../../simulator/model/material.ts';
import { createPile, type Pile, type PileRecipe } from '../../simulator/model/pile.ts';
import { stepPile } from '../../simulator/model/step-pile.ts';
import { heatPerOxygenJKg, heatPerStarchJKg, oxidationOf } from '../../simulator/model/stoichiometry.ts';
import type { Skin } from '../../simulator/model/surface.ts';
import { examine } from '../../simulator/model/work.ts';
import { steadyAir } from '../helpers/steady-air.ts';

/** Dry matter that nothing eats, and that conducts as told. */
function inert(conductivityWmK: number): Material {
  return {
    ...materials.soil,
    dryConductivityWmK: conductivityWmK,
    readyFrac: 0,
    slowFrac: 0,
    mesophilesFrac: 0,
    thermophilesFrac: 0,
  };
}

function slab(material: Material, more: Partial<PileRecipe> = {}): Pile {
  return createPile({
    // So wide that its sides do not matter, on a floor that takes no heat.
    ingredients: [{ material, massKg: 1e7, moistureFrac: 0 }],
    moistureFrac: 0,
    doseFrac: 0,
    depthM: 0.3,
    tempC: 60,
    startMs: 0,
    groundWmK: 0,
    ...more,
  });
}

/** Conduction alone, with the top held to `skin`. */
function conductFor(pile: Pile, skin: Pick<Skin, 'leaveWM2K' | 'balanceC'>, hours: number, stepS: number): void {
  for (let step = 0; step < (hours * 3600) / stepS; step += 1) {
    const works = examine(pile, stepS);
    for (const work of works) work.heatInJM2 = 0;
    conduct(pile, works, { ...skin, evaporationKgM2S: 0, filmSM: 200 }, skin.balanceC, stepS);
  }
}

describe('Newton cooling', () => {
  // T = Ta + (T0 - Ta) exp(-k t), 60 °C in air of 20 °C, k 0.1 per hour: 44.26 °C after 5 h, 34.715 °C after 10 h (exact).
  // A block that conducts so well that it is one temperature. 0.1 K: the integrator, and the block's own small gradient.
  for (const [hours, tempC] of [
    [5, 44.261],
    [10, 34.715],
  ] as const) {
    test(`conduct() cools a lump from 60 to ${tempC} °C in ${hours} h`, () => {
      const pile = slab(inert(2000), { layerCount: 3 });
      const capacity = pile.layers.reduce((sum, layer) => sum + heatCapacityJM2K(layer, pile.material), 0);
      conductFor(pile, { leaveWM2K: (0.1 / 3600) * capacity, balanceC: 20 }, hours, 300);
      for (const layer of pile.layers) expect(Math.abs(layer.tempC - tempC)).toBeLessThan(0.1);
    });
  }
});

describe('one-dimensional conduction', () => {
  // A slab of thickness L at T0, one face suddenly at Ts, the other insulated:
  //   (T - Ts) / (T0 - Ts) = 4/pi sum (-1)^n / (2n+1) exp(-(2n+1)^2 pi^2 a t / 4 L^2) cos((2n+1) pi x / 2L)
  // H. S. Carslaw and J. C. Jaeger, Conduction of Heat in Solids, 1959, 3.3 (equation from memory).
  // 0.3 K of 40 K: the error of 20 layers, which falls with the square of their thickness.
  const series = (fourier: number, xOverL: number) => {
    let sum = 0;
    for (let n = 0; n < 200; n += 1) {
      const m = 2 * n + 1;
      sum +=
        ((n % 2 === 0 ? 1 : -1) / m) *
        Math.exp((-(m * m) * Math.PI ** 2 * fourier) / 4) *
        Math.cos((m * Math.PI * xOverL) / 2);
    }
    return (4 / Math.PI) * sum;
  };
  for (const hours of [2, 8, 24]) {
    test(`conduct() gives the temperatures of the series in a slab after ${hours} h`, () => {
      const conductivity = 0.5;
      const pile = slab(inert(conductivity), { layerCount: 20 });
      const layerM = 0.3 / 20;
      const volumeHeat = pile.material.looseBulkKgM3 * pile.material.dryHeatJKgK;
      const fourier = ((conductivity / volumeHeat) * hours * 3600) / 0.3 ** 2;
      conductFor(pile, { leaveWM2K: conductivity / (layerM / 2), balanceC: 20 }, hours, 60);
      pile.layers.forEach((layer, i) => {
        const fromInsulated = 1 - (i + 0.5) / 20;
        expect(Math.abs(layer.tempC - (20 + 40 * series(fourier, fromInsulated)))).toBeLessThan(0.3);
      });
    });
  }
  test('conduct() with four times the layers is at least ten times nearer to the series', () => {
    const errorOf = (layerCount: number) => {
      const conductivity = 0.5;
      const pile = slab(inert(conductivity), { layerCount });
      const volumeHeat = pile.material.looseBulkKgM3 * pile.material.dryHeatJKgK;
      const fourier = ((conductivity / volumeHeat) * 8 * 3600) / 0.3 ** 2;
      conductFor(pile, { leaveWM2K: conductivity / (0.3 / layerCount / 2), balanceC: 20 }, 8, 20);
      const errors = pile.layers.map((layer, i) =>
        Math.abs(layer.tempC - (20 + 40 * series(fourier, 1 - (i + 0.5) / layerCount))),
      );
      return Math.max(...errors);
    };
    expect(errorOf(20)).toBeLessThan(errorOf(5) / 10);
  });
});

describe('adiabatic rise', () => {
  // 1 % of the dry mass burnt as glucose in a pile of 60 % moisture, dry heat 1.05 kJ/kg K (Haug 1993, from memory),
  // lifts it by 21.2 K: 0.4 * 0.01 * 15.56 MJ / 2.932 kJ/kg K (computed). 0.1 K: rounding.
  const dryHeat = 1050;
  const moist = 0.4 * dryHeat + 0.6 * 4186;
  test('burning 1 % of dry matter as glucose lifts a pile of 60 % by 21.2 K', () => {
    expect(moist).toBeCloseTo(2932, -1);
    expect(Math.abs((0.4 * 0.01 * heatPerOxygenJKg * oxidationOf(6, 12, 6).oxygenKgKg) / moist - 21.2)).toBeLessThan(
      0.1,
    );
  });
  test('stepPile() warms the heart of a very deep pile by what is burnt there, to 1 %', () => {
    // 5 m deep under a closed sheet, on a floor that takes no heat: nothing reaches its middle in two days.
    const pile = createPile({
      ingredients: [
        {
          material: { ...blendOf([{ material: materials['wheat-bran'], dryKg: 1 }]), dryHeatJKgK: dryHeat },
          massKg: 1e6,
        },
      ],
      moistureFrac: 0.6,
      doseFrac: 0.01,
      depthM: 5,
      tempC: 20,
      startMs: 0,
      cover: 'closed',
      groundWmK: 0,
      layerCount: 20,
    });
    const heart = pile.layers[10];
    if (heart === undefined) throw new Error('no heart');
    // Oxygen for the whole run is put in by hand, for no air reaches the middle.
    for (const layer of pile.layers) layer.oxygenFrac = 100;
    const capacity = heatCapacityJM2K(heart, pile.material);
    const dry = () => heart.readyKgM2 + heart.slowKgM2 + heart.mesophilesKgM2 + heart.thermophilesKgM2 + heart.deadKgM2;
    const dryBefore = dry();
    for (let step = 0; step < 24 * 12; step += 1) stepPile(pile, steadyAir(), 300);
    const rise = heart.tempC - 20;
    const expected = ((dryBefore - dry()) * heatPerStarchJKg) / capacity;
    expect(rise).toBeGreaterThan(10);
    expect(Math.abs(rise / expected - 1)).toBeLessThan(0.01);
  });
});
