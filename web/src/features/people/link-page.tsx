/**
 * Where a link leads that lets somebody in once: set up, invited, or with a new password to choose. It never leaves the
 * secret in the address: it is taken out of it, and out of the browser's history, at once.
 */
import { useEffect, useState } from 'preact/hooks';
import { useLocation } from 'preact-iso';
import { passwordProblem } from '../../../../shared/password-rule.ts';
import { settleSignOut } from '../../data/owed-sign-out.ts';
import { setBearerToken } from '../../data/prefs.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { useQuery } from '../../data/use-query.ts';
import { Refusal } from '../../ui/parts/forms.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { NameField, PasswordField } from './password-field.tsx';
import { readLink, takeLink } from './people-api.ts';
import { comeIn } from './sign-in-page.tsx';
import './people.css';
import { useSay } from '../../data/live/use-say.ts';
import { renderPassword } from './password-words.ts';
import { useSignInWords } from './use-sign-in-words.ts';

type Shown = Awaited<ReturnType<typeof readLink>>;

export function LinkPage() {
  const [secret] = useState(() => location.hash.slice(1));
  useEffect(() => history.replaceState(history.state, '', location.pathname), []);
  const link = useQuery(secret, () => readLink(secret));
  if (link.value) return <TakeLink secret={secret} link={link.value} />;
  return <NoLink error={secret === '' ? undefined : link.error} waits={secret !== '' && link.error === undefined} />;
}

function NoLink({ error, waits }: { readonly error: unknown; readonly waits: boolean }) {
  const { text } = useSignInWords();
  const heading = usePage(text('page-sign-in.link.title'));
  return (
    <div class="page narrow">
      <h1 ref={heading} tabIndex={-1}>
        {text(waits ? 'page-sign-in.link.wait' : 'page-sign-in.link.none')}
      </h1>
      {!waits && <p class="lead">{error === undefined ? text('page-sign-in.link.none.hint') : ''}</p>}
      <Refusal error={error} />
      {!waits && (
        <p>
          <a href="/">{text('page-sign-in.to-piles')}</a>
        </p>
      )}
    </div>
  );
}

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
  const { text } = useSignInWords();
  const { link } = props;
  const title = text(`page-sign-in.link.${link.kind}`);
  const heading = usePage(title);
  const { name, setName, password, typePassword, weak, tryIt, mutation } = useComingIn(props);
  const isReset = link.kind === 'reset';
  return (
    <div class="page narrow">
      <h1 ref={heading} tabIndex={-1}>
        {title}
      </h1>
      <p class="lead">
        {link.kind === 'setup' && text('page-sign-in.link.setup.says')}
        {link.kind === 'invitation' &&
          text(`page-sign-in.link.invited.${link.role}`, {
            isKnown: link.madeBy !== null,
            ownerName: link.madeBy ?? '',
          })}
        {isReset && text('page-sign-in.link.reset.says', { personName: link.name ?? '' })}
      </p>
      <form
        class="form"
        aria-label={title}
        onSubmit={(event) => {
          event.preventDefault();
          tryIt();
        }}
      >
        {!isReset && (
          <NameField
            label={text('page-sign-in.name.new')}
            hint={text('page-sign-in.name.new.hint')}
            value={name}
            onValue={setName}
            error={mutation.fieldError('/name')}
          />
        )}
        <PasswordField
          label={text('page-sign-in.password')}
          kind="new"
          hint={text('page-sign-in.password.hint')}
          value={password}
          onValue={typePassword}
          error={weak ?? mutation.fieldError('/password')}
        />
        <Refusal error={mutation.error} />
        <button type="submit" class="primary" disabled={mutation.busy}>
          {text(isReset ? 'page-sign-in.link.reset.do' : 'page-sign-in.link.join')}
        </button>
        <p class="hint">{text('page-sign-in.link.ends', { endsAtMs: Date.parse(link.endsAt) })}</p>
      </form>
    </div>
  );
}
