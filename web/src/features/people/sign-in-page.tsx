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

/** After somebody came in: everything is asked for anew. */
export function comeIn(): void {
  changeInstallation({ link: 'connecting', linkSinceMs: Date.now() });
  connect();
}

export function SignInPage() {
  const heading = usePage('Sign in');
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
        {onlyToken ? 'This server wants its token.' : 'Who is there?'}
      </h1>
      {owed && (
        <div class="hint" role="status">
          <p>
            <b>You are signed out on this device.</b> The server is out of reach and has not heard of it yet. This page
            says it as soon as it can: leave it open, or open it again then.
          </p>
          <p>
            Should the device leave your hands before that, end its session from another one: under More, You; or an
            owner does it under People.
          </p>
        </div>
      )}
      {!onlyToken && (
        <form
          class="form"
          aria-label="Sign in"
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
          <NameField label="Your name here" value={name} onValue={setName} />
          <PasswordField label="Password" kind="present" value={password} onValue={setPassword} />
          <Refusal error={mutation.error} />
          <button type="submit" class="primary" disabled={mutation.busy}>
            Sign in
          </button>
          <p class="hint">
            Forgotten? An owner makes you a link for a new one, under More, People. Not here yet? An owner can invite
            you.
          </p>
        </form>
      )}
      {known?.hasToken && <ByToken open={onlyToken} />}
    </div>
  );
}

/** The token of the environment opens everything, for whoever runs the program. */
function ByToken({ open }: { readonly open: boolean }) {
  const [token, setToken] = useState('');
  const wasRefused = bearerToken() !== '';
  return (
    <details class="more" open={open || wasRefused}>
      <summary>Open with the token</summary>
      <form
        class="form"
        aria-label="Open Branhearth"
        onSubmit={(event) => {
          event.preventDefault();
          setBearerToken(token.trim());
          comeIn();
        }}
      >
        <TextField
          label="Token"
          type="password"
          value={token}
          onValue={setToken}
          required
          hint="The word set as BRANHEARTH_API_TOKEN where the program runs. It is kept in this browser only."
          error={wasRefused && token === '' ? 'The token kept so far was refused' : undefined}
        />
        <button type="submit" class={open ? 'primary' : undefined}>
          Open
        </button>
      </form>
    </details>
  );
}

function NobodyYet() {
  const heading = usePage('Nobody is set up yet');
  return (
    <div class="page narrow">
      <h1 ref={heading} tabIndex={-1}>
        Nobody is set up here yet.
      </h1>
      <p class="lead">
        When the program starts it writes down a link for its first owner, good for 24 hours: look for “Nobody is set up
        as owner yet” in what it printed last, and open that. Or open these pages on the machine it runs on.
      </p>
    </div>
  );
}
