/** The mappings of foreign topics that are in use, as sentences; changed and removed here. */
import { useState } from 'preact/hooks';
import type { HeardMessage } from '../../../../shared/contracts/ingest.ts';
import type { Mapping, MappingInput } from '../../../../shared/contracts/mappings.ts';
import { changeMapping, removeMapping } from '../../data/mappings.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { Refusal } from '../../ui/parts/forms.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import { MappingForm } from './mapping-form.tsx';
import { MappingSentence } from './mapping-words.tsx';
import { useIncomingWords } from './use-incoming-words.ts';
import './incoming.css';

interface MappingsProps {
  readonly mappings: readonly Mapping[];
  readonly messages: readonly HeardMessage[];
  readonly onChange: () => Promise<void>;
}

export function Mappings({ mappings, messages, onChange }: MappingsProps) {
  const { text } = useIncomingWords();
  if (mappings.length === 0) return <p class="quiet">{text('page-incoming.mappings.none')}</p>;
  return (
    <ul class="mappings">
      {mappings.map((mapping) => (
        <OneMapping
          key={mapping.id}
          mapping={mapping}
          topic={messages.find(({ topic }) => topic === mapping.filter)?.topic}
          onChange={onChange}
        />
      ))}
    </ul>
  );
}

interface OneMappingProps extends Pick<MappingsProps, 'onChange'> {
  readonly mapping: Mapping;
  readonly topic: string | undefined;
}

function OneMapping({ mapping, topic, onChange }: OneMappingProps) {
  const { text } = useIncomingWords();
  const mutation = useMutation();
  const [draft, setDraft] = useState<MappingInput>();
  const { id, ...fields } = mapping;
  const save = async (changed: MappingInput) => {
    await changeMapping(id, changed);
    setDraft(undefined);
    await onChange();
  };
  return (
    <li>
      <p>
        <MappingSentence mapping={mapping} />
      </p>
      <May to="owner">
        <div class="buttons">
          {mapping.values.length > 0 && (
            <button
              type="button"
              aria-expanded={draft !== undefined}
              aria-label={text('page-incoming.mappings.change.of', { topicText: mapping.filter })}
              onClick={() => setDraft(draft === undefined ? fields : undefined)}
            >
              {text('page-incoming.mappings.change')}
            </button>
          )}
          <button
            type="button"
            disabled={mutation.busy}
            aria-label={text('page-incoming.mappings.remove.of', { topicText: mapping.filter })}
            onClick={() => mutation.run(() => removeMapping(id).then(onChange))}
          >
            {text('page-incoming.mappings.remove')}
          </button>
        </div>
        {draft && <MappingForm draft={draft} onDraft={setDraft} topic={topic} save={save} />}
      </May>
      <Refusal error={mutation.error} />
    </li>
  );
}
