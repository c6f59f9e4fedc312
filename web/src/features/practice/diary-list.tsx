/** What happened in a run, the newest first. */

import { useReader } from '../../data/live/use-installation.ts';
import { usePrefs } from '../../data/prefs.ts';
import { dayAndTime } from '../../ui/format/local-time.ts';
import { sentenceIn } from '../../ui/format/temperature.ts';
import { capital } from '../../ui/format/words.ts';
import type { DiaryEntry } from './diary.ts';
import './tending.css';

export function DiaryList({ diary }: { readonly diary: readonly DiaryEntry[] }) {
  const { unit } = usePrefs();
  const reader = useReader();
  if (diary.length === 0) return <p class="quiet">Nothing yet: no act of yours, and no warning.</p>;
  return (
    <ol class="diary practice-diary">
      {diary
        .map((entry, i) => (
          // Entries are only ever added at the end, so their place names them.
          <li key={i} class={`diary-${entry.kind}`}>
            <time>{capital(dayAndTime(entry.atMs, reader))}</time>
            <p>
              <b>{entry.words}</b>
              {entry.detail && <span class="diary-note"> {sentenceIn(unit, entry.detail)}</span>}
            </p>
          </li>
        ))
        .reverse()}
    </ol>
  );
}
