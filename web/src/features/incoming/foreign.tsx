/** Listening to foreign topics and turning what they say into readings. */
import { useEffect, useState } from 'preact/hooks';
import { useServerNow } from '../../data/live/use-installation.ts';
import { getForeign, getMappings, listenTo } from '../../data/routes.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { useQuery } from '../../data/use-query.ts';
import { ageWords } from '../../ui/format/age.ts';
import { Refusal, TextField } from '../../ui/parts/forms.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import { documentOf } from './json-pointer.ts';
import { JsonTree } from './json-tree.tsx';
import { MappingForm } from './mapping-form.tsx';
import { Mappings } from './mappings.tsx';
import './incoming.css';

const listenMinutes = 10;
const refetchEveryMs = 2_000;

export function Foreign() {
  const { value: known, error, refresh } = useQuery('mappings', getMappings);
  return (
    <>
      <p>
        Probes that speak in their own way can be understood too:{' '}
        <May to="owner" otherwise="an owner listens to their topics, picks the value and says what it is.">
          listen to their topics, pick the value, say what it is.
        </May>
      </p>
      <May to="owner">
        <Listen onSaved={refresh} />
      </May>
      <h3 class="sub-head">In use</h3>
      <Refusal error={error} />
      {known && <Mappings mappings={known.mappings} onChange={refresh} />}
    </>
  );
}

function Listen({ onSaved }: { readonly onSaved: () => Promise<void> }) {
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
          label="Topic filter"
          mono
          placeholder="shed/+/sensors"
          hint={`+ stands for one level, # for all that follow. Listens for ${listenMinutes} minutes.`}
          value={typed}
          onValue={setTyped}
          required
          error={mutation.fieldError('/filter')}
        />
        <button type="submit" disabled={mutation.busy}>
          Listen
        </button>
        <Refusal error={mutation.error} />
      </form>
      {filter !== undefined && <Heard key={filter} filter={filter} onSaved={onSaved} />}
    </>
  );
}

function Heard({ filter, onSaved }: { readonly filter: string; readonly onSaved: () => Promise<void> }) {
  const { value, error, refresh } = useQuery(filter, () => getForeign(filter));
  const nowMs = useServerNow();
  const [pointer, setPointer] = useState<string>();
  useEffect(() => {
    const timer = setInterval(() => void refresh(), refetchEveryMs);
    return () => clearInterval(timer);
  }, []);
  const messages = value?.messages ?? [];
  return (
    <div class="heard">
      <h3 class="sub-head">Heard on {filter}</h3>
      <Refusal error={error} />
      {messages.length === 0 && error === undefined && <p class="quiet">Listening; nothing heard yet.</p>}
      <ol class="messages">
        {messages.slice(0, 5).map((message) => {
          const document = documentOf(message.payload);
          return (
            <li key={`${message.at} ${message.topic} ${message.payload}`}>
              <p class="message-head">
                <code>{message.topic}</code> <span>{ageWords(nowMs - Date.parse(message.at))}</span>
              </p>
              {document ? (
                <JsonTree value={document.value} picked={pointer ?? '\u0000'} onPick={setPointer} />
              ) : (
                <pre>{message.payload || '(empty)'}</pre>
              )}
            </li>
          );
        })}
      </ol>
      {messages.length > 0 && pointer === undefined && <p class="quiet">Click the number that is the reading.</p>}
      {pointer !== undefined && (
        <MappingForm filter={filter} pointer={pointer} onPointer={setPointer} onSaved={onSaved} />
      )}
    </div>
  );
}
