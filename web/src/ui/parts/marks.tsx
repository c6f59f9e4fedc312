/** Small marks with a word beside each: how pressing a pile is, and whether the page is live. */
import type { PileSummary } from '../../../../shared/contracts/piles.ts';
import { useInstallation, useReader } from '../../data/live/use-installation.ts';
import { clockTime } from '../format/local-time.ts';
import { useShellWords } from './use-shell-words.ts';

type Tone = PileSummary['tone'];

/** A heap that fills as the matter presses: empty, half, full, and full with a flame above it; broken where nothing is known. */
const heaps: Record<Tone, string> = {
  calm: '',
  unknown: '',
  watch: 'M5 13.2Q10 8.5 15 13.2Z',
  act: 'M2.5 15Q5.5 5 10 5T17.5 15Z',
  danger: 'M2.5 15Q5.5 7.5 10 7.5T17.5 15Z',
};

export function ToneMark({ tone }: { readonly tone: Tone }) {
  const { text } = useShellWords();
  return (
    <span class={`tone tone-${tone}`}>
      <svg viewBox="0 0 20 18" aria-hidden="true">
        <path
          class="tone-outline"
          stroke-dasharray={tone === 'unknown' ? '3 2.5' : undefined}
          d={tone === 'danger' ? 'M2 15.5Q5.5 7.5 10 7.5T18 15.5Z' : 'M2 15.5Q5.5 5 10 5T18 15.5Z'}
        />
        {heaps[tone] && <path class="tone-fill" d={heaps[tone]} />}
        {tone === 'danger' && <path class="tone-fill" d="M10 0.5Q12.6 3.2 10 6Q7.4 3.2 10 0.5Z" />}
      </svg>
      {text(`page-shell.tone.${tone}`)}
    </span>
  );
}

export function LiveMark() {
  const { text } = useShellWords();
  const link = useInstallation((installation) => installation.link);
  const sinceMs = useInstallation((installation) => installation.linkSinceMs);
  const speed = useInstallation((installation) => installation.clock?.speed ?? 1);
  const reader = useReader();
  const isLive = link === 'live';
  // Nothing is wrong with the line while nobody is signed in.
  if (link === 'locked') {
    return (
      <p class="live-mark" role="status">
        {text('page-shell.live.locked')}
      </p>
    );
  }
  return (
    <p class={`live-mark${isLive ? '' : ' live-mark-off'}`} role="status">
      <svg viewBox="0 0 12 12" aria-hidden="true">
        <circle cx="6" cy="6" r="4" />
      </svg>
      {isLive
        ? text('page-shell.live', { isFast: speed > 1, speedText: String(speed) })
        : link === 'connecting'
          ? text('page-shell.live.connecting')
          : text('page-shell.live.lost', { sinceText: clockTime(sinceMs, reader) })}
    </p>
  );
}
