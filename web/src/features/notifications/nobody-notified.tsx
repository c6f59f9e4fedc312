/**
 * On every page while nobody can be notified of a warning, with the way to change it. It goes by what the settings show as delivery,
 * so both say the same, and goes away by itself.
 */
import { useLocation } from 'preact-iso';
import { useInstallation } from '../../data/live/use-installation.ts';
import { useMay } from '../../data/me.ts';
import './nobody-notified.css';

export function NobodyNotified() {
  const isNobody = useInstallation(({ health, link }) => link !== 'locked' && health?.parts.delivery.state === 'off');
  const mayOwn = useMay('owner');
  const { path } = useLocation();
  if (!isNobody) return null;
  return (
    <p class="nobody-notified">
      <b>Nobody is notified of warnings: they stand on these pages only.</b>{' '}
      {path === '/notifications' ? (
        'Set up one of the channels below, and send a test.'
      ) : mayOwn ? (
        <a href="/notifications">Set up e-mail, push or a webhook</a>
      ) : (
        <>
          Ask an owner to set up notifications, or <a href="/notifications">set up your own</a>.
        </>
      )}
    </p>
  );
}
