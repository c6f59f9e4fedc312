/** Listening to foreign topics and turning what they say into readings. */
import { useState } from 'preact/hooks';
import { msPerMinute } from '../../../../shared/units.ts';
import { useServerNow } from '../../data/live/use-installation.ts';
import { getForeign, getMappings, listenTo } from '../../data/routes.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { useQuery, useQueryEvery } from '../../data/use-query.ts';
import { Refusal, TextField } from '../../ui/parts/forms.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import { documentOf } from './json-pointer.ts';
import { JsonTree } from './json-tree.tsx';
import { MappingForm } from './mapping-form.tsx';
import { Mappings } from './mappings.tsx';
import './incoming.css';
import { useIncomingWords } from './use-incoming-words.ts';

const listenMinutes = 10;
const exampleFilter = 'shed/+/sensors';
const refetchEveryMs = 2_000;

export function Foreign() {
  const { text } = useIncomingWords();
  const { value: known, error, refresh } = useQuery('mappings', getMappings);
  return (
    <>
      <p>
        <May to="owner" otherwise={text('page-incoming.foreign.lead.ask')}>
          {text('page-incoming.foreign.lead')}
        </May>
      </p>
      <May to="owner">
        <Listen onSaved={refresh} />
      </May>
      <h3 class="sub-head">{text('page-incoming.foreign.in-use')}</h3>
      <Refusal error={error} />
      {known && <Mappings mappings={known.mappings} onChange={refresh} />}
    </>
  );
}

function Listen({ onSaved }: { readonly onSaved: () => Promise<void> }) {
  const { text } = useIncomingWords();
  const mutation = useMutation();
  const [typed, setTyped] = useState('');
  const [filter, setFilter] = useState<string>();
  return (
    <>
      <form
        class="form listen-form"
        onSubmit={(event) => {
          event.preventDefault();
          void mutation
            .run(() => listenTo(typed.trim(), listenMinutes))
            .then((done) => done && setFilter(typed.trim()));
        }}
      >
        <TextField
          label={text('page-incoming.listen.filter')}
          mono
          placeholder={exampleFilter}
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
      </form>
      {filter !== undefined && <Heard key={filter} filter={filter} onSaved={onSaved} />}
    </>
  );
}

function Heard({ filter, onSaved }: { readonly filter: string; readonly onSaved: () => Promise<void> }) {
  const { text } = useIncomingWords();
  const { value, error } = useQueryEvery(filter, () => getForeign(filter), refetchEveryMs);
  const nowMs = useServerNow();
  const [pointer, setPointer] = useState<string>();
  const messages = value?.messages ?? [];
  return (
    <div class="heard">
      <h3 class="sub-head">{text('page-incoming.heard', { topicText: filter })}</h3>
      <Refusal error={error} />
      {messages.length === 0 && error === undefined && <p class="quiet">{text('page-incoming.heard.none')}</p>}
      <ol class="messages">
        {messages.slice(0, 5).map((message) => {
          const document = documentOf(message.payload);
          return (
            <li key={`${message.at} ${message.topic} ${message.payload}`}>
              <p class="message-head">
                <code>{message.topic}</code>{' '}
                <span>{text('page-incoming.heard.age', { heardAgoMs: nowMs - Date.parse(message.at) })}</span>
              </p>
              {document ? (
                <JsonTree value={document.value} picked={pointer ?? '\u0000'} onPick={setPointer} />
              ) : (
                <pre>{message.payload || text('page-incoming.empty')}</pre>
              )}
            </li>
          );
        })}
      </ol>
      {messages.length > 0 && pointer === undefined && <p class="quiet">{text('page-incoming.heard.pick')}</p>}
      {pointer !== undefined && (
        <MappingForm filter={filter} pointer={pointer} onPointer={setPointer} onSaved={onSaved} />
      )}
    </div>
  );
}
