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
import { PickField, Refusal, TextField } from '../../ui/parts/forms.tsx';
import { SureButton } from '../../ui/parts/sure-button.tsx';
import { MadeOnce } from './made-once.tsx';
import { PasswordField } from './password-field.tsx';
import { getTokens, makeToken, revokeToken } from './people-api.ts';
import './people.css';
import { usePeopleWords } from './use-people-words.ts';

export function TokensPart() {
  const { rich } = usePeopleWords();
  const { value, error, refresh } = useQuery('tokens', getTokens);
  return (
    <>
      <p>
        {rich('page-people.token.what', {
          headerText: 'Authorization: Bearer …',
          mono: (inner) => <code>{inner}</code>,
        })}
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
  const { text } = usePeopleWords();
  const reader = useReader();
  const me = useMe();
  const when = (instant: string) => dayAndTime(Date.parse(instant), reader);
  return (
    <li>
      <div>
        <h3>{token.name}</h3>
        <p class="quiet">
          {text('page-people.token.says', {
            isOther: token.personId !== me?.id,
            personName: token.personName,
            scope: token.scope === 'own' ? 'other' : token.scope,
            madeText: when(token.madeAt),
            isUsed: token.usedAt !== null,
            usedText: token.usedAt === null ? '' : when(token.usedAt),
            isEnding: token.endsAt !== null,
            endsText: token.endsAt === null ? '' : fullDay(Date.parse(token.endsAt), reader),
          })}
        </p>
      </div>
      <SureButton
        words={text('page-people.token.revoke')}
        asks={text('page-people.token.revoke.asked', { tokenName: token.name })}
        sure={text('page-people.token.revoke')}
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
  const { text } = usePeopleWords();
  const me = useMe();
  const { mutation, ...asked } = useNewToken(refresh);
  const within = scopes.filter((one) => me !== null && roleWithin(me.role, one) === roleWithin('owner', one));
  if (asked.secret) {
    return (
      <MadeOnce
        title={text('page-people.token.new')}
        says={text('page-people.token.new.made')}
        text={asked.secret}
        copyLabel={text('page-people.token.new.copy')}
        onDone={asked.forgetSecret}
      />
    );
  }
  return (
    <form
      class="form"
      aria-label={text('page-people.token.new')}
      onSubmit={(event) => {
        event.preventDefault();
        void asked.make();
      }}
    >
      <TextField
        label={text('page-people.token.name')}
        value={asked.name}
        onValue={asked.setName}
        required
        placeholder={text('page-people.token.name.example')}
        error={mutation.fieldError('/name')}
      />
      <PickField
        label={text('page-people.token.scope')}
        value={asked.scope}
        choices={within.map((one) => [one, text(`page-people.token.scope.${one}`)] as const)}
        onValue={asked.setScope}
        error={mutation.fieldError('/scope')}
      />
      <PickField
        label={text('page-people.token.length')}
        value={asked.days}
        choices={[
          ['30', text('page-people.length.month')],
          ['365', text('page-people.length.year')],
          ['', text('page-people.length.ever')],
        ]}
        onValue={asked.setDays}
      />
      <input type="text" hidden autocomplete="username" value={me?.name ?? ''} readOnly />
      <PasswordField
        label={text('page-people.token.password')}
        kind="present"
        hint={text('page-people.token.password.hint')}
        value={asked.password}
        onValue={asked.setPassword}
        error={mutation.fieldError('/password')}
      />
      {mutation.fieldError('/password') === undefined && <Refusal error={mutation.error} />}
      <button type="submit" class="primary" disabled={mutation.busy}>
        {text('page-people.token.make')}
      </button>
    </form>
  );
}
