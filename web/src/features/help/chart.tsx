import { positions } from '../../../../shared/names.ts';
import { lineStyles } from '../../charts/line-style.ts';
import { ChartDrawing } from './chart-drawing.tsx';
import { useHelp } from './help-texts.tsx';
import { Section } from './section.tsx';
import './help.css';

export function Chart() {
  const { text } = useHelp();
  return (
    <>
      <Section
        of="chart.parts"
        first={
          <div class="help-chart">
            <ChartDrawing words={text('page-help.chart.drawing')} />
          </div>
        }
      />
      <Section of="chart.lines">
        <LineKey />
      </Section>
      <Section of="chart.band" />
      <Section of="chart.fan" />
      <Section of="chart.dips" />
      <Section of="chart.seasons" />
    </>
  );
}

/** The strokes of the places, as charts draw them. */
function LineKey() {
  const { text } = useHelp();
  return (
    <ul class="help-strokes">
      {positions.map((position) => {
        const { token, width, dash } = lineStyles[position];
        return (
          <li key={position}>
            <svg viewBox="0 0 72 10" aria-hidden="true">
              <path d="M2 5H70" stroke={`var(${token})`} stroke-width={width} stroke-dasharray={dash.join(' ')} />
            </svg>
            {text(`page-help.place.${position}`)}
          </li>
        );
      })}
    </ul>
  );
}
