/** A pile drawn as a mound in section. It never leaves a number out, or colours by a silent probe. */
import { useId, useMemo } from 'preact/hooks';
import type { Cover } from '../../../../shared/contracts/domain/batch.ts';
import type { PileSummary } from '../../../../shared/contracts/piles.ts';
import type { Position } from '../../../../shared/names.ts';
import { useServerNow } from '../../data/live/use-installation.ts';
import { usePrefs } from '../../data/prefs.ts';
import { heatColour, type Shade } from '../colour/heat-scale.ts';
import { useShade } from '../use-shade.ts';
import { Ground } from './ground.tsx';
import { moundDamp, moundHeat, moundInWords, moundLabels } from './mound-facts.ts';
import { labelRows, labelX, probePoint } from './mound-layout.ts';
import { drawing, type MoundShape, moundShape, pathOf, shellPath } from './mound-shape.ts';
import { shellFill } from './shell-fill.ts';
import { stipple } from './stipple.ts';
import { useMoundWords } from './use-mound-words.ts';

const shells = Array.from({ length: 16 }, (_, i) => i / 16);
/** Every so many shells one is outlined, like an isotherm. */
const contourEvery = 3;

const usualDepthM = { bran: 0.3, soil: 0.2 } as const;

interface MoundProps {
  readonly pile: Pick<PileSummary, 'id' | 'stage' | 'positions' | 'batch'>;
  readonly depthM?: number | undefined;
  readonly cover?: Cover | undefined;
  readonly large?: boolean;
}

export function Mound({ pile, depthM, cover, large = false }: MoundProps) {
  const words = useMoundWords();
  const { unit } = usePrefs();
  const shade = useShade();
  const nowMs = useServerNow();
  const depth = depthM ?? usualDepthM[pile.stage];
  const shape = useMemo(() => moundShape(depth, pile.id), [depth, pile.id]);
  const labels = moundLabels(pile.positions, unit, words);
  // Nobody knows how it is there: its probe is silent, or what it says is doubted.
  const unknown = new Set(labels.filter((label) => label.silent || label.doubted).map((label) => label.position));
  const damp = moundDamp(pile);
  const rows = labelRows(
    shape,
    labels.map((label) => label.position),
  );
  // Cut close above the skin, or above the first label when that stands higher.
  const topY = Math.min(rows[0] ?? drawing.groundY, ...shape.skin.map((point) => point.y)) - 16;
  const { width } = drawing;

  return (
    <svg
      class={`mound${large ? ' mound-large' : ''}`}
      viewBox={`0 ${topY.toFixed(0)} ${width} ${(drawing.height - topY).toFixed(0)}`}
      role="img"
      aria-label={moundInWords(pile.positions, unit, nowMs, words)}
    >
      <Ground />
      {pile.batch === null ? (
        <path class="mound-skin mound-dashed" d={pathOf(shape.skin)} />
      ) : (
        <>
          <Shells shape={shape} shade={shade} positions={pile.positions} />
          {damp && (
            <g class="mound-damp">
              {stipple(shape, damp).map(({ x, y }) => (
                <circle key={`${x},${y}`} cx={x.toFixed(1)} cy={y.toFixed(1)} r="0.95" />
              ))}
            </g>
          )}
          <Outline shape={shape} unknown={unknown} />
          {cover && cover !== 'open' && <Covering shape={shape} cover={cover} />}
        </>
      )}
      {large && depthM !== undefined && <DepthMeasure shape={shape} depthM={depthM} />}
      <Labels shape={shape} shade={shade} labels={labels} rows={rows} numberX={width - 1} />
    </svg>
  );
}

interface ShellsProps {
  readonly shape: MoundShape;
  readonly shade: Shade;
  readonly positions: PileSummary['positions'];
}

function Shells({ shape, shade, positions }: ShellsProps) {
  // The same pile may be drawn twice on a page.
  const id = useId();
  const { topC, coreC, baseC } = moundHeat(positions);
  return (
    <>
      <path class="mound-bare" d={shellPath(shape, 0)} />
      {shells.map((inward, i) => {
        const above = shellFill(topC, coreC, inward);
        const below = shellFill(baseC, coreC, inward);
        const gradientId = `shell-${id}-${i}`;
        return (
          <g key={inward}>
            <linearGradient id={gradientId} x1="0" y1="0" x2="0" y2="1">
              <Stop at="0" fill={above} shade={shade} />
              <Stop at="0.5" fill={between(above, below)} shade={shade} />
              <Stop at="1" fill={below} shade={shade} />
            </linearGradient>
            <path
              class={i > 0 && i % contourEvery === 0 ? 'mound-shell mound-contour' : 'mound-shell'}
              d={shellPath(shape, inward)}
              fill={`url(#${gradientId})`}
            />
          </g>
        );
      })}
    </>
  );
}

