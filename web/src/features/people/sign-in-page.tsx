/** Stands at every address while nobody is signed in; the page asked for comes right after. */
import { useState } from 'preact/hooks';
import { connect } from '../../data/live/connection.ts';
import { changeInstallation } from '../../data/live/installation.ts';
import { me } from '../../data/me.ts';
import { owedSignOut, settleSignOut } from '../../data/owed-sign-out.ts';
import { bearerToken, setBearerToken } from '../../data/prefs.ts';
import { useStore } from '../../data/store.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { Refusal, TextField } from '../../ui/parts/forms.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { NameField, PasswordField } from './password-field.tsx';
import { signIn } from './people-api.ts';
import './people.css';
import { useSignInWords } from './use-sign-in-words.ts';

/** After somebody came in: everything is asked for anew. */
export function comeIn(): void {
  changeInstallation({ link: 'connecting', linkSinceMs: Date.now() });
  connect();
}

export function SignInPage() {
  const { text, rich } = useSignInWords();
  const heading = usePage(text('page-sign-in.title'));
  const mutation = useMutation();
  const known = useStore(me, (value) => value);
  const [name, setName] = useState('');
  const [password, setPassword] = useState('');
  const owed = useStore(owedSignOut, (value) => value);
  const onlyToken = known !== null && !known.hasOwner && known.hasToken;
  if (known !== null && !known.hasOwner && !known.hasToken) return <NobodyYet />;
  return (
    <div class="page narrow">
      <h1 ref={heading} tabIndex={-1}>
        {text(onlyToken ? 'page-sign-in.token.wanted' : 'page-sign-in.who')}
      </h1>
      {owed && (
        <div class="hint" role="status">
          <p>{rich('page-sign-in.owed', { strong: (inner) => <b>{inner}</b> })}</p>
          <p>{text('page-sign-in.owed.lost')}</p>
        </div>
      )}
      {!onlyToken && (
        <form
          class="form"
          aria-label={text('page-sign-in.title')}
          onSubmit={(event) => {
            event.preventDefault();
            void mutation.run(async () => {
              setBearerToken('');
              await signIn(name, password);
              settleSignOut(); // the new session took the place of the one before
              comeIn();
            });
          }}
        >
          <NameField label={text('page-sign-in.name')} value={name} onValue={setName} />
          <PasswordField label={text('page-sign-in.password')} kind="present" value={password} onValue={setPassword} />
          <Refusal error={mutation.error} />
          <button type="submit" class="primary" disabled={mutation.busy}>
            {text('page-sign-in.title')}
          </button>
          <p class="hint">{text('page-sign-in.forgotten')}</p>
        </form>
      )}
      {known?.hasToken && <ByToken open={onlyToken} />}
    </div>
  );
}

/** The token of the environment opens everything, for whoever runs the program. */
function ByToken({ open }: { readonly open: boolean }) {
  const { text } = useSignInWords();
  const [token, setToken] = useState('');
  const wasRefused = bearerToken() !== '';
  return (
    <details class="more" open={open || wasRefused}>
      <summary>{text('page-sign-in.token.open')}</summary>
      <form
        class="form"
        aria-label={text('page-sign-in.token.form')}
        onSubmit={(event) => {
          event.preventDefault();
          setBearerToken(token.trim());
          comeIn();
        }}
      >
        <TextField
          label={text('page-sign-in.token')}
          type="password"
          value={token}
          onValue={setToken}
          required
          hint={text('page-sign-in.token.hint')}
          error={wasRefused && token === '' ? text('page-sign-in.token.refused') : undefined}
        />
        <button type="submit" class={open ? 'primary' : undefined}>
          {text('page-sign-in.token.do')}
        </button>
      </form>
    </details>
  );
}

function NobodyYet() {
  const { text } = useSignInWords();
  const heading = usePage(text('page-sign-in.nobody.title'));
  return (
    <div class="page narrow">
      <h1 ref={heading} tabIndex={-1}>
        {text('page-sign-in.nobody')}
      </h1>
      <p class="lead">{text('page-sign-in.nobody.how')}</p>
    </div>
  );
}
