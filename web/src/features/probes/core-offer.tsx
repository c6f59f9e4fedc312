/** On a pile whose core nobody measures: the probes that talk, one press each. */
import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import type { Probe } from '../../../../shared/contracts/probes.ts';
import { claimProbe } from '../../data/routes.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { capital, countWord } from '../../ui/format/words.ts';
import { Refusal } from '../../ui/parts/forms.tsx';
import { TalkingLine, warmHint } from './talking-line.tsx';
import { useTalkingProbes } from './use-talking-probes.ts';
import './talking.css';

interface CoreOfferProps {
  readonly pile: PileDetail;
  readonly onChange: () => Promise<unknown>;
}

export function CoreOffer({ pile, onChange }: CoreOfferProps) {
  const talking = useTalkingProbes();
  const mutation = useMutation();
  if (talking.length === 0) return null;
  const claim = (probe: Probe) =>
    mutation.run(async () => {
      await claimProbe(probe.site, probe.probe, { pileId: pile.id, position: 'core' });
      await onChange();
    });
  return (
    <section class="core-offer" aria-labelledby="core-offer">
      <h2 id="core-offer">{offerSentence(talking.length)}</h2>
      <ul class="talking-list">
        {talking.map((one) => (
          <li key={`${one.probe.site}/${one.probe.probe}`} class={one.rises ? 'talking-one rising' : 'talking-one'}>
            <TalkingLine talking={one} />
            <button type="button" disabled={mutation.busy} onClick={() => void claim(one.probe)}>
              In the core<span class="unseen">: {one.name}</span>
            </button>
          </li>
        ))}
      </ul>
      <Refusal error={mutation.error} />
      <p class="hint">
        {warmHint(talking.length)} <a href="/probes">Elsewhere in the pile, or since another time</a>
      </p>
    </section>
  );
}

/** @example offerSentence(3) // => "Three probes are talking. Which one is in the core?" */
export function offerSentence(count: number): string {
  return count === 1
    ? 'One probe is talking. Is it in the core?'
    : `${capital(countWord(count))} probes are talking. Which one is in the core?`;
}
