/** What a thermometer in the core shows, said by touching a scale: nothing is taken for measured before that. */
import { useId } from 'preact/hooks';
import { usePrefs } from '../../data/prefs.ts';
import { celsiusFrom, formatTemp, tempIn } from '../../ui/format/temperature.ts';
import { useLayWords } from './use-lay-words.ts';
import './thermometer-pick.css';

interface ThermometerPickProps {
  /** Undefined until it is said. */
  readonly valueC: number | undefined;
  readonly onValueC: (valueC: number) => void;
}

/** As far as a stem thermometer for kitchens and heaps goes (common practice, no source). */
const scaleC = { from: 0, to: 90 };
/** Where the handle stands until it is touched. */
const restC = 25;

export function ThermometerPick({ valueC, onValueC }: ThermometerPickProps) {
  const id = useId();
  const { text } = useLayWords();
  const { unit } = usePrefs();
  const shown = (tempC: number) => Math.round(tempIn(unit, tempC));
  const pick = (degrees: number) => onValueC(Number(celsiusFrom(unit, degrees).toFixed(2)));
  const now = shown(valueC ?? restC);
  const step = (by: number, label: string, sign: string) => (
    <button type="button" aria-label={label} onClick={() => pick(now + by)}>
      {sign}
    </button>
  );
  return (
    <div class="field thermometer-pick">
      <label for={id}>{text('page-lay.thermometer')}</label>
      <output for={id}>
        {valueC === undefined ? text('page-lay.thermometer.unset') : formatTemp(valueC, unit, 0)}
      </output>
      <div class="thermometer-scale">
        {step(-1, text('page-lay.thermometer.less'), '−')}
        <input
          id={id}
          type="range"
          min={shown(scaleC.from)}
          max={shown(scaleC.to)}
          step={1}
          value={now}
          aria-valuetext={valueC === undefined ? text('page-lay.thermometer.unset') : formatTemp(valueC, unit, 0)}
          onInput={(event) => pick(event.currentTarget.valueAsNumber)}
        />
        {step(1, text('page-lay.thermometer.more'), '+')}
      </div>
    </div>
  );
}
