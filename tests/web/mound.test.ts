/**
 * The drawn mound: its outline, what it is coloured by, its dots, its labels and its words.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { PileSummary } from '../../shared/contracts/piles.ts';
import { plainReader } from '../../shared/messages/format.ts';
import { pageMoundTexts } from '../../shared/messages/made/en/page-mound.ts';
import { pageWords } from '../../web/src/data/live/page-texts.ts';
import { readingWords } from '../../web/src/ui/format/quantity-words.ts';
import {
  dampFraction,
  dampWords,
  moundDamp,
  moundHeat,
  moundInWords,
  moundLabels,
} from '../../web/src/ui/mound/mound-facts.ts';
import { labelRows, probePoint, spreadRows } from '../../web/src/ui/mound/mound-layout.ts';
import { drawing, drawnHeight, moundShape, shellPoints, skinYAt } from '../../web/src/ui/mound/mound-shape.ts';
import { shellFill } from '../../web/src/ui/mound/shell-fill.ts';
import { stipple } from '../../web/src/ui/mound/stipple.ts';

const at = '2031-06-11T10:00:00.000Z';
const nowMs = Date.parse(at);
const place = (temperatureC: number | undefined, more: Partial<PileSummary['positions']['core']> = {}) => ({
  probe: 'p',
  ...(temperatureC === undefined ? {} : { temperatureC }),
  at,
  silent: false,
  ...more,
});

const words = pageWords(pageMoundTexts, plainReader(0));

describe('moundShape()', () => {
  test('stands on the ground, within the drawing, higher the deeper the bed', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.02, max: 3, noNaN: true }), fc.string(), (depthM, seed) => {
        const { skin, groundY } = moundShape(depthM, seed);
        expect(skin[0]?.y).toBeCloseTo(groundY, 6);
        expect(skin.at(-1)?.y).toBeCloseTo(groundY, 6);
        for (const { x, y } of skin) {
          expect(x).toBeGreaterThanOrEqual(0);
          expect(x).toBeLessThanOrEqual(drawing.width);
          expect(y).toBeGreaterThan(0);
          expect(y).toBeLessThanOrEqual(groundY + 1e-9);
        }
      }),
      { seed: 3, numRuns: 60 },
    );
    expect(drawnHeight(0.38)).toBeGreaterThan(drawnHeight(0.2));
  });
  test('is the same for the same pile and not for another', () => {
    expect(moundShape(0.3, 'north')).toEqual(moundShape(0.3, 'north'));
    expect(moundShape(0.3, 'north').skin).not.toEqual(moundShape(0.3, 'south').skin);
  });
  test('each shell lies inside the one around it', () => {
    const shape = moundShape(0.3, 'north');
    const extent = (inward: number) => {
      const xs = shellPoints(shape, inward).map((point) => point.x);
      return Math.max(...xs) - Math.min(...xs);
    };
    for (let inward = 0; inward < 0.9; inward += 0.1) expect(extent(inward + 0.1)).toBeLessThan(extent(inward));
  });
  test('the skin has no height beside the pile', () => {
    const shape = moundShape(0.3, 'north');
    expect(skinYAt(shape, -5)).toBeUndefined();
    expect(skinYAt(shape, drawing.width)).toBeUndefined();
    expect(skinYAt(shape, shape.centreX)).toBeLessThan(shape.groundY - 50);
  });
});

describe('a doubted temperature', () => {
  const core = place(70, { doubted: { fromC: 46, fromAt: at } });
  test('keeps its number, with a question mark, and colours nothing', () => {
    expect(moundLabels({ core }, 'C', words)).toEqual([
      { position: 'core', silent: false, doubted: true, text: '70.0\u00a0°C?', tempC: null },
    ]);
    expect(moundHeat({ core }).coreC).toBeNull();
  });
  test('is told with what it jumped from', () => {
    expect(moundInWords({ core }, 'C', nowMs, words)).toContain('core 70.0\u00a0°C, doubted: a jump from 46.0\u00a0°C');
    expect(moundInWords({ core }, 'F', nowMs, words)).toContain('a jump from 114.8\u00a0°F');
  });
  test('of a probe gone silent since is told as silent', () => {
    expect(moundLabels({ core: { ...core, silent: true } }, 'C', words)[0]).toMatchObject({
      text: 'silent',
      doubted: false,
    });
  });
});

describe('colour of a shell', () => {
  const rows: [number | null, number | null, number, { tempC: number; opacity: number } | null][] = [
    [20, 60, 0, { tempC: 20, opacity: 1 }],
    [20, 60, 0.5, { tempC: 40, opacity: 1 }],
    [null, 60, 0, { tempC: 60, opacity: 0 }],
    [null, 60, 1, { tempC: 60, opacity: 1 }],
    [20, null, 1, { tempC: 20, opacity: 0 }],
    [null, null, 0.5, null],
  ];
  for (const [skinC, coreC, inward, fill] of rows) {
    test(`skin ${skinC}, core ${coreC}, ${inward} inward: ${fill ? `${fill.tempC} °C at ${fill.opacity}` : 'bare'}`, () => {
      expect(shellFill(skinC, coreC, inward)).toEqual(fill);
    });
  }
  test('a silent probe colours nothing; the edge stands in for a skin nobody measures', () => {
    expect(moundHeat({ core: place(44, { silent: true }), edge: place(30) })).toEqual({
      topC: 30,
      coreC: null,
      baseC: 30,
    });
  });
});

describe('damp', () => {
  test('rises from bone-dry to wet bran and stays within its ends', () => {
    expect([0, 0.2, 0.425, 0.65, 1].map(dampFraction)).toEqual([0, 0, expect.closeTo(0.5), 1, 1]);
  });
  test('comes from the water balance, never from soil probes, whose per cent are of volume, nor from humidity', () => {
    const batch = { moisture: { frac: 0.425, sdFrac: 0.05 } } as PileSummary['batch'];
    const half = expect.closeTo(0.5);
    expect(moundDamp({ batch })).toEqual({ topFrac: half, coreFrac: half, baseFrac: half });
    expect(moundDamp({ batch: null })).toBeNull();
    const probed = { batch: null, positions: { core: place(40, { moisturePct: 42.5, humidityPct: 99 }) } };
    expect([moundDamp(probed), dampWords(probed, words)]).toEqual([null, undefined]);
  });
  test('the words say what the dots rest on, and of what they are per cent', () => {
    const batch = { moisture: { frac: 0.37, sdFrac: 0.06 } } as PileSummary['batch'];
    expect(dampWords({ batch }, words)).toBe(
      'The dots show moisture by the water balance: about 37 % of the wet mass, likely 31 to 43 %.',
    );
  });
  test('a soil probe’s reading is named for what it is, in the drawing’s words too', () => {
    const said = moundInWords({ core: place(40, { moisturePct: 32.4 }) }, 'C', 0, words);
    expect(said).toContain('soil probe’s moisture 32\u00a0% of volume');
  });
  test('a chip that reads a little over saturation is read as 100 %', () => {
    expect(readingWords('humidity', 102.7, 'C')).toBe('humidity 100\u00a0%');
  });
  test('more damp adds dots between those already there, all inside the pile', () => {
    const shape = moundShape(0.3, 'north');
    const dots = (frac: number) => stipple(shape, { topFrac: frac, coreFrac: frac, baseFrac: frac });
    expect(dots(0)).toEqual([]);
    expect(dots(0.8)).toEqual(expect.arrayContaining(dots(0.4)));
    expect(dots(0.8).length).toBeGreaterThan(1.6 * dots(0.4).length);
    for (const { x, y } of dots(1)) {
      expect(y).toBeGreaterThan(skinYAt(shape, x) ?? Number.POSITIVE_INFINITY);
      expect(y).toBeLessThan(shape.groundY);
    }
  });
});

describe('labels', () => {
  test('keep their gap, their order and the bounds', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -50, max: 250, noNaN: true }), { minLength: 1, maxLength: 5 }),
        (wanted) => {
          const rows = spreadRows(wanted, 27, 14, 166);
          rows.forEach((y, i) => {
            expect(y).toBeLessThanOrEqual(166);
            if (i > 0) expect(y - (rows[i - 1] as number)).toBeGreaterThanOrEqual(27 - 1e-9);
          });
        },
      ),
      { seed: 5 },
    );
  });
  test('where there is room each stands at its probe', () => {
    expect(spreadRows([20, 100], 27, 14, 166)).toEqual([20, 100]);
  });
  test('five places fit beside the flattest bed', () => {
    const shape = moundShape(0.05, 'flat');
    const rows = labelRows(shape, ['top', 'core', 'edge', 'base', 'air']);
    expect(Math.min(...rows)).toBeGreaterThan(0);
    expect(rows).toHaveLength(5);
    for (const position of ['top', 'core', 'edge', 'base'] as const) {
      const { x, y } = probePoint(shape, position);
      expect(y).toBeGreaterThan(skinYAt(shape, x) ?? Number.POSITIVE_INFINITY);
      expect(y).toBeLessThan(shape.groundY);
    }
  });
  test('the number stands beside the colour, and "silent" beside none', () => {
    const labels = moundLabels(
      { core: place(50), base: place(33, { silent: true }), top: place(undefined) },
      'F',
      words,
    );
    expect(labels.map(({ position, text, tempC }) => [position, text, tempC])).toEqual([
      ['top', 'no heat probe', null],
      ['core', '122.0\u00a0°F', 50],
      ['base', 'silent', null],
    ]);
  });
  test('a pile without probes says so', () => {
    expect(moundInWords({}, 'C', nowMs, words)).toBe('Section of the pile: no probe claimed yet');
  });
});
