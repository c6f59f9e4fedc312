/** How to read the drawings, explained once below them. */

import { usePrefs } from '../../data/prefs.ts';
import { heatColour, heatScaleFromC, heatScaleToC } from '../colour/heat-scale.ts';
import { formatTemp } from '../format/temperature.ts';
import { useShade } from '../use-shade.ts';
import { useMoundWords } from './use-mound-words.ts';

const swatches = 25;

export function MoundKey() {
  const { text } = useMoundWords();
  const { unit } = usePrefs();
  const shade = useShade();
  const tempAt = (part: number) => heatScaleFromC + (heatScaleToC - heatScaleFromC) * part;
  return (
    <figure class="mound-key">
      <svg viewBox="0 0 250 34" role="img" aria-label={text('page-mound.key')}>
        {Array.from({ length: swatches }, (_, i) => (
          <rect
            key={tempAt(i / swatches)}
            x={i * 10}
            y="0"
            width="10.3"
            height="12"
            fill={heatColour(tempAt((i + 0.5) / swatches), shade)}
          />
        ))}
        {[0, 1 / 3, 2 / 3, 1].map((part) => (
          <text key={part} x={part * 250} y="29" text-anchor={part === 0 ? 'start' : part === 1 ? 'end' : 'middle'}>
            {formatTemp(tempAt(part), unit, 0)}
          </text>
        ))}
      </svg>
      <figcaption>{text('page-mound.key.says')}</figcaption>
    </figure>
  );
}
