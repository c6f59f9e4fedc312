/** Says what a picked value is, tries that against the last messages, and saves it. */
import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import type { z } from 'zod';
import type { mappingInputSchema, mappingTrialSchema } from '../../../../shared/contracts/ingest.ts';
import { type ForeignUnit, foreignUnitsOf, type Quantity, quantities } from '../../../../shared/quantity.ts';
import { useInstallation } from '../../data/live/use-installation.ts';
import { useSay } from '../../data/live/use-say.ts';
import { usePrefs } from '../../data/prefs.ts';
import { readNumber } from '../../data/read-number.ts';
import { saveMapping, tryMapping } from '../../data/routes.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { quantityName, shortName, signOf } from '../../ui/format/quantity-words.ts';
import { formatTemp, type TempUnit, unitSigns } from '../../ui/format/temperature.ts';
import { capital } from '../../ui/format/words.ts';
import { PickField, Refusal, TextField } from '../../ui/parts/forms.tsx';
import { wildcardCount } from './json-pointer.ts';
import { refusalName, renderRefusal } from './refusal-words.ts';
import { type IncomingWords, useIncomingWords } from './use-incoming-words.ts';
import './incoming.css';

type Unit = ForeignUnit;
type Trial = z.output<typeof mappingTrialSchema>;

function unitName(unit: Unit, { text }: Pick<IncomingWords, 'text'>): string {
  if (unit === '/') return text('page-incoming.unit.fraction');
  if (unit === '%RH') return text('page-incoming.unit.humidity');
  return unit === 'C' || unit === 'F' ? unitSigns[unit] : unit;
}

interface MappingFormProps {
  readonly filter: string;
  readonly pointer: string;
  readonly onPointer: (pointer: string) => void;
  readonly onSaved: () => Promise<void>;
}

/** What a mapping says so far, and trying and saving it. */
function useMappingDraft({ filter, pointer, onSaved }: MappingFormProps) {
  const mutation = useMutation();
  const sites = useInstallation((installation) => installation.sites);
  const [quantity, setQuantity] = useState<Quantity>('temperature');
  const [unit, setUnit] = useState<Unit>('C');
  const [scale, setScale] = useState('1');
  const [site, setSite] = useState<string>();
  const [probe, setProbe] = useState(wildcardCount(filter) > 0 ? 'shed-{1}' : 'shed');
  const [timePointer, setTimePointer] = useState('');
  const [trial, setTrial] = useState<{ of: string; results: Trial['results'] }>();
  const [saved, setSaved] = useState(false);

  const mapping: z.input<typeof mappingInputSchema> = {
    filter,
    pointer,
    quantity,
    unit,
    scale: readNumber(scale) ?? Number.NaN,
    site: site ?? sites[0]?.id ?? '',
    probe: probe.trim(),
    ...(timePointer.trim() === '' ? {} : { timePointer: timePointer.trim() }),
  };
  const key = JSON.stringify(mapping);
  const isTried = trial?.of === key;
  const works = isTried && trial.results.some((result) => result.reading !== null);
  const tryIt = () => {
    setSaved(false);
    void mutation.run(async () => setTrial({ of: key, results: (await tryMapping(mapping)).results }));
  };
  const save = () =>
    mutation
      .run(async () => {
        await saveMapping(mapping);
        await onSaved();
      })
      .then((done) => setSaved(done));
  const setQuantityWithUnit = (next: Quantity) => {
    setQuantity(next);
    setUnit(foreignUnitsOf(next)[0] ?? 'C');
  };
  return {
    ...{ sites, quantity, setQuantity: setQuantityWithUnit, unit, setUnit, scale, setScale, setSite, probe, setProbe },
    ...{
      timePointer,
      setTimePointer,
      mapping,
      results: isTried ? trial.results : null,
      works,
      saved,
      tryIt,
      save,
      mutation,
    },
  };
}

type MappingDraft = ReturnType<typeof useMappingDraft>;

