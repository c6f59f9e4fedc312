/** The "?" in the head of every page, to the chapter that speaks of it. */
import { useLocation } from 'preact-iso';
import { pageHelpLinkTexts } from '../../../../shared/messages/made/en/page-help-link.ts';
import { usePageTexts } from '../../data/live/page-texts.ts';
import { useInstallation } from '../../data/live/use-installation.ts';
import { chapterFor, helpPath } from './chapters.ts';
import './help-link.css';

export function HelpLink() {
  const { path } = useLocation();
  const { text } = usePageTexts(pageHelpLinkTexts);
  const isEmpty = useInstallation(({ piles }) => piles?.length === 0);
  const chapter = chapterFor(path, isEmpty);
  const chapterText = text(chapter === null ? 'page-help-link.all' : `page-help-link.chapter.${chapter}`);
  const name = text('page-help-link.to', { chapterText });
  return (
    <a class="help-link" href={helpPath(path, isEmpty)} aria-label={name} title={name}>
      ?
    </a>
  );
}
