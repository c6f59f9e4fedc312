/** Says on every page that it is not live and how old what it shows is, and that newer pages wait. */
import { useEffect, useState } from 'preact/hooks';
import { useLocation } from 'preact-iso';
import { recalled } from '../../data/last-answers.ts';
import { installed, takeUpNewer } from '../../data/live/installed.ts';
import { useInstallation, useReader } from '../../data/live/use-installation.ts';
import { useStore } from '../../data/store.ts';
import { ageWords } from '../format/age.ts';
import { dayAndTime } from '../format/local-time.ts';
import './offline-line.css';
import { useShellWords } from './use-shell-words.ts';

const retellEveryMs = 15_000;

export function OfflineLine() {
  const { text, rich } = useShellWords();
  const { path } = useLocation();
  const link = useInstallation((installation) => installation.link);
  const lostMs = useInstallation((installation) => installation.linkSinceMs);
  const hasPiles = useInstallation((installation) => installation.piles !== null);
  const shown = useStore(recalled, (value) => value);
  const newer = useStore(installed, (value) => value.newer);
  const nowMs = useDeviceNow();
  const reader = useReader();
  const isLost = link === 'lost' && hasPiles;
  const saidMs = oldestShownMs(shown, path) ?? lostMs;
  return (
    <div class="offline-line" role="status">
      {isLost && (
        <p>
          {rich('page-shell.offline', {
            strong: (inner) => <b>{inner}</b>,
            ageText: ageWords(nowMs - saidMs),
            whenText: dayAndTime(saidMs, reader),
          })}
        </p>
      )}
      {newer && (
        <p>
          {text('page-shell.newer')}{' '}
          <button type="button" class="plain" onClick={takeUpNewer}>
            {text('page-shell.newer.do')}
          </button>
        </p>
      )}
    </div>
  );
}

/**
 * When the oldest was said of what a page shows from memory; undefined when it shows nothing from there.
 *
 * @example oldestShownMs(new Map([['/api/piles', 5], ['/api/piles/a?', 3]]), '/piles/b') // => 5
 */
export function oldestShownMs(shown: ReadonlyMap<string, number>, path: string): number | undefined {
  const [, pile] = /^\/piles\/([^/]+)/.exec(path) ?? [];
  const ofPage = [...shown].filter(([key]) => {
    const [, of] = /^\/api\/piles\/([^/?]+)/.exec(key) ?? [];
    return of === undefined || of === pile;
  });
  return ofPage.length === 0 ? undefined : Math.min(...ofPage.map(([, saidMs]) => saidMs));
}

function useDeviceNow(): number {
  const [now, setNow] = useState(Date.now);
  useEffect(() => {
    const timer = setInterval(() => setNow(Date.now()), retellEveryMs);
    return () => clearInterval(timer);
  }, []);
  return Math.max(now, Date.now());
}
