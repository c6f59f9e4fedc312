/** The audit trail, newest first, a page at a time. */
import { useEffect, useState } from 'preact/hooks';
import type { AuditEntry } from '../../../../shared/contracts/people.ts';
import { useReader } from '../../data/live/use-installation.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { useQuery } from '../../data/use-query.ts';
import { dayAndTime } from '../../ui/format/local-time.ts';
import { Field, PickField, Refusal, TextField } from '../../ui/parts/forms.tsx';
import { OnlyFor } from '../../ui/parts/only-for.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { getAudit, getPeople } from './people-api.ts';
import './people.css';
import { usePeopleWords } from './use-people-words.ts';

export function WhoDidWhatPage() {
  return (
    <OnlyFor to="owner">
      <WhoDidWhat />
    </OnlyFor>
  );
}

/** What is looked for in the trail, and what was found so far. */
function useTrail() {
  const mutation = useMutation();
  const [person, setPerson] = useState('');
  const [words, setWords] = useState('');
  const [from, setFrom] = useState('');
  const [shown, setShown] = useState<{ entries: AuditEntry[]; next: string | null }>();

  const query = (after?: string) => ({
    limit: '50',
    ...(person !== '' && { person }),
    ...(words.trim() !== '' && { words: words.trim() }),
    ...(from !== '' && { from: new Date(`${from}T00:00`).toISOString() }),
    ...(after !== undefined && { after }),
  });
  const look = () => mutation.run(async () => setShown(await getAudit(query())));
  const lookFurther = (after: string) =>
    mutation.run(async () => {
      const more = await getAudit(query(after));
      setShown({ entries: [...(shown?.entries ?? []), ...more.entries], next: more.next });
    });
  useEffect(() => void look(), [person]);
  return { person, setPerson, words, setWords, from, setFrom, shown, look, lookFurther, mutation };
}

function WhoDidWhat() {
  const { text } = usePeopleWords();
  const heading = usePage(text('page-people.audit'));
  const people = useQuery('people', getPeople);
  const { person, setPerson, words, setWords, from, setFrom, shown, look, lookFurther, mutation } = useTrail();
  return (
    <div class="page">
      <div class="opening">
        <h1 ref={heading} tabIndex={-1}>
          {text('page-people.audit')}
        </h1>
        <p class="lead">{text('page-people.audit.lead')}</p>
      </div>
      <form
        class="trail-filter"
        aria-label={text('page-people.audit.find')}
        onSubmit={(event) => {
          event.preventDefault();
          void look();
        }}
      >
        <PickField
          label={text('page-people.audit.who')}
          value={person}
          choices={[
            ['', text('page-people.audit.everybody')],
            ...(people.value?.people ?? []).map(({ id, name }) => [id, name] as const),
          ]}
          onValue={setPerson}
        />
        <TextField
          label={text('page-people.audit.what')}
          value={words}
          onValue={setWords}
          placeholder={text('page-people.audit.what.example')}
        />
        <Field label={text('page-people.audit.from')}>
          {(ids) => <input {...ids} type="date" value={from} onInput={(event) => setFrom(event.currentTarget.value)} />}
        </Field>
        <button type="submit">{text('page-people.audit.find')}</button>
      </form>
      <Refusal error={mutation.error} />
      {shown?.entries.length === 0 && <p>{text('page-people.audit.none')}</p>}
      <ol class="trail">
        {shown?.entries.map((entry) => (
          <TrailLine key={entry.id} entry={entry} />
        ))}
      </ol>
      {shown?.next && (
        <p>
          <button type="button" disabled={mutation.busy} onClick={() => void lookFurther(shown.next ?? '')}>
            {text('page-people.audit.earlier')}
          </button>
        </p>
      )}
    </div>
  );
}

function TrailLine({ entry }: { readonly entry: AuditEntry }) {
  const { text, rich } = usePeopleWords();
  const reader = useReader();
  const details = [
    [text('page-people.audit.before'), entry.before],
    [text('page-people.audit.after'), entry.after],
  ] as const;
  const shown = details.filter(([, value]) => value !== null);
  return (
    <li>
      <p>
        {rich('page-people.audit.did', {
          personName: entry.personName,
          whatText: entry.what,
          hasSubject: entry.subject !== null,
          subjectText: entry.subjectName ?? entry.subject ?? '',
          b: (inner) => <b>{inner}</b>,
          subject: (inner) => <span class="trail-subject">{inner}</span>,
        })}
      </p>
      <p class="quiet">
        {text('page-people.audit.when', {
          whenText: dayAndTime(Date.parse(entry.at), reader),
          isKnown: entry.address !== null,
          addressText: entry.address ?? '',
          isByToken: entry.via === 'token',
        })}
      </p>
      {shown.length > 0 && (
        <details class="more">
          <summary>{text('page-people.audit.exactly')}</summary>
          {shown.map(([when, value]) => (
            <div key={when}>
              <h2>{when}</h2>
              <pre>{JSON.stringify(value, null, 1)}</pre>
            </div>
          ))}
        </details>
      )}
    </li>
  );
}
