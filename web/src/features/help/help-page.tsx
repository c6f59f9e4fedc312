/** The help: a list of its chapters, or one of them. It asks nothing of the server, so that it opens for anybody and out of reach. */

import type { ComponentType } from 'preact';
import { useEffect } from 'preact/hooks';
import { useRoute } from 'preact-iso';
import { pageHelpLinkTexts } from '../../../../shared/messages/made/en/page-help-link.ts';
import { usePageTexts } from '../../data/live/page-texts.ts';
import { MachineMade } from '../../ui/parts/machine-made.tsx';
import { NoPage } from '../../ui/parts/no-page.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { Cautions } from './cautions.tsx';
import { type Chapter, chapterPath, chapters, isChapter } from './chapters.ts';
import { Chart } from './chart.tsx';
import { Device } from './device.tsx';
import { FirstSteps } from './first-steps.tsx';
import { useHelp } from './help-texts.tsx';
import { Notifications } from './notifications.tsx';
import { Probe } from './probe.tsx';
import { Probes } from './probes.tsx';
import { Questions } from './questions.tsx';
import { Signs } from './signs.tsx';
import { Squeeze } from './squeeze.tsx';
import { Stages } from './stages.tsx';
import { Warnings } from './warnings.tsx';
import '../../ui/style/contents.css';
import './help.css';

const contents: Readonly<Record<Chapter, ComponentType>> = {
  'first-steps': FirstSteps,
  probes: Probes,
  probe: Probe,
  squeeze: Squeeze,
  signs: Signs,
  stages: Stages,
  warnings: Warnings,
  notifications: Notifications,
  chart: Chart,
  device: Device,
  cautions: Cautions,
  questions: Questions,
};

/** Chapters that say what is so in the trade, and not only how the program works. */
const ofTheTrade: readonly Chapter[] = [
  'first-steps',
  'probes',
  'probe',
  'squeeze',
  'stages',
  'warnings',
  'chart',
  'device',
  'cautions',
];

export function HelpPage() {
  const { params } = useRoute();
  const { chapter } = params;
  if (chapter === undefined) return <Contents />;
  return isChapter(chapter) ? <ChapterPage key={chapter} chapter={chapter} /> : <NoPage />;
}

function useTitles(): (chapter: Chapter) => string {
  const { text } = usePageTexts(pageHelpLinkTexts);
  return (chapter) => text(`page-help-link.chapter.${chapter}`);
}

function Contents() {
  const { text } = useHelp();
  const titleOf = useTitles();
  const heading = usePage(text('page-help.title'));
  return (
    <div class="page narrow">
      <h1 ref={heading} tabIndex={-1}>
        {text('page-help.title')}
      </h1>
      <p class="lead">{text('page-help.lead')}</p>
      <MachineMade />
      <ol class="contents">
        {chapters.map((chapter) => (
          <li key={chapter}>
            <a href={chapterPath(chapter)}>{titleOf(chapter)}</a>
            <p class="quiet">{text(`page-help.${chapter}.lead`)}</p>
          </li>
        ))}
      </ol>
    </div>
  );
}

function ChapterPage({ chapter }: { readonly chapter: Chapter }) {
  const { text } = useHelp();
  const titleOf = useTitles();
  const heading = usePage(titleOf(chapter));
  // The browser looked for it before this page was here.
  useEffect(() => {
    if (location.hash !== '') document.getElementById(location.hash.slice(1))?.scrollIntoView();
  }, []);
  const Chapter = contents[chapter];
  return (
    <article class="page">
      <header class="opening">
        <p class="dateline">
          <a href="/help">{text('page-help.title')}</a>
        </p>
        <h1 ref={heading} tabIndex={-1}>
          {titleOf(chapter)}
        </h1>
        <p class="lead">{text(`page-help.${chapter}.lead`)}</p>
        {ofTheTrade.includes(chapter) && <p class="hint">{text('page-help.standing')}</p>}
      </header>
      <Chapter />
      <Turning chapter={chapter} />
    </article>
  );
}

/** To the chapters before and after. */
function Turning({ chapter }: { readonly chapter: Chapter }) {
  const { text } = useHelp();
  const titleOf = useTitles();
  const place = chapters.indexOf(chapter);
  const [before, after] = [chapters[place - 1], chapters[place + 1]];
  return (
    <nav class="help-turning no-print" aria-label={text('page-help.title')}>
      {before && <a href={chapterPath(before)}>{text('page-help.before', { chapterText: titleOf(before) })}</a>}
      <a href="/help">{text('page-help.all')}</a>
      {after && <a href={chapterPath(after)}>{text('page-help.after', { chapterText: titleOf(after) })}</a>}
    </nav>
  );
}
