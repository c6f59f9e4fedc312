/**
 * Where a link leads that lets somebody in once: set up, invited, or with a new password to choose. It never leaves the
 * secret in the address: it is taken out of it, and out of the browser's history, at once.
 */
import { useEffect, useState } from 'preact/hooks';
import { useLocation } from 'preact-iso';
import { passwordProblem } from '../../../../shared/password-rule.ts';
import { useReader } from '../../data/live/use-installation.ts';
import { settleSignOut } from '../../data/owed-sign-out.ts';
import { setBearerToken } from '../../data/prefs.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { useQuery } from '../../data/use-query.ts';
import { dayAndTime } from '../../ui/format/local-time.ts';
import { aRole, roleSays } from '../../ui/format/role-words.ts';
import { Refusal } from '../../ui/parts/forms.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { NameField, PasswordField } from './password-field.tsx';
import { readLink, takeLink } from './people-api.ts';
import { comeIn } from './sign-in-page.tsx';
import './people.css';
import { useSay } from '../../data/live/use-say.ts';
import { renderPassword } from './password-words.ts';

type Shown = Awaited<ReturnType<typeof readLink>>;

export function LinkPage() {
  const [secret] = useState(() => location.hash.slice(1));
  useEffect(() => history.replaceState(history.state, '', location.pathname), []);
  const link = useQuery(secret, () => readLink(secret));
  if (link.value) return <TakeLink secret={secret} link={link.value} />;
  return <NoLink error={secret === '' ? undefined : link.error} waits={secret !== '' && link.error === undefined} />;
}

function NoLink({ error, waits }: { readonly error: unknown; readonly waits: boolean }) {
  const heading = usePage('A link');
  return (
    <div class="page narrow">
      <h1 ref={heading} tabIndex={-1}>
        {waits ? 'One moment.' : 'This link opens nothing.'}
      </h1>
      {!waits && (
        <p class="lead">
          {error === undefined
            ? 'It must be whole, with all that stands behind “#”. Open it again as you were given it.'
            : ''}
        </p>
      )}
      <Refusal error={error} />
      {!waits && (
        <p>
          <a href="/">Go to the piles</a>
        </p>
      )}
    </div>
  );
}

const titles: Record<Shown['kind'], string> = {
  setup: 'Make this installation yours.',
  invitation: 'Come in.',
  reset: 'Choose a new password.',
};

interface TakeLinkProps {
  readonly secret: string;
  readonly link: Shown;
}

/** Name and password as they are typed, and coming in with them. */
function useComingIn({ secret, link }: TakeLinkProps) {
  const mutation = useMutation();
  const { route } = useLocation();
  const [name, setName] = useState('');
  const [password, setPassword] = useState('');
  const [tried, setTried] = useState(false);
  const say = useSay(renderPassword);
  const problem = passwordProblem(password, [link.name ?? name]);
  const weak = tried && problem !== undefined ? say(problem) : undefined;
  const go = () =>
    mutation.run(async () => {
      await takeLink({ secret, password, ...(link.kind !== 'reset' && { name }) });
      setBearerToken('');
      settleSignOut();
      comeIn();
      route('/', true);
    });
  const tryIt = () => {
    setTried(true);
    if (problem === undefined) void go();
  };
  const typePassword = (value: string) => {
    mutation.clear();
    setPassword(value);
  };
  return { name, setName, password, typePassword, weak, tryIt, mutation };
}

function TakeLink(props: TakeLinkProps) {
  const { link } = props;
  const heading = usePage(titles[link.kind]);
  const reader = useReader();
  const { name, setName, password, typePassword, weak, tryIt, mutation } = useComingIn(props);
  const isReset = link.kind === 'reset';
  return (
    <div class="page narrow">
      <h1 ref={heading} tabIndex={-1}>
        {titles[link.kind]}
      </h1>
      <p class="lead">
        {link.kind === 'setup' && 'You become its first owner. From then on everybody signs in, on this machine too.'}
        {link.kind === 'invitation' &&
          `${link.madeBy} invites you as ${link.role}: ${aRole[link.role]} ${roleSays[link.role]}.`}
        {isReset && `For ${link.name}. Wherever you are still signed in, you will be signed out.`}
      </p>
      <form
        class="form"
        aria-label={titles[link.kind]}
        onSubmit={(event) => {
          event.preventDefault();
          tryIt();
        }}
      >
        {!isReset && (
          <NameField
            label="Choose a user name"
            hint="You sign in with it, and it stands beside what you write."
            value={name}
            onValue={setName}
            error={mutation.fieldError('/name')}
          />
        )}
        <PasswordField
          label="Password"
          kind="new"
          hint="At least 12 characters. Four words that have nothing to do with each other do well."
          value={password}
          onValue={typePassword}
          error={weak ?? mutation.fieldError('/password')}
        />
        <Refusal error={mutation.error} />
        <button type="submit" class="primary" disabled={mutation.busy}>
          {isReset ? 'Keep the new password' : 'Come in'}
        </button>
        <p class="hint">The link works once, until {dayAndTime(Date.parse(link.endsAt), reader)}.</p>
      </form>
    </div>
  );
}
