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
import { ARole, deviceWords, roleSays } from '../../ui/format/role-words.ts';
import { Refusal } from '../../ui/parts/forms.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { isOf } from '../journal/outbox.ts';
import { waiting } from '../journal/waiting.ts';
import { PasswordField } from './password-field.tsx';
import { changePassword, endMyOtherSessions, endMySession, getMySessions } from './people-api.ts';
import { TokensPart } from './tokens-part.tsx';
import './people.css';
import { useSay } from '../../data/live/use-say.ts';
import { renderPassword } from './password-words.ts';

export function AccountPage() {
  const me = useMe();
  if (me?.via !== 'session') return <NoAccount via={me?.via} />;
  return <Account name={me.name} role={me.role} />;
}

function NoAccount({ via }: { readonly via: 'token' | 'here' | undefined }) {
  const heading = usePage('My account');
  return (
    <div class="page narrow">
      <h1 ref={heading} tabIndex={-1}>
        {via === 'token' ? 'You are here by a token.' : 'Nobody is signed in.'}
      </h1>
      <p class="lead">
        {via === 'token' ? (
          'A token has no sessions and no password. Forget it under Settings to sign in by name.'
        ) : (
          <>
            While no owner is set up, this machine itself may do everything. <a href="/people">Set one up</a>
          </>
        )}
      </p>
    </div>
  );
}

function Account({ name, role }: { readonly name: string; readonly role: 'owner' | 'keeper' | 'viewer' }) {
  const heading = usePage('My account');
  return (
    <div class="page">
      <div class="opening">
        <h1 ref={heading} tabIndex={-1}>
          You are {name}.
        </h1>
        <p class="lead">
          {ARole[role]} {roleSays[role]}.
        </p>
        <SignOut />
      </div>
      <Part id="sessions" title="Where you are signed in">
        <SessionList />
      </Part>
      <Part id="password" title="Password">
        <PasswordForm name={name} />
      </Part>
      <Part id="tokens" title="Tokens for programs">
        <TokensPart />
      </Part>
    </div>
  );
}

function SignOut() {
  const mutation = useMutation();
  const count = useStore(
    waiting,
    ({ entries }) => entries.filter((one) => one.refused === null && isOf(one, whoWrites())).length,
  );
  return (
    <>
      {count > 0 && (
        <p class="hint">
          {count === 1 ? 'An entry of yours waits' : `${count} entries of yours wait`} on this device, and{' '}
          {count === 1 ? 'is' : 'are'} sent once you sign in here again.
        </p>
      )}
      <Refusal error={mutation.error} />
      <p>
        <button type="button" class="primary" disabled={mutation.busy} onClick={() => void mutation.run(signOut)}>
          Sign out
        </button>
      </p>
    </>
  );
}

function SessionList() {
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
                {deviceWords(one.agent)}
                {one.isThis && <span class="quiet"> (this one)</span>}
              </h3>
              <p class="quiet">
                From {one.address}, since {when(one.since)}, last used {when(one.seenAt)}; ends by itself on{' '}
                {when(one.endsAt)}, or after a week without use.
              </p>
            </div>
            {!one.isThis && (
              <button
                type="button"
                disabled={mutation.busy}
                onClick={() => void mutation.run(() => endMySession(one.id)).then(refresh)}
              >
                End
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
            End all but this one
          </button>
        </p>
      )}
    </>
  );
}

function PasswordForm({ name }: { readonly name: string }) {
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
      aria-label="Password"
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
        label="The present one"
        kind="present"
        value={current}
        onValue={setCurrent}
        error={mutation.fieldError('/current')}
      />
      <PasswordField
        label="The new one"
        kind="new"
        hint="At least 12 characters. Four words that have nothing to do with each other do well."
        value={next}
        onValue={setNext}
        error={weak ?? mutation.fieldError('/next')}
      />
      <p class="hint">
        A new password signs you out everywhere but here. Your tokens, the invitations you made and push messages to
        your other devices end too.
      </p>
      <Refusal error={mutation.error} />
      <button type="submit" class="primary" disabled={mutation.busy}>
        Change it
      </button>
      <p role="status">{done && 'Changed. Everything else that opened your account has ended.'}</p>
    </form>
  );
}
