/** A starter or a material written down, or corrected. */
import { useState } from 'preact/hooks';
import { type NewLot, organicStatuses } from '../../../../shared/contracts/lots.ts';
import { useReader } from '../../data/live/use-installation.ts';
import { usePlanUnits } from '../../data/plan-units.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { capital } from '../../ui/format/words.ts';
import { Choice, Field, PickField, Refusal, TextField } from '../../ui/parts/forms.tsx';
import { MeasureField } from '../../ui/parts/measure-field.tsx';
import { lotMaterialNames, organicNames } from './batch-words.ts';
import { type LotDraft, lotBody, lotErrors } from './lot-draft.ts';

interface LotFormProps {
  readonly first: LotDraft;
  readonly isNew: boolean;
  readonly onKeep: (lot: NewLot) => Promise<unknown>;
}

/** A lot as it stands in the form, what is wrong with it, and keeping it. */
function useLotDraft({ first, isNew, onKeep }: LotFormProps) {
  const mutation = useMutation();
  const units = usePlanUnits();
  const { timeZone } = useReader();
  const [draft, setDraft] = useState(first);
  const [errors, setErrors] = useState<ReadonlyMap<string, string>>(new Map());
  const change = (part: Partial<LotDraft>) => setDraft({ ...draft, ...part });
  const wrong = (pointer: string) => errors.get(pointer) ?? mutation.fieldError(pointer);
  const keep = async () => {
    const lot = lotBody(draft, units, timeZone);
    const found = lotErrors(lot);
    setErrors(found);
    if (found.size === 0 && (await mutation.run(() => onKeep(lot))) && isNew) setDraft({ ...first, kind: draft.kind });
  };
  return { typing: { draft, change, wrong }, keep, mutation };
}

type Typing = ReturnType<typeof useLotDraft>['typing'];

export function LotForm(props: LotFormProps) {
  const { isNew } = props;
  const { typing, keep, mutation } = useLotDraft(props);
  const { draft, change, wrong } = typing;
  return (
    <form
      class="form"
      aria-label={isNew ? 'Write down a lot' : 'Correct the lot'}
      onSubmit={(event) => {
        event.preventDefault();
        void keep();
      }}
    >
      {isNew && (
        <Choice
          legend="What it is"
          value={draft.kind}
          choices={[
            ['starter', 'A starter'],
            ['material', 'A material'],
          ]}
          onValue={(kind) => change({ kind })}
        />
      )}
      <FactField
        label="Its name"
        of="name"
        pointer="/name"
        hint="So that you know it again: “Oak wood, autumn”."
        {...typing}
      />
      {draft.kind === 'starter' ? <StarterFacts {...typing} /> : <MaterialFacts {...typing} />}
      <HowMuch {...typing} />
      <FactField label="How and where it is kept" of="storage" pointer="/storage" {...typing} />
      <Field label="Note" error={wrong('/note')}>
        {(ids) => (
          <textarea
            {...ids}
            rows={2}
            maxLength={2000}
            value={draft.note}
            onInput={(event) => change({ note: event.currentTarget.value })}
          />
        )}
      </Field>
      <Refusal error={mutation.error} />
      <button type="submit" class="primary" disabled={mutation.busy}>
        {isNew ? 'Write it down' : 'Keep the correction'}
      </button>
    </form>
  );
}

interface FactFieldProps extends Typing {
  readonly label: string;
  readonly of: keyof LotDraft;
  readonly pointer: string;
  readonly hint?: string;
}

function FactField({ label, of, pointer, hint, draft, change, wrong }: FactFieldProps) {
  return (
    <TextField
      label={label}
      hint={hint}
      value={draft[of]}
      onValue={(value) => change({ [of]: value })}
      error={wrong(pointer)}
    />
  );
}

function StarterFacts(typing: Typing) {
  const { draft, change, wrong } = typing;
  return (
    <>
      <FactField label="Where it was collected" of="collectedPlace" pointer="/facts/collectedPlace" {...typing} />
      <div class="field-row">
        <TextField
          label="When"
          type="datetime-local"
          value={draft.collectedAt}
          onValue={(collectedAt) => change({ collectedAt })}
          error={wrong('/facts/collectedAt')}
        />
        <FactField label="Caught on" of="medium" pointer="/facts/medium" hint="Cooked rice, bran." {...typing} />
      </div>
      <div class="field-row">
        <FactField label="Sugar" of="sugar" pointer="/facts/sugar" hint="Brown sugar, molasses." {...typing} />
        <TextField
          label="Sugar to culture, by mass"
          inputMode="decimal"
          hint="1 is equal parts."
          value={draft.sugarRatio}
          onValue={(sugarRatio) => change({ sugarRatio })}
          error={wrong('/facts/sugarRatio')}
        />
      </div>
    </>
  );
}

function MaterialFacts(typing: Typing) {
  const { draft, change, wrong } = typing;
  return (
    <>
      <div class="field-row">
        <PickField
          label="Material"
          value={draft.material}
          choices={[
            ['', 'Choose'] as const,
            ...Object.entries(lotMaterialNames).map(([id, words]) => [id, capital(words)] as const),
          ]}
          onValue={(material) => change({ material })}
          error={wrong('/facts/material')}
        />
        <PickField
          label="Organic status"
          value={draft.organic}
          choices={organicStatuses.map((one) => [one, capital(organicNames[one])] as const)}
          onValue={(organic) => change({ organic })}
          hint="As the supplier’s papers say."
        />
      </div>
      <div class="field-row">
        <FactField label="Supplier" of="supplier" pointer="/facts/supplier" {...typing} />
        <FactField label="Supplier’s lot number" of="lotNumber" pointer="/facts/lotNumber" {...typing} />
      </div>
      <div class="field-row">
        <FactField label="Certificate" of="certificate" pointer="/facts/certificate" {...typing} />
        <TextField
          label="Received"
          type="datetime-local"
          value={draft.receivedAt}
          onValue={(receivedAt) => change({ receivedAt })}
          error={wrong('/facts/receivedAt')}
        />
      </div>
    </>
  );
}

function HowMuch({ draft, change, wrong }: Typing) {
  return (
    <div class="field-row">
      <MeasureField
        label="Mass"
        kind="massKg"
        value={draft.mass}
        onValue={(mass) => change({ mass })}
        error={wrong('/massKg')}
      />
      <MeasureField
        label="Volume"
        kind="volumeL"
        value={draft.volume}
        onValue={(volume) => change({ volume })}
        error={wrong('/volumeL')}
      />
    </div>
  );
}
