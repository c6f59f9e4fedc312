/** A pile that is not there yet, with the places where probes belong. */
import type { Position } from '../../../../shared/names.ts';
import { Ground } from './ground.tsx';
import { labelRows, labelX, probePoint } from './mound-layout.ts';
import { drawing, moundShape, pathOf } from './mound-shape.ts';
import { useMoundWords } from './use-mound-words.ts';

const places: readonly Position[] = ['top', 'core', 'edge', 'base', 'air'];

export function EmptyMound() {
  const { text } = useMoundWords();
  const shape = moundShape(0.3, 'welcome');
  const rows = labelRows(shape, places);
  return (
    <svg class="mound" viewBox={`0 12 290 ${drawing.height - 12}`} role="img" aria-label={text('page-mound.empty')}>
      <Ground />
      <path class="mound-skin mound-dashed" d={pathOf(shape.skin)} />
      {places.map((position, i) => {
        const point = probePoint(shape, position);
        const y = rows[i] ?? point.y;
        return (
          <g key={position}>
            {position === 'air' && <path class="mound-stake" d={`M${point.x} ${point.y}V${drawing.groundY}`} />}
            <path class="mound-leader" d={`M${point.x} ${point.y}L${labelX - 14} ${y}H${labelX - 5}`} />
            <circle class="mound-probe mound-probe-empty" cx={point.x} cy={point.y} r="4" />
            <text class="mound-place" x={labelX} y={y + 4.5}>
              {text('page-mound.place', { position })}
            </text>
          </g>
        );
      })}
    </svg>
  );
}