type Fill = ReturnType<typeof shellFill>;

function between(above: Fill, below: Fill): Fill {
  if (!above || !below)
    return above ? { ...above, opacity: above.opacity / 2 } : below && { ...below, opacity: below.opacity / 2 };
  return { tempC: (above.tempC + below.tempC) / 2, opacity: (above.opacity + below.opacity) / 2 };
}

function Stop({ at, fill, shade }: { at: string; fill: Fill; shade: Shade }) {
  return (
    <stop
      offset={at}
      stop-color={heatColour(fill?.tempC ?? 20, shade)}
      stop-opacity={(fill?.opacity ?? 0).toFixed(2)}
    />
  );
}

function Outline({ shape, unknown }: { shape: MoundShape; unknown: ReadonlySet<Position> }) {
  const skinUnknown = unknown.has('top') || unknown.has('edge');
  const left = shape.centreX - shape.halfWidth;
  return (
    <>
      <path class={`mound-skin${skinUnknown ? ' mound-dashed' : ''}`} d={pathOf(shape.skin)} />
      {unknown.has('core') && <path class="mound-skin mound-dashed" d={shellPath(shape, 0.6)} />}
      {unknown.has('base') && (
        <path class="mound-skin mound-dashed" d={`M${left + 12} ${shape.groundY - 5}h${2 * shape.halfWidth - 24}`} />
      )}
    </>
  );
}

/** Straw or cloth as loose strokes, a sheet as an even line. */
function Covering({ shape, cover }: { shape: MoundShape; cover: Cover }) {
  const above = shape.skin.map(({ x, y }) => ({ x: shape.centreX + (x - shape.centreX) * 1.025, y: y - 4.5 }));
  if (cover === 'closed') return <path class="mound-cover" d={pathOf(above.slice(3, -3))} />;
  const strokes = above.slice(4, -4).map(({ x, y }, i) => {
    const [before, after] = [above[i + 3], above[i + 5]];
    if (!before || !after) return '';
    // Each straw lies along the skin, a little askew.
    const angle = Math.atan2(after.y - before.y, after.x - before.x) + (((i * 7) % 5) - 2) * 0.13;
    const [alongX, alongY] = [Math.cos(angle) * 4.6, Math.sin(angle) * 4.6];
    return `M${(x - alongX).toFixed(1)} ${(y - alongY).toFixed(1)}l${(2 * alongX).toFixed(1)} ${(2 * alongY).toFixed(1)}`;
  });
  return <path class="mound-cover" d={strokes.join('')} />;
}

function DepthMeasure({ shape, depthM }: { shape: MoundShape; depthM: number }) {
  const topY = Math.min(...shape.skin.map((point) => point.y));
  return (
    <g class="mound-measure">
      <path d={`M4 ${topY}h5M6.5 ${topY}V${shape.groundY}`} />
      <text x="11" y={topY + 4}>
        {Math.round(depthM * 100)} cm
      </text>
    </g>
  );
}

interface LabelsProps {
  readonly shape: MoundShape;
  readonly shade: Shade;
  readonly labels: ReturnType<typeof moundLabels>;
  readonly rows: readonly number[];
  readonly numberX: number;
}

function Labels({ shape, shade, labels, rows, numberX }: LabelsProps) {
  const { text } = useMoundWords();
  return (
    <g class="mound-labels">
      {labels.map((label, i) => {
        const point = probePoint(shape, label.position);
        const y = rows[i] ?? point.y;
        return (
          <g key={label.position} class={label.silent ? 'mound-silent' : label.doubted ? 'mound-doubted' : ''}>
            {label.position === 'air' && <path class="mound-stake" d={`M${point.x} ${point.y}V${drawing.groundY}`} />}
            <path class="mound-casing" d={`M${point.x} ${point.y}L${labelX - 14} ${y}H${labelX - 5}`} />
            <path class="mound-leader" d={`M${point.x} ${point.y}L${labelX - 14} ${y}H${labelX - 5}`} />
            <circle class="mound-casing" cx={point.x} cy={point.y} r="4" />
            <circle
              class="mound-probe"
              cx={point.x}
              cy={point.y}
              r="4"
              fill={label.tempC === null ? 'transparent' : heatColour(label.tempC, shade)}
            />
            <text class="mound-place" x={labelX} y={y + 4.5}>
              {text('page-mound.place', { position: label.position })}
            </text>
            <text class="mound-number" x={numberX} y={y + 5} text-anchor="end">
              {label.text}
            </text>
          </g>
        );
      })}
    </g>
  );
}
