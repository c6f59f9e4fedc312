/** What a person may not do is not offered; where a link leads to it, the page says why. */
import type { ComponentChildren, ComponentType } from 'preact';
import type { Role } from '../../../../shared/person.ts';
import { useInstallation } from '../../data/live/use-installation.ts';
import { me, useMay, useMe } from '../../data/me.ts';
import { useStore } from '../../data/store.ts';
import { usePage } from './use-page.ts';
import { useShellWords } from './use-shell-words.ts';

interface OnlyForProps {
  /** The least that is needed. */
  readonly to: Role;
  readonly children: ComponentChildren;
}

interface MayProps extends OnlyForProps {
  /** What stands there for everybody else. */
  readonly otherwise?: ComponentChildren;
}

/** Controls of a page: shown to those who may use them. */
export function May({ to, children, otherwise = null }: MayProps) {
  return useMay(to) ? children : otherwise;
}

/** A whole page. */
export function OnlyFor({ to, children }: OnlyForProps) {
  const isAsking = useStore(me, (known) => known === null);
  const isConnecting = useInstallation(({ link }) => link === 'connecting');
  const may = useMay(to);
  // Not before it is known who sits here; out of reach it stays unknown, and the page of use.
  if (isAsking && isConnecting) return null;
  return may ? children : <NotForYou to={to} />;
}

/** The same, for the table of pages. */
export function onlyFor(to: Role, Page: ComponentType): ComponentType {
  return () => (
    <OnlyFor to={to}>
      <Page />
    </OnlyFor>
  );
}

function NotForYou({ to }: Pick<OnlyForProps, 'to'>) {
  const { text } = useShellWords();
  const heading = usePage(text('page-shell.not-for-you'));
  const role = useMe()?.role ?? 'viewer';
  return (
    <div class="page narrow">
      <h1 ref={heading} tabIndex={-1}>
        {text('page-shell.not-for-you.who', { to: to === 'owner' ? 'owner' : 'other' })}
      </h1>
      <p class="lead">{text('page-shell.not-for-you.role', { role: role === 'viewer' ? 'other' : role })}</p>
      <p>
        <a href="/">{text('page-shell.to-piles')}</a>
      </p>
    </div>
  );
}
