/** What pressed values are, tried on the last messages as it is said, and used. */
import { useState } from 'preact/hooks';
import type { MappingInput } from '../../../../shared/contracts/mappings.ts';
import { foreignUnitsOf, quantities } from '../../../../shared/quantity.ts';
import { useInstallation } from '../../data/live/use-installation.ts';
import { type Mutation, useMutation } from '../../data/use-mutation.ts';
import { quantityName } from '../../ui/format/quantity-words.ts';
import { capital } from '../../ui/format/words.ts';
import { PickField, Refusal } from '../../ui/parts/forms.tsx';
import { firstUnit, placeText, withLevel, withValue } from './mapping-draft.ts';
import { MappingMore } from './mapping-more.tsx';
import { MappingSentence, unitName } from './mapping-words.tsx';
import { TrialResults, useTrial } from './trial-results.tsx';
import { useIncomingWords } from './use-incoming-words.ts';
import './incoming.css';

export interface MappingFormProps {
  readonly draft: MappingInput;
  readonly onDraft: (draft: MappingInput) => void;
  /** Whose levels may stand for any; absent where none was heard. */
  readonly topic?: string | undefined;
  readonly save: (mapping: MappingInput) => Promise<unknown>;
}

export function MappingForm({ draft, onDraft, topic, save }: MappingFormProps) {
  const { text } = useIncomingWords();
  const mutation = useMutation();
  const [trialError, setTrialError] = useState<unknown>();
  const results = useTrial(draft, setTrialError);
  const works = results?.some(({ readings, isOfUnknownAge }) => readings.length > 0 || isOfUnknownAge) ?? false;
  return (
    <form
      class="form mapping-form"
      aria-label={text('page-incoming.mapping')}
      onSubmit={(event) => {
        event.preventDefault();
        void mutation.run(() => save(draft));
      }}
    >
      <Values draft={draft} onDraft={onDraft} mutation={mutation} />
      {topic?.includes('/') && <Levels draft={draft} onDraft={onDraft} topic={topic} />}
      <Site draft={draft} onDraft={onDraft} />
      <MappingMore draft={draft} onDraft={onDraft} mutation={mutation} />
      <p role="status">
        <MappingSentence mapping={draft} />
      </p>
      {results && <TrialResults results={results} />}
      <div class="buttons">
        <button type="submit" class="primary" disabled={mutation.busy || !works}>
          {text('page-incoming.mapping.save')}
        </button>
      </div>
      <Refusal error={mutation.error ?? trialError} />
    </form>
  );
}

type DraftProps = Pick<MappingFormProps, 'draft' | 'onDraft'>;

function Values({ draft, onDraft, mutation }: DraftProps & { readonly mutation: Mutation }) {
  const words = useIncomingWords();
  const { text } = words;
  return (
    <>
      {draft.values.map((value, index) => (
        <fieldset class="mapped-value" key={`${value.each} ${value.only?.is} ${value.pointer}`}>
          {draft.values.length > 1 && <legend>{placeText(value)}</legend>}
          <div class="field-row">
            <PickField
              label={text('page-incoming.mapping.quantity')}
              value={value.quantity}
              choices={quantities.map((one) => [one, capital(quantityName(one))] as const)}
              onValue={(quantity) => onDraft(withValue(draft, index, { quantity, unit: firstUnit(quantity) }))}
              error={mutation.fieldError(`/values/${index}/quantity`)}
            />
            <PickField
              label={text('page-incoming.mapping.unit')}
              value={value.unit}
              choices={foreignUnitsOf(value.quantity).map((one) => [one, unitName(one, words)] as const)}
              onValue={(unit) => onDraft(withValue(draft, index, { unit }))}
              error={mutation.fieldError(`/values/${index}/unit`)}
            />
          </div>
        </fieldset>
      ))}
    </>
  );
}

/** Each level of the topic, pressed where it is another for another device. */
function Levels({ draft, onDraft, topic }: DraftProps & { readonly topic: string }) {
  const { text } = useIncomingWords();
  const levels = draft.filter.split('/');
  if (levels.length !== topic.split('/').length) return null;
  return (
    <fieldset class="topic-levels">
      <legend>{text('page-incoming.mapping.levels')}</legend>
      {topic.split('/').map((level, index) => (
        <button
          // A topic may have the same level twice.
          key={`${index} ${level}`}
          type="button"
          class="json-value"
          aria-pressed={levels[index] === '+'}
          onClick={() => onDraft(withLevel(draft, topic, index))}
        >
          {level}
        </button>
      ))}
    </fieldset>
  );
}

function Site({ draft, onDraft }: DraftProps) {
  const { text } = useIncomingWords();
  const sites = useInstallation((installation) => installation.sites);
  if (sites.length < 2) return null;
  const named = sites.map((one) => [one.id, one.name] as const);
  const isKnown = sites.some(({ id }) => id === draft.site);
  return (
    <PickField
      label={text('page-incoming.mapping.site')}
      value={draft.site}
      choices={isKnown ? named : [[draft.site, draft.site], ...named]}
      onValue={(site) => onDraft({ ...draft, site })}
    />
  );
}
