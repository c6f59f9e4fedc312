/** A person's own judgement of smell and look, written into the journal. */
import { useState } from 'preact/hooks';
import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import { judgements } from '../../../../shared/entry.ts';
import { message } from '../../../../shared/messages/message.ts';
import { useSay } from '../../data/live/use-say.ts';
import { usePrefs } from '../../data/prefs.ts';
import { addEntry } from '../../data/routes.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { actCautions, handfulCaution, hottestC, renderCaution } from '../../ui/format/act-caution.ts';
import { Choice, Refusal, TextField } from '../../ui/parts/forms.tsx';
import { type Judgement, judgementOf } from './person-word.ts';
import { usePileWords } from './use-pile-words.ts';

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
      await addEntry(pileId, {
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
  const { text } = usePileWords();
  const judgementChoices = judgements.map(
    (one) => [one, text('page-pile.word.judgement', { judgement: judgementOf(one) })] as const,
  );
  const { isBad, mutation, ...judged } = useJudgement(pile.id, onDone);
  const hottest = hottestC(pile.positions);
  const cautions = [...actCautions('turned', hottest), handfulCaution(hottest), message('caution.smelling')].map(say);
  return (
    <details class="more">
      <summary>{text('page-pile.word.say', { isFirst })}</summary>
      <form
        class="form"
        onSubmit={(event) => {
          event.preventDefault();
          void judged.write();
        }}
      >
        {cautions.map((caution) => (
          <p class="caution" key={caution}>
            <span class="label">{text('page-pile.caution')}</span> {caution}
          </p>
        ))}
        <Choice
          legend={text('page-pile.word.smell')}
          value={judged.smell}
          choices={judgementChoices}
          onValue={judged.setSmell}
        />
        <Choice
          legend={text('page-pile.word.look')}
          value={judged.look}
          choices={judgementChoices}
          onValue={judged.setLook}
        />
        <Choice
          legend={text('page-pile.word.done')}
          value={isBad ? 'no' : judged.ready}
          choices={(isBad ? (['no'] as const) : (['no', 'yes'] as const)).map(
            (one) => [one, text('page-pile.word.done.of', { done: one === 'yes' })] as const,
          )}
          onValue={judged.setReady}
        />
        {isBad && <p class="hint">{text('page-pile.word.bad')}</p>}
        <TextField
          label={text('page-pile.word.note')}
          hint={text('page-pile.word.note.hint')}
          value={judged.note}
          onValue={judged.setNote}
          error={mutation.fieldError('/note')}
        />
        <Refusal error={mutation.error} />
        <button type="submit" class="primary" disabled={mutation.busy}>
          {text('page-pile.word.write')}
        </button>
      </form>
    </details>
  );
}
