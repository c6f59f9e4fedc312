/** The estimate on a rule from dry to wet: the wanted band, the estimate, its doubt. */
import type { MoistureBand } from './water-words.ts';
import './batch-ruler.css';
import './moisture.css';

const rule = { width: 330, height: 44, edge: 14, lineY: 20, lowFrac: 0.2, highFrac: 0.8 } as const;

/** Drawn only; its words stand above it. */
export function MoistureRule({
  moisture,
  band,
}: {
  readonly moisture: { readonly frac: number; readonly sdFrac: number };
  readonly band: MoistureBand;
}) {
  const { width, height, edge, lineY, lowFrac, highFrac } = rule;
  const x = (frac: number) => {
    const part = (Math.min(highFrac, Math.max(lowFrac, frac)) - lowFrac) / (highFrac - lowFrac);
    return edge + part * (width - 2 * edge);
  };
  const [from, to] = [x(moisture.frac - moisture.sdFrac), x(moisture.frac + moisture.sdFrac)];
  return (
    <svg class="moisture-rule" viewBox={`0 0 ${width} ${height}`} aria-hidden="true">
      <rect
        class="ruler-usual"
        x={x(band.minFrac)}
        y={lineY - 8}
        width={x(band.maxFrac) - x(band.minFrac)}
        height="8"
      />
      <path class="ruler-line" d={`M${edge} ${lineY}H${width - edge}`} />
      {[0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8].map((frac) => (
        <g key={frac}>
          <path class="ruler-line" d={`M${x(frac)} ${lineY}v5`} />
          <text class="moisture-number" x={x(frac)} y={height - 4} text-anchor="middle">
            {Math.round(frac * 100)}
          </text>
        </g>
      ))}
      <path class="moisture-doubt" d={`M${from} ${lineY - 12}v8M${from} ${lineY - 8}H${to}M${to} ${lineY - 12}v8`} />
      <circle class="ruler-now" cx={x(moisture.frac)} cy={lineY - 8} r="4.5" />
    </svg>
  );
}
