/** What stands around every page; it comes with the first page, so it is kept short and holds no quantities. */
import { pageShellTexts } from '../../../../shared/messages/made/en/page-shell.ts';
import type { PageShellParams } from '../../../../shared/messages/made/params/page-shell.ts';
import { type PageWords, usePageTexts } from '../../data/live/page-texts.ts';

export type ShellWords = PageWords<PageShellParams>;

export const useShellWords = (): ShellWords => usePageTexts(pageShellTexts);
