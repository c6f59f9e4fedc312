/** The temperatures of a batch as one small drawing for paper. */
import type { BatchRecordSheet } from '../../../../shared/contracts/records.ts';
import { positions } from '../../../../shared/names.ts';
import { msPerDay } from '../../../../shared/units.ts';
import { plainNumber, type TempUnit, tempIn, unitSigns } from '../../ui/format/temperature.ts';
import { Scrollable } from '../../ui/parts/scrollable.tsx';
import { factsLine } from '../batch/batch-words.ts';
import { useBatchWords } from '../batch/use-batch-words.ts';
import { type RecordWords, useRecordWords } from './use-record-words.ts';
import './records.css';

type Curves = BatchRecordSheet['curves']['temperatureC'];
type ByHand = BatchRecordSheet['curves']['byHand'];

const size = { width: 720, height: 260, left: 40, right: 62, top: 12, bottom: 26 } as const;

export interface CurveFrame {
  readonly fromMs: number;
  readonly toMs: number;
  readonly lowC: number;
  readonly highC: number;
}

/** The time and the tens of degrees that hold every bucket and every point; undefined without any. */
export function frameOf(curves: Curves, byHand: ByHand): CurveFrame | undefined {
  const points = [
    ...curves.flatMap((curve) => curve.points),
    ...byHand.map(({ at, temperatureC }) => ({ at, min: temperatureC, max: temperatureC })),
  ];
  if (points.length === 0) return undefined;
  const times = points.map((point) => Date.parse(point.at));
  const lowC = Math.floor(Math.min(...points.map((point) => point.min)) / 10) * 10;
  const highC = Math.ceil(Math.max(...points.map((point) => point.max)) / 10) * 10;
  const fromMs = Math.min(...times);
  return { fromMs, toMs: Math.max(...times, fromMs + 1), lowC, highC: Math.max(highC, lowC + 10) };
}

/** The line is broken where more than three buckets are missing: nobody knows what lay between. */
export function linePath(
  points: Curves[number]['points'],
  bucketMs: number,
  x: (atMs: number) => number,
  y: (tempC: number) => number,
): string {
  let path = '';
  let beforeMs = Number.NEGATIVE_INFINITY;
  for (const point of points) {
    const atMs = Date.parse(point.at);
    path += `${atMs - beforeMs > 3 * bucketMs ? 'M' : 'L'}${x(atMs).toFixed(1)} ${y(point.mean).toFixed(1)}`;
    beforeMs = atMs;
  }
  return path;
}

interface RecordCurvesProps {
  readonly curves: BatchRecordSheet['curves'];
  readonly unit: TempUnit;
}

/** Where everything stands in the drawing, and what is to be said of it. */
function drawingOf(
  { temperatureC, byHand }: RecordCurvesProps['curves'],
  frame: NonNullable<ReturnType<typeof frameOf>>,
  { text }: Pick<RecordWords, 'text'>,
) {
  const { fromMs, toMs, lowC, highC } = frame;
  const x = (atMs: number) => size.left + ((atMs - fromMs) / (toMs - fromMs)) * (size.width - size.left - size.right);
  const y = (tempC: number) => size.top + ((highC - tempC) / (highC - lowC)) * (size.height - size.top - size.bottom);
  const tens = Array.from({ length: (highC - lowC) / 10 + 1 }, (_, index) => lowC + index * 10);
  const days = Array.from({ length: Math.floor((toMs - fromMs) / msPerDay) + 1 }, (_, index) => index);
  const everyDay = Math.max(1, Math.ceil(days.length / 12));
  const shown = positions.filter((position) => [...temperatureC, ...byHand].some((one) => one.position === position));
  const highest = shown.map((position) => {
    const most = Math.max(
      ...temperatureC.flatMap((curve) => (curve.position === position ? curve.points.map((point) => point.max) : [])),
      ...byHand.flatMap((one) => (one.position === position ? [one.temperatureC] : [])),
    );
    return text('page-records.curves.highest', { position, highestC: { valueC: most, decimals: 1 } });
  });
  // The last point of a place that has no curve to bear its name.
  const nameless = new Set(
    shown
      .filter((position) => !temperatureC.some((curve) => curve.position === position))
      .map((position) => byHand.findLast((one) => one.position === position)?.entryId),
  );
  const ends = spread(
    temperatureC.map(({ points }) => y(points.at(-1)?.mean ?? lowC)),
    14,
  );
  return { fromMs, x, y, tens, days, everyDay, highest, nameless, ends };
}

export function RecordCurves({ curves, unit }: RecordCurvesProps) {
  const words = useRecordWords();
  const { text } = words;
  const batchWords = useBatchWords();
  const { temperatureC, bucketMs, byHand } = curves;
  const frame = frameOf(temperatureC, byHand);
  if (!frame) return <p class="quiet">{text('page-records.curves.none')}</p>;
  const { fromMs, x, y, tens, days, everyDay, highest, nameless, ends } = drawingOf(curves, frame, words);
  const highestText = factsLine(highest, batchWords);
  return (
    <figure class="record-curves">
      <Scrollable label={text('page-records.curves.scroll')} class="record-scroll">
        <svg
          class="record-drawing"
          viewBox={`0 0 ${size.width} ${size.height}`}
          role="img"
          aria-label={text('page-records.curves.drawing', { highestText })}
        >
          {tens.map((tempC) => (
            <g key={tempC}>
              <path class="record-grid" d={`M${size.left} ${y(tempC)}H${size.width - size.right}`} />
              <text x={size.left - 6} y={y(tempC) + 4} text-anchor="end">
                {plainNumber(tempIn(unit, tempC), 0)}
              </text>
            </g>
          ))}
          {days
            .filter((day) => day % everyDay === 0)
            .map((day) => (
              <text key={day} x={x(fromMs + day * msPerDay)} y={size.height - 8} text-anchor="middle">
                {day + 1}
              </text>
            ))}
          {temperatureC.map(({ position, points }, index) => (
            <g key={position} class={`record-${position}`}>
              <path class="record-line" d={linePath(points, bucketMs, x, y)} />
              <text x={size.width - size.right + 6} y={(ends[index] ?? 0) + 4}>
                {text('page-records.place', { position })}
              </text>
            </g>
          ))}
          {byHand.map(({ position, at, temperatureC: tempC, entryId }) => (
            <g key={entryId} class={`record-${position}`}>
              <circle class="record-point" cx={x(Date.parse(at))} cy={y(tempC)} r="3" />
              {nameless.has(entryId) && (
                <text x={Math.min(x(Date.parse(at)) + 8, size.width - size.right + 6)} y={y(tempC) + 4}>
                  {text('page-records.place', { position })}
                </text>
              )}
            </g>
          ))}
        </svg>
      </Scrollable>
      <figcaption>
        {text('page-records.curves.caption', {
          unitText: unitSigns[unit],
          highestText,
          hasPoints: byHand.length > 0,
        })}
      </figcaption>
    </figure>
  );
}

/** Moves names apart so that none covers another. */
export function spread(at: readonly number[], apart: number): number[] {
  const order = at.map((place, index) => ({ place, index })).sort((one, other) => one.place - other.place);
  let before = Number.NEGATIVE_INFINITY;
  const result = [...at];
  for (const { place, index } of order) {
    before = Math.max(place, before + apart);
    result[index] = before;
  }
  return result;
}
