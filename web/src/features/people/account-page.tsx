/** Oneself: where one is signed in, one's password, one's tokens. */
import { useState } from 'preact/hooks';
import { passwordProblem } from '../../../../shared/password-rule.ts';
import { reasonOf } from '../../data/client.ts';
import { useReader } from '../../data/live/use-installation.ts';
import { useMe, whoWrites } from '../../data/me.ts';
import { signOut } from '../../data/sign-out.ts';
import { useStore } from '../../data/store.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { useQuery } from '../../data/use-query.ts';
import { dayAndTime } from '../../ui/format/local-time.ts';
import { Refusal } from '../../ui/parts/forms.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { isOf } from '../journal/outbox.ts';
import { waiting } from '../journal/waiting.ts';
import { deviceWords } from './device-words.ts';
import { PasswordField } from './password-field.tsx';
import { changePassword, endMyOtherSessions, endMySession, getMySessions } from './people-api.ts';
import { TokensPart } from './tokens-part.tsx';
import './people.css';
import { useSay } from '../../data/live/use-say.ts';
import { renderPassword } from './password-words.ts';
import { usePeopleWords } from './use-people-words.ts';

export function AccountPage() {
  const me = useMe();
  if (me?.via !== 'session') return <NoAccount via={me?.via} />;
  return <Account name={me.name} role={me.role} />;
}

function NoAccount({ via }: { readonly via: 'token' | 'here' | undefined }) {
  const { text, rich } = usePeopleWords();
  const heading = usePage(text('page-people.account'));
  return (
    <div class="page narrow">
      <h1 ref={heading} tabIndex={-1}>
        {text(via === 'token' ? 'page-people.account.by-token' : 'page-people.account.nobody')}
      </h1>
      <p class="lead">
        {via === 'token'
          ? text('page-people.account.by-token.hint')
          : rich('page-people.account.nobody.hint', { link: (inner) => <a href="/people">{inner}</a> })}
      </p>
    </div>
  );
}

function Account({ name, role }: { readonly name: string; readonly role: 'owner' | 'keeper' | 'viewer' }) {
  const { text } = usePeopleWords();
  const heading = usePage(text('page-people.account'));
  return (
    <div class="page">
      <div class="opening">
        <h1 ref={heading} tabIndex={-1}>
          {text('page-people.account.you', { personName: name })}
        </h1>
        <p class="lead">{text(`page-people.role.${role}.says`)}</p>
        <SignOut />
      </div>
      <Part id="sessions" title={text('page-people.sessions')}>
        <SessionList />
      </Part>
      <Part id="password" title={text('page-people.password')}>
        <PasswordForm name={name} />
      </Part>
      <Part id="tokens" title={text('page-people.tokens')}>
        <TokensPart />
      </Part>
    </div>
  );
}

function SignOut() {
  const { text } = usePeopleWords();
  const mutation = useMutation();
  const count = useStore(
    waiting,
    ({ entries }) => entries.filter((one) => one.refused === null && isOf(one, whoWrites())).length,
  );
  return (
    <>
      {count > 0 && <p class="hint">{text('page-people.sign-out.waiting', { entryCount: count })}</p>}
      <Refusal error={mutation.error} />
      <p>
        <button type="button" class="primary" disabled={mutation.busy} onClick={() => void mutation.run(signOut)}>
          {text('page-people.sign-out')}
        </button>
      </p>
    </>
  );
}

function SessionList() {
  const words = usePeopleWords();
  const { text } = words;
  const { value, error, refresh } = useQuery('sessions', getMySessions);
  const mutation = useMutation();
  const reader = useReader();
  const when = (instant: string) => dayAndTime(Date.parse(instant), reader);
  if (!value) return error === undefined ? null : <p class="refusal">{reasonOf(error)}</p>;
  return (
    <>
      <ul class="people-list">
        {value.sessions.map((one) => (
          <li key={one.id}>
            <div>
              <h3>
                {deviceWords(one.agent, words)}
                {one.isThis && <span class="quiet"> {text('page-people.sessions.this')}</span>}
              </h3>
              <p class="quiet">
                {text('page-people.sessions.says', {
                  addressText: one.address,
                  sinceText: when(one.since),
                  usedText: when(one.seenAt),
                  endsText: when(one.endsAt),
                })}
              </p>
            </div>
            {!one.isThis && (
              <button
                type="button"
                disabled={mutation.busy}
                onClick={() => void mutation.run(() => endMySession(one.id)).then(refresh)}
              >
                {text('page-people.sessions.end')}
              </button>
            )}
          </li>
        ))}
      </ul>
      <Refusal error={mutation.error} />
      {value.sessions.length > 2 && (
        <p>
          <button
            type="button"
            disabled={mutation.busy}
            onClick={() => void mutation.run(endMyOtherSessions).then(refresh)}
          >
            {text('page-people.sessions.end-others')}
          </button>
        </p>
      )}
    </>
  );
}

function PasswordForm({ name }: { readonly name: string }) {
  const { text } = usePeopleWords();
  const mutation = useMutation();
  const [current, setCurrent] = useState('');
  const [next, setNext] = useState('');
  const [tried, setTried] = useState(false);
  const [done, setDone] = useState(false);
  const say = useSay(renderPassword);
  const problem = passwordProblem(next, [name]);
  const weak = tried && problem !== undefined ? say(problem) : undefined;
  return (
    <form
      class="form"
      aria-label={text('page-people.password')}
      onSubmit={(event) => {
        event.preventDefault();
        setTried(true);
        setDone(false);
        if (problem !== undefined) return;
        void mutation
          .run(() => changePassword(current, next))
          .then((changed) => {
            setDone(changed);
            if (!changed) return;
            setCurrent('');
            setNext('');
            setTried(false);
          });
      }}
    >
      <input type="text" hidden autocomplete="username" value={name} readOnly />
      <PasswordField
        label={text('page-people.password.present')}
        kind="present"
        value={current}
        onValue={setCurrent}
        error={mutation.fieldError('/current')}
      />
      <PasswordField
        label={text('page-people.password.new')}
        kind="new"
        hint={text('page-people.password.hint')}
        value={next}
        onValue={setNext}
        error={weak ?? mutation.fieldError('/next')}
      />
      <p class="hint">{text('page-people.password.ends')}</p>
      <Refusal error={mutation.error} />
      <button type="submit" class="primary" disabled={mutation.busy}>
        {text('page-people.password.change')}
      </button>
      <p role="status">{done && text('page-people.password.changed')}</p>
    </form>
  );
}
