/** Parts of a pile's page: what is not known is said to be so, and a soil probe's moisture is set beside nothing it cannot be compared with. */
import { render } from 'preact-render-to-string';
import { expect, test, vi } from 'vitest';
import { unseenPile } from '../../server/services/views/unjudged-pile.ts';
import type { PileDetail } from '../../shared/contracts/piles.ts';
import { BatchRuler } from '../../web/src/features/pile/batch-ruler.tsx';
import { Limits } from '../../web/src/features/pile/limits.tsx';
import { Moisture } from '../../web/src/features/pile/moisture.tsx';
import { Warnings } from '../../web/src/features/pile/warnings.tsx';
import { WhyReadings } from '../../web/src/features/pile/why-readings.tsx';
import { ToneMark } from '../../web/src/ui/parts/marks.tsx';
import { mockFarm } from '../helpers/mock-farm.ts';

const nowMs = Date.parse('2031-06-11T10:00:00Z');
const onChange = async () => {};
const textOf = (html: string) => html.replaceAll(/<[^>]*>/g, '').replaceAll('\u00a0', ' ');
const barn = mockFarm(nowMs).piles.find(({ id }) => id === 'barn-bed');
if (!barn) throw new Error('the farm must have a barn bed');
const core = { probe: 'p1', temperatureC: 41, silent: false, at: '2031-06-11T09:59:00.000Z' };
const withoutProbe: PileDetail = { ...barn, positions: { core } };
const withProbe: PileDetail = { ...barn, positions: { core: { ...core, moisturePct: 31 } } };

test('a pile that was not judged yet is not known yet, neither calm nor without warnings', () => {
  const { tone, alarms, site } = unseenPile(
    { id: 'shed', siteId: 'yard', name: 'Shed', createdAtMs: nowMs },
    {
      id: 'b',
      pileId: 'shed',
      stage: 'bran',
      startedAtMs: nowMs,
      endedAtMs: null,
      outcome: null,
      recipe: {},
      limits: {},
    },
  );
  const mark = textOf(render(<ToneMark tone={tone} />));
  const warnings = textOf(render(<Warnings pile={{ id: 'shed', alarms, site, tone }} onChange={onChange} />));
  expect(mark).toBe('not known yet');
  expect(warnings).toContain('Whether anything is wrong is not known yet');
  expect(warnings).not.toContain('No warning stands');
  const judged = textOf(render(<Warnings pile={{ id: 'shed', alarms, site, tone: 'calm' }} onChange={onChange} />));
  expect(judged).toContain('No warning stands');
});

test('beside the water balance a soil probe is named, and said not to be comparable', () => {
  const said = textOf(render(<Moisture pile={withProbe} />));
  expect(said).toContain('The core’s soil probe says 31 % of volume.');
  expect(said).toContain('the two cannot be compared');
  expect(textOf(render(<Moisture pile={withoutProbe} />))).not.toContain('soil probe');
});

test('beside the limits for moisture a soil probe is said not to be comparable', () => {
  const said = textOf(render(<Limits pile={withProbe} onChange={onChange} />));
  expect(said).toContain('Moisture, wet basis');
  expect(said).toContain('These limits are per cent of the wet mass, so the two cannot be compared.');
  expect(textOf(render(<Limits pile={withoutProbe} onChange={onChange} />))).not.toContain('soil probe');
});

test('among the readings of a reason it is named as a soil probe’s', () => {
  const said = textOf(render(<WhyReadings pile={withProbe} kind="waterlogged" />));
  expect(said).toContain('soil probe’s moisture 31 % of volume');
  expect(said).toContain('The two cannot be set side by side');
});

test('the ruler of a batch says its day, and of how many', () => {
  vi.stubGlobal('innerWidth', 1440);
  const said = textOf(render(<BatchRuler pile={barn} />));
  vi.unstubAllGlobals();
  expect(said).toMatch(/^Day \d+, of a usual 5 to 10, laid \w/);
});

test('the ruler of a batch that lies longer than usual says so, and what to do', () => {
  vi.stubGlobal('innerWidth', 1440);
  const batch = barn.batch && { ...barn.batch, startedAt: '2001-05-14T10:00:00.000Z' };
  const [usual, long] = [barn, { ...barn, batch }].map((pile) => textOf(render(<BatchRuler pile={pile} />)));
  vi.unstubAllGlobals();
  expect(long).toContain('That is longer than usual: smell it and look at it');
  expect(usual).not.toContain('longer than usual');
});
