/** Many batches as small drawings beside each other, all on the same scale. */
import { useMemo } from 'preact/hooks';
import type { AlignBy } from '../../../../core/seasons/align.ts';
import type { AgedCurve } from '../../../../shared/contracts/seasons.ts';
import { plainNumber, type TempUnit, tempIn, unitSigns } from '../../ui/format/temperature.ts';
import { frameOf, pathOf, type Size, xOf, yOf } from './overlay-shape.ts';
import { useSeasonWords } from './use-season-words.ts';
import './season.css';

interface ApartProps {
  readonly curves: readonly AgedCurve[];
  readonly nameOf: (id: string) => string;
  readonly by: AlignBy;
  readonly unit: TempUnit;
}

/** The culture's working heat, by which the small drawings are read [°C]. */
const fineLineC = 40;

const size: Size = { width: 220, height: 110, left: 26, right: 4, top: 6, bottom: 16 };

export function Apart({ curves, nameOf, by, unit }: ApartProps) {
  const { text } = useSeasonWords();
  const frame = useMemo(() => {
    const core = frameOf(curves, by, 'coreC');
    const air = frameOf(curves, by, 'airC');
    return core && { ...core, lowC: Math.min(core.lowC, air?.lowC ?? core.lowC) };
  }, [curves, by]);
  if (!frame) return <p class="quiet">{text('page-seasons.not-measured')}</p>;
  const ticks = [frame.lowC, fineLineC, frame.highC].filter((tempC, i, all) => all.indexOf(tempC) === i);
  return (
    <>
      <p class="hint no-print">
        {text('page-seasons.apart.hint', {
          unitText: unitSigns[unit],
          dayCount: Math.round((frame.toH - frame.fromH) / 24),
          limitC: { valueC: fineLineC, decimals: 0 },
        })}
      </p>
      <ul class="apart">
        {curves.map((curve) => {
          const measured = curve.coreC.filter((value): value is number => value !== null);
          const most = measured.length > 0 ? Math.max(...measured) : null;
          return (
            <li key={curve.id}>
              <svg
                viewBox={`0 0 ${size.width} ${size.height}`}
                role="img"
                aria-label={text('page-seasons.apart.one', {
                  batchName: nameOf(curve.id),
                  isMeasured: most !== null,
                  mostC: { valueC: most ?? 0, decimals: 1 },
                })}
              >
                {ticks.map((tempC) => (
                  <g key={tempC}>
                    <path
                      class="curve-grid"
                      d={`M${size.left} ${yOf(tempC, frame, size)}H${size.width - size.right}`}
                    />
                    <text class="curve-tick" x={size.left - 4} y={yOf(tempC, frame, size) + 4} text-anchor="end">
                      {plainNumber(tempIn(unit, tempC), 0)}
                    </text>
                  </g>
                ))}
                <text class="curve-tick" x={xOf(0, frame, size)} y={size.height - 3}>
                  0
                </text>
                <text class="curve-tick" x={size.width - size.right} y={size.height - 3} text-anchor="end">
                  {text('page-seasons.apart.days', { dayNumber: Math.round(frame.toH / 24) })}
                </text>
                <path class="curve-line curve-air" d={pathOf(curve, by, 'airC', frame, size)} />
                <path class="curve-line curve-a" d={pathOf(curve, by, 'coreC', frame, size)} />
              </svg>
              <a href={`/batches/${encodeURIComponent(curve.id)}`}>{nameOf(curve.id)}</a>
            </li>
          );
        })}
      </ul>
    </>
  );
}
