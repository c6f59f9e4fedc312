/** What the probes said beside what was so, at one hour and over a whole run. */
import type { PileSummary, PositionNow } from '../../../../shared/contracts/piles.ts';
import { toInstant } from '../../../../shared/contracts/time.ts';
import { type Message, message } from '../../../../shared/messages/message.ts';
import type { Position } from '../../../../shared/names.ts';
import type { Quantity } from '../../../../shared/quantity.ts';
import { msPerHour } from '../../../../shared/units.ts';
import type { TruthRow } from '../../../../simulator/practice/record.ts';
import type { PracticeReading } from '../../../../simulator/practice/scenarios/practice-scenario.ts';

export interface HourValue {
  readonly afterH: number;
  /** Null where nothing was said. */
  readonly value: number | null;
}

type Positions = PileSummary['positions'];

/** A probe that said nothing for so long counts as silent in the drawing. */
const silentAfterMs = msPerHour;

/** What one line of readings said at each hour of the record: the last value of that hour. */
export function saidByHour(
  readings: readonly PracticeReading[],
  truth: readonly TruthRow[],
  position: Position,
  quantity: Quantity,
): HourValue[] {
  const own = readings.filter((reading) => reading.position === position && reading.quantity === quantity);
  let next = 0;
  let last: PracticeReading | undefined;
  return truth.map(({ afterH, atMs }) => {
    for (; (own[next]?.atMs ?? Number.POSITIVE_INFINITY) <= atMs; next++) last = own[next];
    return { afterH, value: last && atMs - last.atMs < silentAfterMs ? last.value : null };
  });
}

/** The pile as its probes saw it. */
export function saidPositions(readings: readonly PracticeReading[], atMs: number): Positions {
  const said: Partial<Record<Position, PositionNow>> = {};
  for (const { probe, position, quantity, value, atMs: readAtMs } of readings) {
    if (readAtMs > atMs) continue;
    const before = said[position];
    said[position] = {
      ...before,
      probe,
      ...(quantity === 'temperature' && { temperatureC: value }),
      ...(quantity === 'humidity' && { humidityPct: value }),
      at: toInstant(readAtMs),
      silent: atMs - readAtMs >= silentAfterMs,
    };
  }
  return said;
}

/** The pile as it was; layers come from the top down. */
export function truePositions({ layers, airC, atMs }: TruthRow): Positions {
  const at = (index: number): PositionNow | undefined => {
    const layer = layers[index];
    return (
      layer && {
        probe: 'truth',
        temperatureC: layer.tempC,
        moisturePct: 100 * layer.moistureFrac,
        at: toInstant(atMs),
        silent: false,
      }
    );
  };
  const [top, core, base] = [at(0), at(Math.floor(layers.length / 2)), at(layers.length - 1)];
  return {
    ...(top && { top }),
    ...(core && { core }),
    ...(base && { base }),
    air: { probe: 'truth', temperatureC: airC, at: toInstant(atMs), silent: false },
  };
}

export interface CoreGap {
  readonly afterH: number;
  readonly saidC: number;
  readonly wasC: number;
}

/** The hour at which the core probe was furthest from the core; undefined when it never spoke. */
export function widestGap(truth: readonly TruthRow[], readings: readonly PracticeReading[]): CoreGap | undefined {
  const said = saidByHour(readings, truth, 'core', 'temperature');
  let widest: CoreGap | undefined;
  truth.forEach(({ afterH, coreC }, i) => {
    const saidC = said[i]?.value;
    if (saidC === null || saidC === undefined) return;
    if (!widest || Math.abs(saidC - coreC) > Math.abs(widest.saidC - widest.wasC))
      widest = { afterH, saidC, wasC: coreC };
  });
  return widest;
}

/** Below this the core probe is called right: its chip and its slowness explain the rest. */
const rightWithinK = 3;

/** The hour most worth looking at first: where the probe was most wrong, else where it was hottest. */
export function tellingHour(truth: readonly TruthRow[], readings: readonly PracticeReading[]): number {
  const gap = widestGap(truth, readings);
  if (gap && Math.abs(gap.saidC - gap.wasC) > rightWithinK) return gap.afterH;
  return truth.reduce((hottest, row) => (row.hottestC > hottest.hottestC ? row : hottest), truth[0] as TruthRow).afterH;
}

/** Of the open air, by volume. */
const outdoorsOxygenFrac = 0.21;

/** Where readings and truth parted, and what no probe could have said. */
export function parting(truth: readonly TruthRow[], readings: readonly PracticeReading[]): Message[] {
  const first = truth[0];
  const last = truth.at(-1);
  const gap = widestGap(truth, readings);
  if (!first || !last || !gap) return [];
  const parted = [coreMessage(gap)];
  const humid = saidByHour(readings, truth, 'core', 'humidity').flatMap(({ afterH, value }) =>
    value === null || afterH < 6 ? [] : [value],
  );
  const driest = truth.reduce((dry, row) => (row.moistureFrac < dry.moistureFrac ? row : dry), first);
  if (humid.length > 0 && first.moistureFrac - driest.moistureFrac > 0.04)
    parted.push(
      message('practice.said.humidity', {
        humidityFrac: Math.min(100, ...humid) / 100,
        firstFrac: first.moistureFrac,
        driestFrac: driest.moistureFrac,
      }),
    );
  const airless = truth.reduce((least, row) => (row.leastOxygenFrac < least.leastOxygenFrac ? row : least), first);
  if (airless.leastOxygenFrac < 0.05)
    parted.push(
      message('practice.said.airless', {
        hourNumber: airless.afterH,
        oxygenFrac: airless.leastOxygenFrac,
        outdoorsFrac: outdoorsOxygenFrac,
      }),
    );
  parted.push(message('practice.said.alive', { aliveFrac: last.aliveFrac }));
  return parted;
}

function coreMessage({ afterH, saidC, wasC }: CoreGap): Message {
  if (Math.abs(saidC - wasC) <= rightWithinK) return message('practice.said.core-right', { withinK: rightWithinK });
  return message('practice.said.core-wrong', {
    hourNumber: afterH,
    saidC: { valueC: saidC, decimals: 0 },
    wasC: { valueC: wasC, decimals: 0 },
  });
}
