/**
 * Colours of the page and of the drawn heat: contrast by WCAG 2.2, and what colour-blind readers can tell apart.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { lineStyles } from '../../web/src/charts/line-style.ts';
import { heatColour, heatOklab, type Shade } from '../../web/src/ui/colour/heat-scale.ts';
import {
  distance,
  hexFromLinear,
  linearFromOklab,
  mixTriple,
  oklabFromOklch,
  type Triple,
} from '../../web/src/ui/colour/oklab.ts';
import { contrastRatio, linearFromHex, oklabFromLinear } from '../helpers/colour-checks.ts';

const css = readFileSync(new URL('../../web/src/ui/style/tokens.css', import.meta.url), 'utf8');

/** Each token stands once, with its colour in light and in dark. */
const pairs = [...css.matchAll(/--([a-z-]+): light-dark\((#[0-9a-f]{6,8}), (#[0-9a-f]{6,8})\);/g)];
const tokens: Record<Shade, Record<string, string>> = {
  light: Object.fromEntries(pairs.map(([, name, light]) => [name, light])),
  dark: Object.fromEntries(pairs.map(([, name, , dark]) => [name, dark])),
};
const shades: readonly Shade[] = ['light', 'dark'];

/** A colour of a token; alpha is put over the paper first. */
function colour(shade: Shade, name: string): string {
  const hex = tokens[shade][name];
  if (hex === undefined) throw new Error(`No token --${name} in ${shade}`);
  if (hex.length === 7) return hex;
  const alpha = Number.parseInt(hex.slice(7), 16) / 255;
  const channels = (of: string) => [1, 3, 5].map((at) => Number.parseInt(of.slice(at, at + 2), 16));
  const under = channels(colour(shade, 'paper'));
  const mixed = channels(hex).map((value, i) => Math.round((under[i] ?? 0) + (value - (under[i] ?? 0)) * alpha));
  return `#${mixed.map((value) => value.toString(16).padStart(2, '0')).join('')}`;
}

describe('contrastRatio()', () => {
  test('black on white is 21, the largest there is', () => {
    expect(contrastRatio('#000000', '#ffffff')).toBeCloseTo(21, 10);
  });
  // WCAG 2.2, definition of contrast ratio. That #767676 is the darkest-grey example with 4.54 is from memory.
  test('grey #767676 on white is 4.54, just enough for text', () => {
    expect(contrastRatio('#767676', '#ffffff')).toBeCloseTo(4.54, 2);
  });
});

describe('Oklab', () => {
  test('white is lightness 1 without colour', () => {
    const [lightness, a, b] = oklabFromLinear([1, 1, 1]);
    expect(lightness).toBeCloseTo(1, 4);
    expect(Math.hypot(a, b)).toBeLessThan(1e-4);
  });
  // sRGB red is L 0.628, a 0.225, b 0.126 (Ottosson 2020, read second-hand through the CSS Color 4 samples).
  test('pure red is at the published place', () => {
    const [lightness, a, b] = oklabFromLinear([1, 0, 0]);
    expect(lightness).toBeCloseTo(0.628, 3);
    expect(a).toBeCloseTo(0.225, 3);
    expect(b).toBeCloseTo(0.126, 3);
  });
  test('a colour comes back from Oklab as it went', () => {
    for (const hex of ['#8f2708', '#f5f8f5', '#0b5560', '#010203']) {
      expect(hexFromLinear(linearFromOklab(oklabFromLinear(linearFromHex(hex))))).toBe(hex);
    }
  });
  test('OKLCH at hue 90 lies on the b axis', () => {
    const [, a, b] = oklabFromOklch({ lightness: 0.5, chroma: 0.1, hueDeg: 90 });
    expect(a).toBeCloseTo(0, 12);
    expect(b).toBeCloseTo(0.1, 12);
  });
});

describe('tokens', () => {
  test('every colour has one for light and one for dark', () => {
    expect(pairs.length).toBeGreaterThan(20);
    expect([...css.matchAll(/^ *--[a-z-]+: (?!light-dark).*#[0-9a-f]{3,8}/gm)].map(([line]) => line)).toEqual([]);
  });

  // WCAG 2.2, 1.4.3: text needs 4.5; 1.4.11: parts needed to understand a graphic or a control need 3.
  const text: [string, string][] = [
    ...['paper', 'paper-raised', 'paper-sunk'].flatMap((ground): [string, string][] =>
      ['ink', 'ink-soft', 'accent', 'danger', 'act', 'watch', 'calm'].map((word) => [word, ground]),
    ),
    ...['core', 'top', 'base', 'edge', 'air'].map((line): [string, string] => [`line-${line}`, 'paper']),
    ['on-accent', 'accent'],
    ['heat', 'paper'],
    ['paper', 'ink'],
  ];
  const graphic: [string, string][] = [
    ['rule-strong', 'paper'],
    ['rule-strong', 'paper-raised'],
    ['focus', 'paper'],
    ['focus', 'paper-raised'],
    ['focus', 'paper-sunk'],
    ...['core', 'top', 'base', 'edge', 'air'].map((line): [string, string] => [`line-${line}`, 'band']),
  ];
  for (const shade of shades) {
    for (const [front, back] of text) {
      // Read in the sun: 1.4.6 asks 7 of text, and what a line says is read from it.
      const least = shade === 'light' ? 7 : 4.5;
      test(`${front} on ${back} in ${shade} can be read: ${least} or more`, () => {
        expect(contrastRatio(colour(shade, front), colour(shade, back))).toBeGreaterThanOrEqual(least);
      });
    }
    for (const [front, back] of graphic) {
      test(`${front} beside ${back} in ${shade} can be seen: 3 or more`, () => {
        expect(contrastRatio(colour(shade, front), colour(shade, back))).toBeGreaterThanOrEqual(3);
      });
    }
  }
});

/**
 * How a full red-blind or green-blind eye sees linear sRGB. G. M. Machado, M. M. Oliveira, L. A. F. Fernandes, "A
 * physiologically-based model for simulation of color vision deficiency", IEEE TVCG 15, 2009, table for severity 1.0
 * (read second-hand, alike in two public libraries).
 */
const eyes: Record<string, readonly Triple[]> = {
  protanopia: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deuteranopia: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
};

function seenBy(eye: readonly Triple[], hex: string): Triple {
  const rgb = linearFromHex(hex);
  const channel = (row: Triple) => Math.min(1, Math.max(0, row[0] * rgb[0] + row[1] * rgb[1] + row[2] * rgb[2]));
  const [r, g, b] = eye.map(channel);
  return oklabFromLinear([r ?? 0, g ?? 0, b ?? 0]);
}

describe('heat scale', () => {
  const temps = Array.from({ length: 13 }, (_, i) => 10 + 5 * i);

  test('the eyes simulated leave white white: rows sum to 1', () => {
    for (const eye of Object.values(eyes)) {
      for (const row of eye) expect(row[0] + row[1] + row[2]).toBeCloseTo(1, 5);
    }
  });

  for (const shade of shades) {
    test(`every colour in ${shade} is one a screen can show`, () => {
      for (let tempC = 10; tempC <= 70; tempC += 0.5) {
        for (const channel of linearFromOklab(heatOklab(tempC, shade))) {
          expect(channel).toBeGreaterThanOrEqual(-0.002);
          expect(channel).toBeLessThanOrEqual(1.002);
        }
      }
    });

    test(`equal steps of heat are equal steps to the eye in ${shade}`, () => {
      const steps = temps
        .slice(1)
        .map((tempC, i) => distance(heatOklab(temps[i] as number, shade), heatOklab(tempC, shade)));
      // A chord is a little shorter than its arc where the path bends; 3 % covers that.
      expect(Math.min(...steps) / Math.max(...steps)).toBeGreaterThan(0.97);
    });

    test(`lightness runs one way only in ${shade}, also for colour-blind eyes`, () => {
      const views = [
        temps.map((tempC) => heatOklab(tempC, shade)[0]),
        ...Object.values(eyes).map((eye) => temps.map((tempC) => seenBy(eye, heatColour(tempC, shade))[0])),
      ];
      const way = shade === 'light' ? -1 : 1;
      for (const view of views) {
        view.slice(1).forEach((lightness, i) => {
          expect((lightness - (view[i] as number)) * way).toBeGreaterThan(0);
        });
      }
    });

    for (const [name, eye] of Object.entries(eyes)) {
      test(`10 °C apart can be told apart in ${shade} with ${name}`, () => {
        // Twice the 0.02 that is just told apart side by side in Oklab.
        for (const tempC of temps.slice(2)) {
          expect(
            distance(seenBy(eye, heatColour(tempC, shade)), seenBy(eye, heatColour(tempC - 10, shade))),
          ).toBeGreaterThan(0.04);
        }
      });
    }
  }

  test('beyond its ends the scale stays at its ends', () => {
    expect(heatColour(-40, 'light')).toBe(heatColour(10, 'light'));
    expect(heatColour(125, 'dark')).toBe(heatColour(70, 'dark'));
  });

  test('between two kept samples a colour lies between theirs', () => {
    const middle = mixTriple(heatOklab(40, 'light'), heatOklab(40.25, 'light'), 0.5);
    expect(distance(heatOklab(40.125, 'light'), middle)).toBeLessThan(1e-6);
  });
});

test('lines of a chart differ in dash, not in colour alone', () => {
  const dashes = Object.values(lineStyles).map((style) => style.dash.join(' '));
  expect(new Set(dashes).size).toBe(dashes.length);
});
