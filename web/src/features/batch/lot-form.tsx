/** A starter or a material written down, or corrected. */
import { useState } from 'preact/hooks';
import { type NewLot, organicStatuses } from '../../../../shared/contracts/lots.ts';
import { useReader } from '../../data/live/use-installation.ts';
import { usePlanUnits } from '../../data/plan-units.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { capital } from '../../ui/format/words.ts';
import { Choice, Field, PickField, Refusal, TextField } from '../../ui/parts/forms.tsx';
import { MeasureField } from '../../ui/parts/measure-field.tsx';
import { type LotDraft, lotBody, lotErrors } from './lot-draft.ts';
import { lotMaterials, organicKeys, useLotWords } from './lot-words.ts';
import { useBatchWords } from './use-batch-words.ts';

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
  const words = useBatchWords();
  const [draft, setDraft] = useState(first);
  const [errors, setErrors] = useState<ReadonlyMap<string, string>>(new Map());
  const change = (part: Partial<LotDraft>) => setDraft({ ...draft, ...part });
  const wrong = (pointer: string) => errors.get(pointer) ?? mutation.fieldError(pointer);
  const keep = async () => {
    const lot = lotBody(draft, units, timeZone);
    const found = lotErrors(lot, words);
    setErrors(found);
    if (found.size === 0 && (await mutation.run(() => onKeep(lot))) && isNew) setDraft({ ...first, kind: draft.kind });
  };
  return { typing: { draft, change, wrong }, keep, mutation };
}

type Typing = ReturnType<typeof useLotDraft>['typing'];

export function LotForm(props: LotFormProps) {
  const { isNew } = props;
  const { text } = useBatchWords();
  const { typing, keep, mutation } = useLotDraft(props);
  const { draft, change, wrong } = typing;
  return (
    <form
      class="form"
      aria-label={text('page-batch.lot.form', { isNew })}
      onSubmit={(event) => {
        event.preventDefault();
        void keep();
      }}
    >
      {isNew && (
        <Choice
          legend={text('page-batch.lot.kind')}
          value={draft.kind}
          choices={(['starter', 'material'] as const).map(
            (kind) => [kind, text('page-batch.lot.kind.of', { kind })] as const,
          )}
          onValue={(kind) => change({ kind })}
        />
      )}
      <FactField
        label={text('page-batch.lot.name')}
        of="name"
        pointer="/name"
        hint={text('page-batch.lot.name.hint')}
        {...typing}
      />
      {draft.kind === 'starter' ? <StarterFacts {...typing} /> : <MaterialFacts {...typing} />}
      <HowMuch {...typing} />
      <FactField label={text('page-batch.lot.storage')} of="storage" pointer="/storage" {...typing} />
      <Field label={text('page-batch.note')} error={wrong('/note')}>
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
        {text('page-batch.lot.keep', { isNew })}
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
  const { text } = useBatchWords();
  const { draft, change, wrong } = typing;
  return (
    <>
      <FactField
        label={text('page-batch.lot.collected-place')}
        of="collectedPlace"
        pointer="/facts/collectedPlace"
        {...typing}
      />
      <div class="field-row">
        <TextField
          label={text('page-batch.lot.collected-at')}
          type="datetime-local"
          value={draft.collectedAt}
          onValue={(collectedAt) => change({ collectedAt })}
          error={wrong('/facts/collectedAt')}
        />
        <FactField
          label={text('page-batch.lot.caught-on')}
          of="medium"
          pointer="/facts/medium"
          hint={text('page-batch.lot.caught-on.hint')}
          {...typing}
        />
      </div>
      <div class="field-row">
        <FactField
          label={text('page-batch.lot.sugar-name')}
          of="sugar"
          pointer="/facts/sugar"
          hint={text('page-batch.lot.sugar-name.hint')}
          {...typing}
        />
        <TextField
          label={text('page-batch.lot.sugar-ratio')}
          inputMode="decimal"
          hint={text('page-batch.lot.sugar-ratio.hint')}
          value={draft.sugarRatio}
          onValue={(sugarRatio) => change({ sugarRatio })}
          error={wrong('/facts/sugarRatio')}
        />
      </div>
    </>
  );
}

function MaterialFacts(typing: Typing) {
  const { text, material: nameOf } = useLotWords();
  const { draft, change, wrong } = typing;
  return (
    <>
      <div class="field-row">
        <PickField
          label={text('page-batch.lot.material-name')}
          value={draft.material}
          choices={[
            ['', text('page-batch.lot.material-name.choose')],
            ...lotMaterials.map((one) => [one, capital(nameOf(one))] as const),
          ]}
          onValue={(material) => change({ material })}
          error={wrong('/facts/material')}
        />
        <PickField
          label={text('page-batch.lot.organic-status')}
          value={draft.organic}
          choices={organicStatuses.map(
            (one) => [one, capital(text('page-batch.lot.organic', { organic: organicKeys[one] }))] as const,
          )}
          onValue={(organic) => change({ organic })}
          hint={text('page-batch.lot.organic-status.hint')}
        />
      </div>
      <div class="field-row">
        <FactField label={text('page-batch.lot.supplier')} of="supplier" pointer="/facts/supplier" {...typing} />
        <FactField
          label={text('page-batch.lot.suppliers-number')}
          of="lotNumber"
          pointer="/facts/lotNumber"
          {...typing}
        />
      </div>
      <div class="field-row">
        <FactField
          label={text('page-batch.lot.certificate')}
          of="certificate"
          pointer="/facts/certificate"
          {...typing}
        />
        <TextField
          label={text('page-batch.lot.received-at')}
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
  const { text } = useBatchWords();
  return (
    <div class="field-row">
      <MeasureField
        label={text('page-batch.lot.mass')}
        kind="massKg"
        value={draft.mass}
        onValue={(mass) => change({ mass })}
        error={wrong('/massKg')}
      />
      <MeasureField
        label={text('page-batch.volume')}
        kind="volumeL"
        value={draft.volume}
        onValue={(volume) => change({ volume })}
        error={wrong('/volumeL')}
      />
    </div>
  );
}
