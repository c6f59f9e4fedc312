/**
 * On every page while nobody can be notified of a warning, with the way to change it. It goes by what the settings show as delivery,
 * so both say the same, and goes away by itself.
 */
import { useLocation } from 'preact-iso';
import { useInstallation } from '../../data/live/use-installation.ts';
import { useMay } from '../../data/me.ts';
import './nobody-notified.css';
import { useShellWords } from '../../ui/parts/use-shell-words.ts';

export function NobodyNotified() {
  const { text, rich } = useShellWords();
  const isNobody = useInstallation(({ health, link }) => link !== 'locked' && health?.parts.delivery.state === 'off');
  const mayOwn = useMay('owner');
  const { path } = useLocation();
  if (!isNobody) return null;
  return (
    <p class="nobody-notified">
      <b>{text('page-shell.nobody')}</b>{' '}
      {path === '/notifications' ? (
        text('page-shell.nobody.below')
      ) : mayOwn ? (
        <a href="/notifications">{text('page-shell.nobody.set-up')}</a>
      ) : (
        rich('page-shell.nobody.ask', { link: (inner) => <a href="/notifications">{inner}</a> })
      )}
    </p>
  );
}