export function MappingForm(props: MappingFormProps) {
  const { text } = useIncomingWords();
  const draft = useMappingDraft(props);
  const { mutation } = draft;
  return (
    <form
      class="form mapping-form"
      aria-label={text('page-incoming.mapping')}
      onSubmit={(event) => {
        event.preventDefault();
        draft.tryIt();
      }}
    >
      <TextField
        label={text('page-incoming.mapping.pointer')}
        mono
        hint={text('page-incoming.mapping.pointer.hint')}
        value={props.pointer}
        onValue={props.onPointer}
        error={mutation.fieldError('/pointer')}
      />
      <WhatItIs draft={draft} />
      <WhoseItIs draft={draft} filter={props.filter} />
      <div class="buttons">
        <button type="submit" disabled={mutation.busy}>
          {text('page-incoming.mapping.try')}
        </button>
        <button
          type="button"
          class="primary"
          disabled={mutation.busy || !draft.works}
          onClick={() => void draft.save()}
        >
          {text('page-incoming.mapping.save')}
        </button>
      </div>
      <Refusal error={mutation.error} />
      {draft.results && <TrialResults results={draft.results} />}
      <p role="status">{draft.saved && text('page-incoming.mapping.saved')}</p>
    </form>
  );
}

function WhatItIs({ draft }: { readonly draft: MappingDraft }) {
  const words = useIncomingWords();
  const { text } = words;
  return (
    <div class="field-row">
      <PickField
        label={text('page-incoming.mapping.quantity')}
        value={draft.quantity}
        choices={quantities.map((one) => [one, capital(quantityName(one))] as const)}
        onValue={draft.setQuantity}
        error={draft.mutation.fieldError('/quantity')}
      />
      <PickField
        label={text('page-incoming.mapping.unit')}
        value={draft.unit}
        choices={foreignUnitsOf(draft.quantity).map((one) => [one, unitName(one, words)] as const)}
        onValue={draft.setUnit}
        error={draft.mutation.fieldError('/unit')}
      />
      <TextField
        label={text('page-incoming.mapping.scale')}
        hint={text('page-incoming.mapping.scale.hint')}
        inputMode="decimal"
        value={draft.scale}
        onValue={draft.setScale}
        error={draft.mutation.fieldError('/scale')}
      />
    </div>
  );
}

function WhoseItIs({ draft, filter }: { readonly draft: MappingDraft; readonly filter: string }) {
  const { text } = useIncomingWords();
  return (
    <div class="field-row">
      <PickField
        label={text('page-incoming.mapping.site')}
        value={draft.mapping.site}
        choices={draft.sites.map((one) => [one.id, one.name] as const)}
        onValue={draft.setSite}
        error={draft.mutation.fieldError('/site')}
      />
      <TextField
        label={text('page-incoming.mapping.probe')}
        mono
        hint={wildcardCount(filter) > 0 ? text('page-incoming.mapping.probe.hint') : undefined}
        value={draft.probe}
        onValue={draft.setProbe}
        required
        error={draft.mutation.fieldError('/probe')}
      />
      <TextField
        label={text('page-incoming.mapping.time')}
        mono
        hint={text('page-incoming.mapping.time.hint')}
        value={draft.timePointer}
        onValue={draft.setTimePointer}
        error={draft.mutation.fieldError('/timePointer')}
      />
    </div>
  );
}

const mono = (inner: ComponentChildren) => <code>{inner}</code>;
const strong = (inner: ComponentChildren) => <b>{inner}</b>;
const wrong = (inner: ComponentChildren) => <span class="wrong">{inner}</span>;

function TrialResults({ results }: { readonly results: Trial['results'] }) {
  const { text, rich } = useIncomingWords();
  const say = useSay(renderRefusal);
  const { unit } = usePrefs();
  if (results.length === 0) return <p class="quiet">{text('page-incoming.mapping.no-trial')}</p>;
  return (
    <ul class="trial">
      {results.map((result) => (
        <li key={`${result.topic} ${result.payload}`}>
          {result.reading
            ? rich('page-incoming.mapping.becomes', {
                topicText: result.topic,
                mono,
                quantityName: shortName(result.reading.quantity),
                valueText: exactWords(result.reading, unit),
                strong,
                probeText: `${result.reading.site}/${result.reading.probe}`,
              })
            : rich('page-incoming.mapping.fails', {
                topicText: result.topic,
                mono,
                wrong,
                isRefused: result.refusal !== null,
                reasonText: result.refusal === null ? '' : say(refusalName(result.refusal.reason)),
                refusalText: result.refusal === null ? '' : say(result.refusal.messages.message),
              })}
        </li>
      ))}
    </ul>
  );
}

/** To the last decimal: it is to be set beside what was sent. */
function exactWords({ quantity, value }: NonNullable<Trial['results'][number]['reading']>, unit: TempUnit): string {
  return quantity === 'temperature' ? formatTemp(value, unit) : `${value}\u00a0${signOf(quantity)}`;
}
