/** A person's own judgement of smell and look, written into the journal. */
import { useState } from 'preact/hooks';
import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import { message } from '../../../../shared/messages/message.ts';
import { useSay } from '../../data/live/use-say.ts';
import { usePrefs } from '../../data/prefs.ts';
import { sayReadiness } from '../../data/routes.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { actCautions, handfulCaution, hottestC, renderCaution } from '../../ui/format/act-caution.ts';
import { Choice, Refusal, TextField } from '../../ui/parts/forms.tsx';
import type { Judgement } from './person-word.ts';

const judgementChoices = [
  ['good', 'Good'],
  ['doubtful', 'Doubtful'],
  ['bad', 'Bad'],
] as const;

interface ReadinessFormProps {
  readonly pile: PileDetail;
  readonly isFirst: boolean;
  readonly onDone: () => Promise<unknown>;
}

/** A judgement as it stands in the form, and writing it down. */
function useJudgement(pileId: string, onDone: () => Promise<unknown>) {
  const { name } = usePrefs();
  const mutation = useMutation();
  const [smell, setSmell] = useState<Judgement>('doubtful');
  const [look, setLook] = useState<Judgement>('doubtful');
  const [ready, setReady] = useState<'yes' | 'no'>('no');
  const [note, setNote] = useState('');
  const isBad = smell === 'bad' || look === 'bad';
  const write = () =>
    mutation.run(async () => {
      await sayReadiness(pileId, {
        what: { kind: 'readiness', smell, look, ready: ready === 'yes' && !isBad },
        ...(name === '' ? {} : { by: name }),
        ...(note.trim() === '' ? {} : { note: note.trim() }),
      });
      await onDone();
    });
  return { smell, setSmell, look, setLook, ready, setReady, note, setNote, isBad, write, mutation };
}

export function ReadinessForm({ pile, isFirst, onDone }: ReadinessFormProps) {
  const say = useSay(renderCaution);
  const { isBad, mutation, ...judged } = useJudgement(pile.id, onDone);
  const hottest = hottestC(pile.positions);
  const cautions = [...actCautions('turned', hottest), handfulCaution(hottest), message('caution.smelling')].map(say);
  return (
    <details class="more">
      <summary>{isFirst ? 'Say how it smells and looks' : 'Say it anew'}</summary>
      <form
        class="form"
        onSubmit={(event) => {
          event.preventDefault();
          void judged.write();
        }}
      >
        {cautions.map((caution) => (
          <p class="caution" key={caution}>
            <span class="label">Caution</span> {caution}
          </p>
        ))}
        <Choice legend="Its smell" value={judged.smell} choices={judgementChoices} onValue={judged.setSmell} />
        <Choice legend="Its look" value={judged.look} choices={judgementChoices} onValue={judged.setLook} />
        <Choice
          legend="Is it done, as you find it?"
          value={isBad ? 'no' : judged.ready}
          choices={
            isBad
              ? [['no', 'Not yet']]
              : [
                  ['no', 'Not yet'],
                  ['yes', 'Yes'],
                ]
          }
          onValue={judged.setReady}
        />
        {isBad && <p class="hint">While smell or look is bad it is not done.</p>}
        <TextField
          label="Note"
          hint="Which smell, which colours, where."
          value={judged.note}
          onValue={judged.setNote}
          error={mutation.fieldError('/note')}
        />
        <Refusal error={mutation.error} />
        <button type="submit" class="primary" disabled={mutation.busy}>
          Write it into the journal
        </button>
      </form>
    </details>
  );
}
