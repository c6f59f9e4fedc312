/** The chapters of the help in the order of reading, and which of them speaks of which page. */
import { isConditionKind } from '../../../../shared/conditions/kinds.ts';

export const chapters = [
  'first-steps',
  'probes',
  'probe',
  'squeeze',
  'signs',
  'stages',
  'warnings',
  'notifications',
  'chart',
  'device',
  'cautions',
  'questions',
] as const;
export type Chapter = (typeof chapters)[number];

export const isChapter = (text: string): text is Chapter => chapters.some((chapter) => chapter === text);

/** The first that fits. */
const ofPages: readonly (readonly [RegExp, Chapter])[] = [
  [/^\/piles\/new$/, 'first-steps'],
  [/^\/piles\/[^/]+\/why/, 'warnings'],
  [/^\/piles\/[^/]+\/journal/, 'squeeze'],
  [/^\/piles\/[^/]+\/label/, 'stages'],
  [/^\/piles\//, 'signs'],
  [/^\/batches\/[^/]+\/record/, 'cautions'],
  [/^\/(batches|lots|lineage|plan)/, 'stages'],
  [/^\/(seasons|weather)/, 'chart'],
  [/^\/probes/, 'probes'],
  [/^\/practice/, 'first-steps'],
  [/^\/notifications/, 'notifications'],
];

/** @param isEmpty Whether no pile is watched yet. @returns Null where all chapters are to be offered. */
export function chapterFor(path: string, isEmpty: boolean): Chapter | null {
  if (path === '/') return isEmpty ? 'first-steps' : 'signs';
  if (path === '/more' || path === '/help' || path.startsWith('/help/')) return null;
  return ofPages.find(([pattern]) => pattern.test(path))?.[1] ?? 'questions';
}

export const chapterPath = (chapter: Chapter) => `/help/${chapter}`;

/** Where the help for a page stands: of a page about one warning, that warning. @example helpPath('/piles/a/why/drying', false) // => "/help/warnings#drying" */
export function helpPath(path: string, isEmpty: boolean): string {
  const chapter = chapterFor(path, isEmpty);
  if (chapter === null) return '/help';
  const kind = /\/why\/([a-z-]+)$/.exec(path)?.[1];
  return isConditionKind(kind) ? `${chapterPath(chapter)}#${kind}` : chapterPath(chapter);
}
