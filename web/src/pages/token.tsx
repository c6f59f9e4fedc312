/**
 * web/pages/token.tsx: asks for the token when the house wants one.
 */
import { useState } from 'preact/hooks';
import { connect } from '../live/connection.ts';
import { changeHouse } from '../live/house.ts';
import { TextField } from '../parts/forms.tsx';
import { usePage } from '../parts/use-page.ts';
import { bearerToken, setBearerToken } from '../prefs.ts';

export function TokenPage() {
  const heading = usePage('Token wanted');
  const [token, setToken] = useState('');
  const wasRefused = bearerToken() !== '';
  return (
    <div class="page narrow">
      <h1 ref={heading} tabIndex={-1}>
        This house wants its token.
      </h1>
      <p class="lead">
        It is the word set as <code>BRANHEARTH_API_TOKEN</code> where the program runs. It is kept in this browser only.
      </p>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          setBearerToken(token.trim());
          changeHouse({ link: 'connecting', linkSinceMs: Date.now() });
          connect();
        }}
      >
        <TextField
          label="Token"
          type="password"
          value={token}
          onValue={setToken}
          required
          error={wasRefused && token === '' ? 'The token kept so far was refused' : undefined}
        />
        <button type="submit" class="primary">
          Open
        </button>
      </form>
    </div>
  );
}
