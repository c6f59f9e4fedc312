/** One message of a device that nobody knows: its values as buttons, and what is made of those that are pressed. */
import { useState } from 'preact/hooks';
import type { HeardMessage, MessageValue } from '../../../../shared/contracts/ingest.ts';
import type { MappingInput } from '../../../../shared/contracts/mappings.ts';
import { useInstallation, useServerNow } from '../../data/live/use-installation.ts';
import { saveMapping } from '../../data/mappings.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { usualSite } from '../../data/usual-site.ts';
import { Refusal } from '../../ui/parts/forms.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import { draftOf, isPressed, placeText, withPressed } from './mapping-draft.ts';
import { MappingForm } from './mapping-form.tsx';
import { useIncomingWords } from './use-incoming-words.ts';
import './incoming.css';

interface MessageProps {
  readonly message: HeardMessage;
  /** Something is made of it from now on. */
  readonly onSaved: (mapping: MappingInput) => Promise<void>;
}

export function HeardMessageView({ message, onSaved }: MessageProps) {
  const { text } = useIncomingWords();
  const nowMs = useServerNow();
  const { topic, payload, content } = message;
  const raw = <pre>{payload || text('page-incoming.empty')}</pre>;
  return (
    <li>
      <p class="message-head">
        <code>{topic}</code>{' '}
        <span>{text('page-incoming.heard.age', { heardAgoMs: nowMs - Date.parse(message.at) })}</span>
      </p>
      {message.isRetained && <p class="quiet">{text('page-incoming.message.retained')}</p>}
      <May to="owner" otherwise={raw}>
        {content.values.length === 0 && (
          <>
            {raw}
            <p class="quiet">{text('page-incoming.message.no-values')}</p>
          </>
        )}
        <Pressing message={message} onSaved={onSaved} />
      </May>
    </li>
  );
}

function Pressing({ message, onSaved }: MessageProps) {
  const { text } = useIncomingWords();
  const site = useInstallation(({ sites }) => sites[0]?.id ?? usualSite);
  const mutation = useMutation();
  // Kept while it is put together, however many messages come meanwhile.
  const [draft, setDraft] = useState<MappingInput>();
  const { topic, content } = message;
  const now = draft ?? draftOf(message, site, Intl.DateTimeFormat().resolvedOptions().timeZone);
  const save = async (mapping: MappingInput) => {
    await saveMapping(mapping);
    await onSaved(mapping);
  };
  return (
    <>
      <ul class="message-values">
        {content.values.map((value) => (
          <li key={`${value.each} ${value.only?.is} ${value.pointer}`}>
            <ValueButton
              value={value}
              pressed={isPressed(now, value)}
              onPress={() => setDraft(withPressed(now, value))}
            />
          </li>
        ))}
      </ul>
      {now.values.length > 0 && <MappingForm draft={now} onDraft={setDraft} topic={topic} save={save} />}
      {now.values.length === 0 && (
        <button
          type="button"
          disabled={mutation.busy}
          aria-label={text('page-incoming.message.ignore.of', { topicText: topic })}
          onClick={() => void mutation.run(() => save({ filter: topic, site: '', probe: '', values: [] }))}
        >
          {text('page-incoming.message.ignore')}
        </button>
      )}
      <Refusal error={mutation.error} />
    </>
  );
}

interface ValueButtonProps {
  readonly value: MessageValue;
  readonly pressed: boolean;
  readonly onPress: () => void;
}

function ValueButton({ value, pressed, onPress }: ValueButtonProps) {
  const { text } = useIncomingWords();
  const place = placeText(value);
  return (
    <button
      type="button"
      class="json-value"
      aria-pressed={pressed}
      aria-label={text('page-incoming.heard.take', {
        valueText: value.text,
        isWhole: place === '',
        pointerText: place,
      })}
      onClick={onPress}
    >
      {place !== '' && (
        <span class="json-key" lang="zxx">
          {place}{' '}
        </span>
      )}
      {value.text}
    </button>
  );
}
