import { expect, test } from 'vitest';
import { compactBand } from '../../../core/expect/compact-band.ts';
import { bandData, judgedFrom } from '../../../server/cluster/view-text.ts';
import { verbatim } from '../../../shared/messages/message.ts';

/** As the journal keeps it. */
const kept = (data: unknown): unknown => JSON.parse(JSON.stringify(data));

test('a curve comes back as it was, where a source says nothing too, without the ensemble', () => {
  const lines = { p10C: [20, Number.NaN], p50C: [30, 31], p90C: [40, Number.NaN], origin: verbatim('model') };
  const band = { fromMs: 1, stepMs: 2, ...lines, sources: { model: lines, own: lines, ownBatches: 3 } };
  const members = { count: 1, steps: 2, firstHour: 0, coreCentiC: Int16Array.of(100, 200) };
  const view = { assessment: null, band: kept(bandData({ ...band, members })) };
  expect(judgedFrom(view)).toEqual({ assessment: null, band });
});

test('a curve as a pile keeps it comes back with every line', () => {
  const lines = { p10C: [20.123, Number.NaN], p50C: [30, 31], p90C: [40, Number.NaN], origin: verbatim('model') };
  const band = {
    fromMs: 1,
    stepMs: 2,
    ...lines,
    airC: [15.5, 16],
    sources: { model: lines, own: lines, ownBatches: 3 },
  };
  expect(judgedFrom({ assessment: null, band: kept(bandData(compactBand(band))) })).toEqual({ assessment: null, band });
});

test('a curve of before bands had messages says where it comes from as it said', () => {
  const lines = { p10C: [20], p50C: [30], p90C: [40] };
  const band = { fromMs: 1, stepMs: 2, ...lines, origin: 'worked out' };
  expect(judgedFrom({ assessment: null, band }).band?.origin).toEqual(verbatim('worked out'));
});

test('a pile that nobody looked at yet has neither', () => {
  expect(judgedFrom(undefined)).toEqual({ assessment: null, band: null });
  expect(judgedFrom({ assessment: null, band: kept(bandData(null)) })).toEqual({ assessment: null, band: null });
});
