/** What one quantity other than the temperature was over time, with what to bear in mind of it. */
import type { QuantityFacts } from '../../../shared/quantities/quantity-facts.ts';
import { quantityFacts } from '../../../shared/quantity.ts';
import { type ChartedQuantity, chartTitle, quantityHint, signOf, valueWords } from '../ui/format/quantity-words.ts';
import type { Line } from './chart-data.ts';
import { chartSummary } from './chart-summary.ts';
import { LineChart, type LineChartProps } from './line-chart.tsx';
import { useChartWords } from './use-chart-words.ts';
import './charts.css';

/** Of every chart below one another: one axis of time, one way of telling times. */
export type ChartSpan = Pick<LineChartProps, 'fromMs' | 'toMs' | 'nowMs' | 'shade' | 'reader' | 'onInstant'>;

interface QuantityChartProps {
  readonly quantity: ChartedQuantity;
  readonly lines: readonly Line[];
  readonly span: ChartSpan;
}

export function QuantityChart({ quantity, lines, span }: QuantityChartProps) {
  const { axis, within }: QuantityFacts['shown'] = quantityFacts[quantity].shown;
  const { sign, ...ends } = axis ?? { sign: signOf(quantity) };
  const words = useChartWords();
  const title = chartTitle(quantity);
  const hint = quantityHint(quantity);
  const said = chartSummary(lines, (value) => valueWords(quantity, value, 'C'), span.reader, words);
  return (
    <figure class="plot">
      <figcaption>
        <h3>{title}</h3>
      </figcaption>
      <LineChart
        {...span}
        {...ends}
        tall={false}
        highestMark={within?.[1]}
        lines={lines}
        unit={` ${sign}`}
        words={words.text('page-chart.over-time', { titleText: title, linesText: said })}
      />
      {hint && <p class="hint">{hint}</p>}
    </figure>
  );
}
