/** In the form for a new pile: which of the probes that talk is in its core. */
import type { Probe } from '../../../../shared/contracts/probes.ts';

import { TalkingLine } from './talking-line.tsx';
import { useTalkingProbes } from './use-talking-probes.ts';
import './talking.css';
import { useTalkingWords } from './use-talking-words.ts';

interface CorePickProps {
  readonly value: Probe | null;
  readonly onValue: (probe: Probe | null) => void;
}

export function CorePick({ value, onValue }: CorePickProps) {
  const { text } = useTalkingWords();
  const talking = useTalkingProbes();
  if (talking.length === 0) return null;
  const isChosen = (probe: Probe | null) => value?.site === probe?.site && value?.probe === probe?.probe;
  return (
    <fieldset class="core-pick">
      <legend>{text('page-talking.offer', { probeCount: talking.length })}</legend>
      {talking.map((one) => (
        <label key={`${one.probe.site}/${one.probe.probe}`} class={one.rises ? 'talking-one rising' : 'talking-one'}>
          <input type="radio" name="core" checked={isChosen(one.probe)} onChange={() => onValue(one.probe)} />
          <TalkingLine talking={one} />
        </label>
      ))}
      <label class="talking-one">
        <input type="radio" name="core" checked={value === null} onChange={() => onValue(null)} />
        <span class="talking-line">{text('page-talking.none')}</span>
      </label>
      <p class="hint">{text('page-talking.warm', { probeCount: talking.length })}</p>
    </fieldset>
  );
}
