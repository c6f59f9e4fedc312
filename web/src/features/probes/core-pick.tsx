/** In the form for a new pile: which of the probes that talk is in its core. */
import type { Probe } from '../../../../shared/contracts/probes.ts';
import { offerSentence } from './core-offer.tsx';
import { TalkingLine, warmHint } from './talking-line.tsx';
import { useTalkingProbes } from './use-talking-probes.ts';
import './talking.css';

interface CorePickProps {
  readonly value: Probe | null;
  readonly onValue: (probe: Probe | null) => void;
}

export function CorePick({ value, onValue }: CorePickProps) {
  const talking = useTalkingProbes();
  if (talking.length === 0) return null;
  const isChosen = (probe: Probe | null) => value?.site === probe?.site && value?.probe === probe?.probe;
  return (
    <fieldset class="core-pick">
      <legend>{offerSentence(talking.length)}</legend>
      {talking.map((one) => (
        <label key={`${one.probe.site}/${one.probe.probe}`} class={one.rises ? 'talking-one rising' : 'talking-one'}>
          <input type="radio" name="core" checked={isChosen(one.probe)} onChange={() => onValue(one.probe)} />
          <TalkingLine talking={one} />
        </label>
      ))}
      <label class="talking-one">
        <input type="radio" name="core" checked={value === null} onChange={() => onValue(null)} />
        <span class="talking-line">None of them yet</span>
      </label>
      <p class="hint">{warmHint(talking.length)}</p>
    </fieldset>
  );
}
