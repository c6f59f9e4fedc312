/** Asks what a new key is for, and makes it. */
import { useState } from 'preact/hooks';
import type { MadeKey } from '../../../../shared/contracts/keys.ts';
import { useInstallation } from '../../data/live/use-installation.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { Choice, Field, Refusal, TextField } from '../../ui/parts/forms.tsx';
import { type KeyDraft, keyUses, nameFor, newKeyOf } from './key-draft.ts';
import { makeKey } from './keys-api.ts';
import { useKeyWords } from './use-key-words.ts';

const exampleProbe = 'probe-1';

interface KeyFormProps {
  readonly onMade: (made: MadeKey) => void;
}

export function KeyForm({ onMade }: KeyFormProps) {
  const words = useKeyWords();
  const { text } = words;
  const mutation = useMutation();
  const firstSite = useInstallation((installation) => installation.sites[0]?.id);
  const [draft, setDraft] = useState<KeyDraft>({ use: 'probe', name: '', site: '', probe: '', foreign: '' });
  const change = (part: Partial<KeyDraft>) => {
    mutation.clear();
    setDraft({ ...draft, ...part });
  };
  const whole: KeyDraft = { ...draft, site: draft.site || (firstSite ?? '') };
  const speaks = draft.use === 'probe' || draft.use === 'site';
  return (
    <form
      class="form"
      aria-label={text('page-keys.new.aloud')}
      onSubmit={(event) => {
        event.preventDefault();
        void mutation.run(async () => onMade(await makeKey(newKeyOf(whole, words))));
      }}
    >
      <Choice
        legend={text('page-keys.use')}
        value={draft.use}
        choices={keyUses.map((use) => [use, text(`page-keys.use.${use}`)] as const)}
        onValue={(use) => change({ use })}
      />
      <p class="hint">{text(`page-keys.use.${draft.use}.hint`)}</p>
      {speaks && (
        <TextField
          label={text('page-keys.site')}
          mono
          required
          hint={text('page-keys.site.hint')}
          value={whole.site}
          error={mutation.fieldError('/site')}
          onValue={(site) => change({ site })}
        />
      )}
      {draft.use === 'probe' && (
        <TextField
          label={text('page-keys.probe')}
          mono
          required
          placeholder={exampleProbe}
          value={draft.probe}
          error={mutation.fieldError('/probe')}
          onValue={(probe) => change({ probe })}
        />
      )}
      <TextField
        label={text('page-keys.name')}
        hint={text('page-keys.name.hint')}
        placeholder={
          speaks && whole.site === '' ? '' : nameFor(draft.use, whole.site, draft.probe || exampleProbe, words)
        }
        value={draft.name}
        error={mutation.fieldError('/name')}
        onValue={(name) => change({ name })}
      />
      {speaks && (
        <ForeignTopics value={draft.foreign} onValue={(foreign) => change({ foreign })} wrong={mutation.fieldError} />
      )}
      <Refusal error={mutation.error} />
      <button type="submit" class="primary" disabled={mutation.busy}>
        {text('page-keys.make')}
      </button>
    </form>
  );
}

interface ForeignTopicsProps {
  readonly value: string;
  readonly onValue: (value: string) => void;
  readonly wrong: (pointer: string) => string | undefined;
}

function ForeignTopics({ value, onValue, wrong }: ForeignTopicsProps) {
  const { text } = useKeyWords();
  return (
    <details class="more">
      <summary>{text('page-keys.foreign')}</summary>
      <Field
        label={text('page-keys.foreign.topics')}
        hint={text('page-keys.foreign.hint')}
        error={[0, 1, 2, 3, 4].map((index) => wrong(`/foreign/${index}`)).find(Boolean)}
      >
        {(ids) => (
          <textarea
            {...ids}
            class="mono"
            rows={3}
            spellcheck={false}
            value={value}
            onInput={(event) => onValue(event.currentTarget.value)}
          />
        )}
      </Field>
    </details>
  );
}
