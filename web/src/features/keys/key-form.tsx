/** Asks what a new key is for, and makes it. */
import { useState } from 'preact/hooks';
import type { MadeKey } from '../../../../shared/contracts/keys.ts';
import { useInstallation } from '../../data/live/use-installation.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { Choice, Field, Refusal, TextField } from '../../ui/parts/forms.tsx';
import { type KeyDraft, keyUses, nameFor, newKeyOf, useHints } from './key-draft.ts';
import { makeKey } from './keys-api.ts';

interface KeyFormProps {
  readonly onMade: (made: MadeKey) => void;
}

export function KeyForm({ onMade }: KeyFormProps) {
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
      aria-label="New key"
      onSubmit={(event) => {
        event.preventDefault();
        void mutation.run(async () => onMade(await makeKey(newKeyOf(whole))));
      }}
    >
      <Choice legend="What is it for?" value={draft.use} choices={keyUses} onValue={(use) => change({ use })} />
      <p class="hint">{useHints[draft.use]}</p>
      {speaks && (
        <TextField
          label="Site"
          mono
          required
          hint="As it stands in the topic: small letters, digits, - and _."
          value={whole.site}
          error={mutation.fieldError('/site')}
          onValue={(site) => change({ site })}
        />
      )}
      {draft.use === 'probe' && (
        <TextField
          label="Probe"
          mono
          required
          placeholder="probe-1"
          value={draft.probe}
          error={mutation.fieldError('/probe')}
          onValue={(probe) => change({ probe })}
        />
      )}
      <TextField
        label="What you call the key"
        hint="May stay empty."
        placeholder={speaks && whole.site === '' ? '' : nameFor(draft.use, whole.site, draft.probe || 'probe-1')}
        value={draft.name}
        error={mutation.fieldError('/name')}
        onValue={(name) => change({ name })}
      />
      {speaks && (
        <ForeignTopics value={draft.foreign} onValue={(foreign) => change({ foreign })} wrong={mutation.fieldError} />
      )}
      <Refusal error={mutation.error} />
      <button type="submit" class="primary" disabled={mutation.busy}>
        Make the key
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
  return (
    <details class="more">
      <summary>It also publishes on foreign topics</summary>
      <Field
        label="Topics of other devices"
        hint="One a line, as in your mappings; + stands for one level and # for all that follow."
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
