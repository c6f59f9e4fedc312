/** The pile's layers hour by hour, to the scale of their depth, coloured by what was so. */
import { useMemo } from 'preact/hooks';
import type { TruthRow } from '../../../../simulator/practice/record.ts';
import { heatColour } from '../../ui/colour/heat-scale.ts';
import { useShade } from '../../ui/use-shade.ts';
import { columnsOf, depthOf, hotRegions, knotsOf, regionPath, roundMarks, scaleOf, skinPath } from './cut-drawing.ts';
import { CutFrame, type CutShared } from './cut-frame.tsx';
import { usePracticeWords } from './use-practice-words.ts';
import './cut-open.css';

interface LayerCutProps extends CutShared {
  readonly truth: readonly TruthRow[];
  readonly limitC: number;
}

const height = 150;

export function LayerCut({ truth, limitC, ...frame }: LayerCutProps) {
  const { text } = usePracticeWords();
  const shade = useShade();
  const { x, width } = frame;
  const deepestM = Math.max(...truth.map(depthOf));
  const y = scaleOf(0, deepestM * 1.04, height, 0);
  const columns = useMemo(() => columnsOf(truth, Math.max(60, Math.round(width / 3))), [truth, width]);
  const regions = useMemo(() => hotRegions(truth, limitC), [truth, limitC]);
  const hottest = truth.reduce((hot, row) => (row.hottestC > hot.hottestC ? row : hot), truth[0] as TruthRow);
  const words = text('page-practice.cut.layers.aloud', {
    hottestC: { valueC: hottest.hottestC, decimals: 0 },
    hourNumber: hottest.afterH,
  });
  const over = text('page-practice.cut.layers.over', { limitC: { valueC: limitC, decimals: 0 } });
  return (
    <CutFrame
      {...frame}
      title={text('page-practice.cut.layers')}
      height={height}
      marks={roundMarks(0, deepestM, deepestM > 0.3 ? 0.2 : 0.1)}
      y={y}
      say={(depthM) => `${Math.round(depthM * 100)}`}
      words={words}
      numbers
      ends={[
        { words: text('page-practice.cut.layers.deep', { unitText: 'cm' }), y: 10, class: 'cut-word-soft' },
        ...(regions.length > 0
          ? [
              { words: text('page-practice.cut.layers.ringed'), y: 62, class: 'cut-word-hot' },
              { words: over, y: 77, class: 'cut-word-hot' },
            ]
          : []),
      ]}
    >
      {columns.map(({ fromH, toH, row }) => {
        const depthM = depthOf(row);
        const id = `layers-${fromH}`;
        const top = y(depthM);
        return (
          <g key={fromH}>
            <linearGradient id={id} x1="0" y1="1" x2="0" y2="0">
              {knotsOf(row).map(({ heightM, tempC }) => (
                <stop key={heightM} offset={(heightM / depthM).toFixed(3)} stop-color={heatColour(tempC, shade)} />
              ))}
            </linearGradient>
            <rect
              // Whole pixels, so that no seam shows between two hours.
              x={Math.round(x(fromH))}
              width={Math.round(x(toH)) - Math.round(x(fromH))}
              y={top.toFixed(1)}
              height={(height - top).toFixed(1)}
              fill={`url(#${id})`}
            />
          </g>
        );
      })}
      {regions.map((region) => (
        <path key={region.edge[0]?.afterH} class="cut-hot" d={regionPath(region, x, y)} />
      ))}
      <path class="cut-skin" d={skinPath(truth, x, y)} />
      <path class="cut-skin" d={`M${x(0)} ${height}H${x(frame.endH)}`} />
    </CutFrame>
  );
}
