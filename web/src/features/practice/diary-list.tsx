/** What happened in a run, the newest first. */

import { useReader } from '../../data/live/use-installation.ts';
import { useSaid } from '../../data/live/use-say.ts';
import { renderPile } from '../../ui/format/render-pile.ts';
import { warningTitle } from '../../ui/format/words.ts';
import { actWords } from './act-words.ts';
import type { DiaryEntry } from './diary.ts';
import { whenOf } from './practice-time.ts';
import { usePracticeSay, usePracticeWords } from './use-practice-words.ts';
import './tending.css';

export function DiaryList({ diary }: { readonly diary: readonly DiaryEntry[] }) {
  const reader = useReader();
  const { text } = usePracticeWords();
  if (diary.length === 0) return <p class="quiet">{text('page-practice.diary.none')}</p>;
  return (
    <ol class="diary practice-diary">
      {diary
        .map((entry, i) => (
          // Entries are only ever added at the end, so their place names them.
          <li key={i} class={`diary-${entry.kind}`}>
            <time>{text('page-practice.when.start', whenOf(entry.atMs, reader))}</time>
            <Happened entry={entry} />
          </li>
        ))
        .reverse()}
    </ol>
  );
}

function Happened({ entry }: { readonly entry: DiaryEntry }) {
  const words = usePracticeWords();
  const say = usePracticeSay();
  const said = useSaid(renderPile);
  if (entry.kind === 'away') return <Line what={words.text('page-practice.diary.away', { awayHours: entry.hours })} />;
  if (entry.kind === 'act')
    return <Line what={actWords('done', entry.act, words)} detail={entry.found && say(entry.found)} />;
  const { alarm } = entry;
  const warningText = warningTitle(alarm.kind, alarm.position);
  return <Line what={words.text('page-practice.diary.warning', { warningText })} detail={said(alarm, 'todo')} />;
}

function Line({ what, detail }: { readonly what: string; readonly detail?: string | undefined }) {
  return (
    <p>
      <b>{what}</b>
      {detail && <span class="diary-note"> {detail}</span>}
    </p>
  );
}
