/** On a pile whose core nobody measures: the probes that talk, one press each. */
import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import type { Probe } from '../../../../shared/contracts/probes.ts';
import { claimProbe } from '../../data/routes.ts';
import { useMutation } from '../../data/use-mutation.ts';

import { Refusal } from '../../ui/parts/forms.tsx';
import { TalkingLine } from './talking-line.tsx';
import { useTalkingProbes } from './use-talking-probes.ts';
import './talking.css';
import { useTalkingWords } from './use-talking-words.ts';

interface CoreOfferProps {
  readonly pile: PileDetail;
  readonly onChange: () => Promise<unknown>;
}

export function CoreOffer({ pile, onChange }: CoreOfferProps) {
  const { text, rich } = useTalkingWords();
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
      <h2 id="core-offer">{text('page-talking.offer', { probeCount: talking.length })}</h2>
      <ul class="talking-list">
        {talking.map((one) => (
          <li key={`${one.probe.site}/${one.probe.probe}`} class={one.rises ? 'talking-one rising' : 'talking-one'}>
            <TalkingLine talking={one} />
            <button type="button" disabled={mutation.busy} onClick={() => void claim(one.probe)}>
              {rich('page-talking.in-core', {
                probeName: one.name,
                aloud: (inner) => <span class="unseen">{inner}</span>,
              })}
            </button>
          </li>
        ))}
      </ul>
      <Refusal error={mutation.error} />
      <p class="hint">
        {text('page-talking.warm', { probeCount: talking.length })}{' '}
        <a href="/probes">{text('page-talking.elsewhere')}</a>
      </p>
    </section>
  );
}
