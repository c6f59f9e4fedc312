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

interface BatchEndProps {
  readonly pile: PileDetail;
  readonly onChange: () => Promise<unknown>;
}

export function FinishBatch({ pile, onChange }: BatchEndProps) {
  const mutation = useMutation();
  const [outcome, setOutcome] = useState('');
  return (
    <Part id="finish" title="Finish this batch">
      <form
        class="form"
        onSubmit={(event) => {
          event.preventDefault();
          const text = outcome.trim();
          void mutation.run(() => finishBatch(pile.id, text ? { outcome: text } : {}).then(onChange));
        }}
      >
        <p>
          Only you can tell that it is ready
          {hazardStands(pile.alarms) ? '' : ': open it in several places, smell it and look'}. Branhearth cannot smell,
          and a pile kept for its culture is not sanitised.
        </p>
        <Field
          label="How it came out"
          hint="Smell, look, feel, and what you would do otherwise next time."
          error={mutation.fieldError('/outcome')}
        >
          {(ids) => (
            <textarea {...ids} rows={4} value={outcome} onInput={(event) => setOutcome(event.currentTarget.value)} />
          )}
        </Field>
        <Refusal error={mutation.error} />
        <button type="submit" class="primary" disabled={mutation.busy}>
          Finish the batch
        </button>
      </form>
    </Part>
  );
}

export function NextBatch({ pile, onChange }: BatchEndProps) {
  const mutation = useMutation();
  const reader = useReader(pile.site);
  const [batch, setBatch] = useState({
    ...emptyBatch,
    stage: pile.stage,
    shelter: pile.recipe?.shelter ?? ('' as const),
  });
  return (
    <Part id="next-batch" title="Lay the next batch here">
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
          Lay the batch
        </button>
      </form>
    </Part>
  );
}
