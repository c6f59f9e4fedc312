/** Tokens by which programs of a person read and write. */
import { useState } from 'preact/hooks';
import type { ApiToken } from '../../../../shared/contracts/people.ts';
import { roleWithin, type Scope, scopes } from '../../../../shared/person.ts';
import { reasonOf } from '../../data/client.ts';
import { useReader } from '../../data/live/use-installation.ts';
import { useMe } from '../../data/me.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { useQuery } from '../../data/use-query.ts';
import { fullDay } from '../../ui/format/full-date.ts';
import { dayAndTime } from '../../ui/format/local-time.ts';
import { scopeNames } from '../../ui/format/role-words.ts';
import { PickField, Refusal, TextField } from '../../ui/parts/forms.tsx';
import { SureButton } from '../../ui/parts/sure-button.tsx';
import { MadeOnce } from './made-once.tsx';
import { PasswordField } from './password-field.tsx';
import { getTokens, makeToken, revokeToken } from './people-api.ts';
import './people.css';

const lengths = [
  ['30', 'A month'],
  ['365', 'A year'],
  ['', 'Until it is revoked'],
] as const;

export function TokensPart() {
  const { value, error, refresh } = useQuery('tokens', getTokens);
  return (
    <>
      <p>
        A token stands for you in the header of a request: <code>Authorization: Bearer …</code>. It never may do more
        than you, and ends when you change your password.
      </p>
      {error !== undefined && !value && <p class="refusal">{reasonOf(error)}</p>}
      {value && value.tokens.length > 0 && (
        <ul class="people-list">
          {value.tokens.map((token) => (
            <TokenLine key={token.id} token={token} refresh={refresh} />
          ))}
        </ul>
      )}
      <NewToken refresh={refresh} />
    </>
  );
}

function TokenLine({ token, refresh }: { readonly token: ApiToken; readonly refresh: () => Promise<void> }) {
  const reader = useReader();
  const me = useMe();
  const when = (instant: string) => dayAndTime(Date.parse(instant), reader);
  return (
    <li>
      <div>
        <h3>{token.name}</h3>
        <p class="quiet">
          {token.personId !== me?.id && `Of ${token.personName}. `}It {scopeNames[token.scope]}. Made{' '}
          {when(token.madeAt)}; {token.usedAt === null ? 'never used' : `last used ${when(token.usedAt)}`}
          {token.endsAt !== null && `; ends ${fullDay(Date.parse(token.endsAt), reader)}`}.
        </p>
      </div>
      <SureButton
        words="Revoke"
        asks={`Revoke “${token.name}”? Programs that use it are refused from then on.`}
        sure="Revoke"
        act={() => revokeToken(token.id).then(refresh)}
      />
    </li>
  );
}

/** A token as it is asked for, and making it. */
function useNewToken(refresh: () => Promise<void>) {
  const mutation = useMutation();
  const [name, setName] = useState('');
  const [scope, setScope] = useState<Scope>('read');
  const [days, setDays] = useState<'30' | '365' | ''>('365');
  const [password, setPassword] = useState('');
  const [secret, setSecret] = useState<string>();
  const make = () =>
    mutation.run(async () => {
      const made = await makeToken({ name, scope, password, ...(days !== '' && { days: Number(days) }) });
      setSecret(made.secret);
      setName('');
      setPassword('');
      await refresh();
    });
  return {
    ...{ name, setName, scope, setScope, days, setDays, password, setPassword },
    ...{ secret, forgetSecret: () => setSecret(undefined), make, mutation },
  };
}

function NewToken({ refresh }: { readonly refresh: () => Promise<void> }) {
  const me = useMe();
  const { mutation, ...asked } = useNewToken(refresh);
  const within = scopes.filter((one) => me !== null && roleWithin(me.role, one) === roleWithin('owner', one));
  if (asked.secret) {
    return (
      <MadeOnce
        title="A new token"
        says="Keep it where only your program reads it: it is shown this once."
        text={asked.secret}
        copyLabel="Copy the token"
        onDone={asked.forgetSecret}
      />
    );
  }
  return (
    <form
      class="form"
      aria-label="A new token"
      onSubmit={(event) => {
        event.preventDefault();
        void asked.make();
      }}
    >
      <TextField
        label="What is it for?"
        value={asked.name}
        onValue={asked.setName}
        required
        placeholder="Weather script"
        error={mutation.fieldError('/name')}
      />
      <PickField
        label="What may it do?"
        value={asked.scope}
        choices={within.map((one) => [one, `It ${scopeNames[one]}`] as const)}
        onValue={asked.setScope}
        error={mutation.fieldError('/scope')}
      />
      <PickField label="How long?" value={asked.days} choices={lengths} onValue={asked.setDays} />
      <input type="text" hidden autocomplete="username" value={me?.name ?? ''} readOnly />
      <PasswordField
        label="Your password"
        kind="present"
        hint="Asked once more, as a token goes on working after you sign out."
        value={asked.password}
        onValue={asked.setPassword}
        error={mutation.fieldError('/password')}
      />
      {mutation.fieldError('/password') === undefined && <Refusal error={mutation.error} />}
      <button type="submit" class="primary" disabled={mutation.busy}>
        Make the token
      </button>
    </form>
  );
}
