/** Says on every page what is wrong with the server itself; nothing while nothing is. */
import { useEffect } from 'preact/hooks';
import type { Health } from '../../../../shared/contracts/health.ts';
import { pushEnded } from '../../data/forget-this-device.ts';
import { refreshHealth } from '../../data/live/refresh-health.ts';
import { useInstallation } from '../../data/live/use-installation.ts';
import { useStore } from '../../data/store.ts';
import { capital } from '../../ui/format/words.ts';
import { type ShellWords, useShellWords } from '../../ui/parts/use-shell-words.ts';
import { NobodyNotified } from './nobody-notified.tsx';
import './system-line.css';

const askEveryMs = 20_000;

export function SystemLine() {
  const words = useShellWords();
  const { text, rich } = words;
  const health = useInstallation((installation) => installation.health);
  const pushOver = useStore(pushEnded, (ended) => ended);
  useEffect(() => {
    const timer = setInterval(() => void refreshHealth(), askEveryMs);
    return () => clearInterval(timer);
  }, []);
  return (
    <div class="system-line" role="status">
      {troubles(health, words).map((said) => (
        <p class="system-trouble" key={said}>
          {said}
        </p>
      ))}
      <NobodyNotified />
      {pushOver && (
        <p class="system-trouble">
          {text(`page-shell.push.${pushOver}`)}{' '}
          {rich('page-shell.push.again', { link: (inner) => <a href="/notifications">{inner}</a> })}
        </p>
      )}
    </div>
  );
}

/** What a person should know wherever they are: nothing can be kept, or soon nothing can. */
function troubles(health: Health | null, { text }: Pick<ShellWords, 'text'>): string[] {
  if (!health) return [];
  const { disk, readings, journal, piles, broker, delivery, audit } = health.parts;
  const said: string[] = [];
  if (disk.state === 'degraded' || disk.state === 'down') said.push(disk.detail);
  if (broker.state === 'down') said.push(text('page-shell.down.broker', { problemText: broker.detail }));
  else if (readings.state === 'down') said.push(text('page-shell.down.readings', { problemText: readings.detail }));
  if (journal.state === 'down') said.push(text('page-shell.down.journal', { problemText: journal.detail }));
  if (piles.state !== 'ok') said.push(`${capital(piles.detail)}.`);
  if (delivery.state === 'degraded' || delivery.state === 'down') said.push(`${delivery.detail}.`);
  if (audit.state === 'degraded') said.push(audit.detail);
  return said;
}
