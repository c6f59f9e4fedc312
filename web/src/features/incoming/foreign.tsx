/** What devices say that nobody knows: what is wanted of it is pressed, and the rest is not for us. */
import { useState } from 'preact/hooks';
import type { MappingInput } from '../../../../shared/contracts/mappings.ts';
import { msPerMinute } from '../../../../shared/units.ts';
import { getForeign, getMappings, listenTo } from '../../data/mappings.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { useQuery, useQueryEvery } from '../../data/use-query.ts';
import { Refusal, TextField } from '../../ui/parts/forms.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import { HeardMessageView } from './heard-message.tsx';
import { Mappings } from './mappings.tsx';
import { useIncomingWords } from './use-incoming-words.ts';
import './incoming.css';

const listenMinutes = 10;
const everyTopic = '#';
const refetchEveryMs = 2_000;
const fewMessages = 5;

export const useForeign = () => useQueryEvery('foreign', getForeign, refetchEveryMs);

export function Foreign(heard: ReturnType<typeof useForeign>) {
  const { text, rich } = useIncomingWords();
  const { value: known, error, refresh } = useQuery('mappings', getMappings);
  const [isSaved, setSaved] = useState(false);
  const [all, setAll] = useState(false);
  const waiting = (heard.value?.messages ?? [])
    .filter(({ isUsed }) => !isUsed)
    // In an order that stays while they speak.
    .sort((one, other) => one.topic.localeCompare(other.topic));
  const saved = async ({ values }: MappingInput) => {
    await Promise.all([refresh(), heard.refresh()]);
    setSaved(values.length > 0);
  };
  return (
    <>
      <p>
        <May to="owner" otherwise={text('page-incoming.foreign.lead.ask')}>
          {text('page-incoming.foreign.lead')}
        </May>
      </p>
      <Refusal error={heard.error} />
      <p role="status">
        {isSaved && rich('page-incoming.mapping.saved', { link: (inner) => <a href="/">{inner}</a> })}
      </p>
      {heard.value && waiting.length === 0 && <p class="quiet">{text('page-incoming.foreign.none')}</p>}
      <ol class="messages">
        {waiting.slice(0, all ? undefined : fewMessages).map((message) => (
          <HeardMessageView key={message.topic} message={message} onSaved={saved} />
        ))}
      </ol>
      {!all && waiting.length > fewMessages && (
        <button type="button" onClick={() => setAll(true)}>
          {text('page-incoming.foreign.all', { topicCount: waiting.length })}
        </button>
      )}
      <May to="owner">
        <Listen />
      </May>
      <h3 class="sub-head">{text('page-incoming.foreign.in-use')}</h3>
      <Refusal error={error} />
      {known && (
        <Mappings
          mappings={known.mappings}
          messages={heard.value?.messages ?? []}
          onChange={async () => {
            await Promise.all([refresh(), heard.refresh()]);
          }}
        />
      )}
    </>
  );
}

/** A broker that somebody else runs tells us nothing that we did not ask for. */
function Listen() {
  const { text } = useIncomingWords();
  const mutation = useMutation();
  const [typed, setTyped] = useState(everyTopic);
  const [isListening, setListening] = useState(false);
  return (
    <details class="more">
      <summary>{text('page-incoming.listen')}</summary>
      <form
        class="form listen-form"
        onSubmit={(event) => {
          event.preventDefault();
          void mutation.run(() => listenTo(typed.trim(), listenMinutes)).then(setListening);
        }}
      >
        <TextField
          label={text('page-incoming.listen.filter')}
          mono
          hint={text('page-incoming.listen.hint', { listensMs: listenMinutes * msPerMinute })}
          value={typed}
          onValue={setTyped}
          required
          error={mutation.fieldError('/filter')}
        />
        <button type="submit" disabled={mutation.busy}>
          {text('page-incoming.listen.do')}
        </button>
        <Refusal error={mutation.error} />
        <p role="status">{isListening && text('page-incoming.heard.none')}</p>
      </form>
    </details>
  );
}
