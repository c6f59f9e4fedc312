/** Finishing a batch, and laying the next one in its place. */

import { useState } from 'preact/hooks';
import { hazardStands } from '../../../../core/alarms/precedence.ts';
import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import { useReader } from '../../data/live/use-installation.ts';
import { finishBatch, startBatch } from '../../data/routes.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { Field, Refusal } from '../../ui/parts/forms.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { BatchFields, batchBody, emptyBatch } from './batch-fields.tsx';
import { usePileWords } from './use-pile-words.ts';

interface BatchEndProps {
  readonly pile: PileDetail;
  readonly onChange: () => Promise<unknown>;
}

export function FinishBatch({ pile, onChange }: BatchEndProps) {
  const { text } = usePileWords();
  const mutation = useMutation();
  const [outcome, setOutcome] = useState('');
  return (
    <Part id="finish" title={text('page-pile.finish.title')}>
      <form
        class="form"
        onSubmit={(event) => {
          event.preventDefault();
          const said = outcome.trim();
          void mutation.run(() => finishBatch(pile.id, said ? { outcome: said } : {}).then(onChange));
        }}
      >
        <p>{text('page-pile.finish.ready', { mayOpen: !hazardStands(pile.alarms) })}</p>
        <Field
          label={text('page-pile.finish.outcome')}
          hint={text('page-pile.finish.outcome.hint')}
          error={mutation.fieldError('/outcome')}
        >
          {(ids) => (
            <textarea {...ids} rows={4} value={outcome} onInput={(event) => setOutcome(event.currentTarget.value)} />
          )}
        </Field>
        <Refusal error={mutation.error} />
        <button type="submit" class="primary" disabled={mutation.busy}>
          {text('page-pile.finish')}
        </button>
      </form>
    </Part>
  );
}

export function NextBatch({ pile, onChange }: BatchEndProps) {
  const { text } = usePileWords();
  const mutation = useMutation();
  const reader = useReader(pile.site);
  const [batch, setBatch] = useState({
    ...emptyBatch,
    stage: pile.stage,
    shelter: pile.recipe?.shelter ?? ('' as const),
  });
  return (
    <Part id="next-batch" title={text('page-pile.next.title')}>
      <form
        class="form"
        onSubmit={(event) => {
          event.preventDefault();
          void mutation.run(() => startBatch(pile.id, batchBody(batch, reader.timeZone)).then(onChange));
        }}
      >
        <BatchFields draft={batch} onDraft={(change) => setBatch({ ...batch, ...change })} mutation={mutation} />
        <Refusal error={mutation.error} />
        <button type="submit" class="primary" disabled={mutation.busy}>
          {text('page-pile.next.lay')}
        </button>
      </form>
    </Part>
  );
}
